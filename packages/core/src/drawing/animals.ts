/** Animals as silhouettes, to scale, in their layer of the water. */
import { type Box, clamp, mix, type Point } from "./geometry.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { OpenWater } from "./open-water.ts";
import { Pen } from "./pen.ts";
import { between, type Random, streamOf } from "./random.ts";
import type { Body, SectionAnimal } from "./scene.ts";
import type { AnimalStage } from "./stage.ts";

/** Most that are drawn of one kind: a shoal reads as one well before it is counted. */
export const MOST_DRAWN: Readonly<Record<Body, number>> = {
  slender: 16,
  deep: 12,
  catfish: 8,
  eel: 6,
  shrimp: 12,
  snail: 8,
};

/** One animal: its middle, the way it looks (-1 left, 1 right), its tilt in rad (nose up positive), its length in px. */
interface Pose {
  readonly x: number;
  readonly y: number;
  readonly facing: 1 | -1;
  readonly tilt: number;
  readonly length: number;
}

export interface DrawnAnimals {
  readonly animal: SectionAnimal;
  readonly drawn: number;
  readonly poses: readonly Pose[];
  readonly node: DrawingNode | undefined;
}

interface Inks {
  readonly body: Pen;
  readonly fin: Pen;
  readonly mark: Pen;
  readonly line: Pen;
  readonly eye: Pen;
}

/** Half heights above and below the middle, in body lengths, for keeping an animal inside the water. */
const girth: Readonly<Record<Body, number>> = {
  slender: 0.2,
  deep: 0.46,
  catfish: 0.3,
  eel: 0.14,
  shrimp: 0.3,
  snail: 0.5,
};

/** From body lengths (forward, up) to the page. */
const mapper =
  ({ x, y, facing, tilt, length }: Pose) =>
  (a: number, b: number): Point => {
    const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
    return [x + facing * length * (a * c - b * s), y - length * (a * s + b * c)];
  };

const silhouettes: Readonly<Record<Body, (pose: Pose, ink: Inks) => void>> = {
  slender(pose, { body, fin, mark, eye }) {
    const m = mapper(pose);
    body.curve([m(0.5, 0), m(0.32, 0.1), m(0.06, 0.128), m(-0.2, 0.058), m(-0.33, 0.032)]);
    body
      .line(...m(-0.5, 0.13))
      .quad(...m(-0.43, 0), ...m(-0.5, -0.13))
      .line(...m(-0.33, -0.032));
    body.curve([m(-0.33, -0.032), m(-0.2, -0.06), m(0.06, -0.122), m(0.32, -0.09), m(0.5, 0)], true).close();
    fin.polyline([m(0.06, 0.11), m(-0.07, 0.25), m(-0.15, 0.07)], true);
    fin.polyline([m(-0.08, -0.09), m(-0.2, -0.21), m(-0.24, -0.05)], true);
    fin.polyline([m(0.12, -0.11), m(0.05, -0.2), m(0.03, -0.1)], true);
    mark.polyline([m(0.3, 0.008), m(-0.3, 0.005)]);
    eye.dot(...m(0.38, 0.025));
  },
  deep(pose, { body, fin, mark, eye }) {
    const m = mapper(pose);
    body.curve([m(0.5, 0), m(0.34, 0.16), m(0.08, 0.29), m(-0.16, 0.19), m(-0.3, 0.06)]);
    body
      .line(...m(-0.5, 0.17))
      .quad(...m(-0.43, 0), ...m(-0.5, -0.17))
      .line(...m(-0.3, -0.06));
    body.curve([m(-0.3, -0.06), m(-0.16, -0.19), m(0.08, -0.28), m(0.34, -0.15), m(0.5, 0)], true).close();
    fin
      .move(...m(0.16, 0.26))
      .quad(...m(0.0, 0.4), ...m(-0.24, 0.44))
      .quad(...m(-0.16, 0.26), ...m(-0.2, 0.14))
      .close();
    fin
      .move(...m(0.1, -0.26))
      .quad(...m(-0.04, -0.4), ...m(-0.26, -0.44))
      .quad(...m(-0.16, -0.26), ...m(-0.2, -0.14))
      .close();
    fin.polyline([m(0.24, -0.2), m(0.16, -0.42), m(0.14, -0.24)], true);
    for (const a of [0.3, 0.06, -0.18]) mark.polyline([m(a, 0.17), m(a - 0.02, -0.16)]);
    eye.dot(...m(0.37, 0.04));
  },
  eel(pose, { body, mark, eye }) {
    const m = mapper(pose);
    const spine = Array.from({ length: 9 }, (_, i): [number, number] => [0.5 - i / 8, 0.06 * Math.sin((i / 8) * 7.5)]);
    const half = (i: number): number => 0.036 * (i === 0 ? 0.5 : 1 - (i / 8) ** 3 * 0.85);
    body.curve(spine.map(([a, b], i) => m(a, b + half(i))));
    body.line(...m(-0.52, 0.06 * Math.sin(7.5)));
    body
      .curve([m(-0.52, 0.06 * Math.sin(7.5)), ...[...spine].reverse().map(([a, b], i) => m(a, b - half(8 - i)))], true)
      .close();
    for (let i = 1; i < 8; i += 1) {
      const [a, b] = spine[i] as [number, number];
      mark.polyline([m(a, b + 0.03), m(a, b - 0.03)]);
    }
    eye.dot(...m(0.46, 0.02));
  },
  catfish(pose, { body, fin, mark, line, eye }) {
    const m = mapper(pose);
    body.curve([m(0.5, -0.05), m(0.4, 0.075), m(0.2, 0.15), m(-0.1, 0.11), m(-0.32, 0.04)]);
    body
      .line(...m(-0.5, 0.15))
      .quad(...m(-0.43, 0), ...m(-0.5, -0.14))
      .line(...m(-0.32, -0.04));
    body.curve([m(-0.32, -0.04), m(-0.1, -0.1), m(0.2, -0.115), m(0.42, -0.105), m(0.5, -0.05)], true).close();
    fin
      .move(...m(0.18, 0.14))
      .quad(...m(0.12, 0.28), ...m(0.02, 0.31))
      .quad(...m(0.0, 0.2), ...m(-0.06, 0.11))
      .close();
    fin.polyline([m(0.24, -0.1), m(0.08, -0.2), m(0.08, -0.09)], true);
    fin.polyline([m(-0.06, -0.1), m(-0.16, -0.17), m(-0.16, -0.08)], true);
    mark.polyline([m(0.28, 0.02), m(-0.3, 0.005)]);
    line.polyline([m(0.48, -0.07), m(0.54, -0.16)]).polyline([m(0.45, -0.09), m(0.48, -0.17)]);
    eye.dot(...m(0.36, 0.05));
  },
  shrimp(pose, { body, line, eye }) {
    const m = mapper(pose);
    body.curve([m(0.36, 0.07), m(0.16, 0.17), m(-0.1, 0.18), m(-0.3, 0.08), m(-0.41, -0.09)]);
    body
      .line(...m(-0.5, -0.05))
      .line(...m(-0.49, -0.15))
      .line(...m(-0.36, -0.11));
    body.curve([m(-0.36, -0.11), m(-0.2, 0.02), m(0.02, 0.02), m(0.22, 0.015), m(0.36, 0.07)], true).close();
    line
      .move(...m(0.34, 0.08))
      .quad(...m(0.6, 0.2), ...m(0.82, 0.06))
      .move(...m(0.34, 0.09))
      .quad(...m(0.52, 0.26), ...m(0.68, 0.26));
    for (const a of [0.2, 0.09, -0.02, -0.13, -0.22]) line.polyline([m(a, 0.03), m(a + 0.04, -0.13)]);
    for (const a of [0.06, -0.08, -0.2]) line.move(...m(a, 0.17)).quad(...m(a - 0.05, 0.1), ...m(a - 0.02, 0.03));
    eye.dot(...m(0.31, 0.1));
  },
  snail(pose, { body, fin, line }) {
    const m = mapper(pose);
    fin.curve([m(-0.46, -0.3), m(-0.1, -0.2), m(0.3, -0.2), m(0.56, -0.18), m(0.62, -0.3)]).close();
    body.loop([m(0.32, -0.2), m(0.3, 0.12), m(0.02, 0.34), m(-0.3, 0.22), m(-0.4, -0.06), m(-0.2, -0.24)]);
    const turn = Array.from({ length: 11 }, (_, i): Point => {
      const a = i * 0.95;
      const r = 0.27 * (1 - i / 12);
      return m(-0.04 + Math.cos(a) * r, 0.04 + Math.sin(a) * r);
    });
    line.curve(turn).polyline([m(0.56, -0.2), m(0.68, -0.04)]);
  },
};

interface Shoal {
  readonly stage: AnimalStage;
  readonly animal: SectionAnimal;
  readonly length: number;
  readonly count: number;
  readonly random: Random;
  /** Everything placed so far, by any kind. */
  readonly placed: Pose[];
}

/** Whether a pose keeps clear of the others; they are wider than high. */
const clear = (pose: Pose, others: readonly Pose[], ease: number): boolean =>
  others.every((o) => {
    const reach = ((pose.length + o.length) / 2) * ease;
    return Math.hypot((pose.x - o.x) / 1.25, (pose.y - o.y) / 0.75) > reach;
  });

/** Keeps an animal between the panes, under the surface and over the ground. */
function kept({ stage, animal, length }: Shoal, pose: Pose): Pose {
  const { water, ground } = stage;
  const half = length * 0.56 + 1;
  const x =
    half * 2 > water.right - water.left
      ? (water.left + water.right) / 2
      : clamp(pose.x, water.left + half, water.right - half);
  const high = girth[animal.body] * length + 1;
  const foot = Math.min(ground.y(x - half, 0), ground.y(x, 0), ground.y(x + half, 0));
  return { ...pose, x, y: Math.max(water.top + high, Math.min(pose.y, foot - high * 0.4)) };
}

function tried(shoal: Shoal, propose: (attempt: number) => Pose): Pose {
  let pose = kept(shoal, propose(0));
  for (let attempt = 1; attempt < 40; attempt++) {
    if (clear(pose, shoal.placed, 1 - attempt / 50)) break;
    pose = kept(shoal, propose(attempt));
  }
  return pose;
}

function swimming(shoal: Shoal, open: OpenWater): Pose[] {
  const { stage, animal, length, count, random, placed } = shoal;
  const { water } = stage;
  const depth = stage.ground.y((water.left + water.right) / 2, 0) - water.top;
  const [from, to] = animal.layer === "top" ? [0.05, 0.24] : animal.layer === "mid" ? [0.28, 0.62] : [0.7, 0.95];
  const wide = Math.min(length * (1.9 + 1.5 * Math.sqrt(count)), (water.right - water.left) * 0.6);
  const high = Math.min(length * (0.8 + 1.05 * Math.sqrt(count)), depth * 0.45);
  const centre = open.emptiest(wide, high, water.top + depth * from, water.top + depth * to);
  const facing = random() < 0.75 ? 1 : -1;
  const out: Pose[] = [];
  for (let i = 0; i < count; i++) {
    const pose = tried(shoal, () => {
      const a = random() * 2 * Math.PI;
      const r = Math.sqrt(random());
      return {
        x: centre.x + (Math.cos(a) * r * wide) / 2,
        y: centre.y + (Math.sin(a) * r * high) / 2,
        facing: random() < 0.86 ? facing : facing === 1 ? -1 : 1,
        tilt: between(random, -0.08, 0.1),
        length,
      };
    });
    out.push(pose);
    placed.push(pose);
  }
  open.take(
    { left: centre.x - wide / 2, right: centre.x + wide / 2, top: centre.y - high / 2, bottom: centre.y + high / 2 },
    1.5,
  );
  return out;
}

/** On the ground in front, in loose groups; shrimp and snails also on wood, stone and (snails) the glass. */
function creeping(shoal: Shoal): Pose[] {
  const { stage, animal, length, count, random, placed } = shoal;
  const { water, ground } = stage;
  const lift = animal.body === "shrimp" ? 0.14 : animal.body === "snail" ? 0.3 : animal.body === "eel" ? 0.06 : 0.13;
  const seats =
    animal.body === "shrimp" || animal.body === "snail"
      ? stage.perches.filter((p) => p.point[1] > water.top + length && p.radius > 1.4 && Math.abs(p.heading) < 1)
      : [];
  const homes = Array.from({ length: 1 + Math.ceil(count / 4) }, () =>
    mix(water.left, water.right, 0.06 + 0.88 * random()),
  );
  const out: Pose[] = [];
  for (let i = 0; i < count; i++) {
    const facing = random() < 0.6 ? 1 : -1;
    const aloft = seats.length > 0 && i % 5 < 2;
    const pose = tried(shoal, (attempt) => {
      if (aloft && attempt < 20) {
        const seat = seats[Math.floor(random() * seats.length)];
        if (seat) {
          const [x, y] = seat.point;
          return {
            x,
            y: y - seat.radius * (seat.on === "wood" ? 0.5 : 0) - length * lift,
            facing,
            tilt: -facing * seat.heading * 0.6,
            length,
          };
        }
      }
      const home = homes[i % homes.length] as number;
      const x =
        attempt < 12
          ? home + between(random, -1, 1) * length * (2 + attempt * 0.3)
          : mix(water.left, water.right, random());
      const here = clamp(x, water.left + length * 0.6, water.right - length * 0.6);
      const slope = Math.atan2(ground.y(here - length / 2, 0) - ground.y(here + length / 2, 0), length);
      return {
        x: here,
        y: ground.y(here, 0) - length * lift - between(random, 0, 1.5),
        facing,
        tilt: facing * slope + between(random, -0.04, 0.06),
        length,
      };
    });
    out.push(pose);
    placed.push(pose);
  }
  return out;
}

export function drawAnimals(
  stage: AnimalStage,
  covers: readonly { readonly box: Box; readonly weight: number }[],
): DrawnAnimals[] {
  const { scene, frame, water, ground } = stage;
  const open = new OpenWater(water, (x) => ground.y(x, 0));
  for (const { box, weight } of covers) open.take(box, weight);
  const placed: Pose[] = [];
  return scene.animals.map((animal, index) => {
    const length = clamp(animal.length * frame.scale, 4, (water.right - water.left) * 0.8);
    // Large animals in a small tank: no more than cover a quarter of the water's length and height.
    const room = ((water.right - water.left) * (water.bottom - water.top)) / (length * length * 3);
    const drawn = Math.min(animal.count, MOST_DRAWN[animal.body], Math.max(1, Math.floor(room)));
    const shoal: Shoal = {
      stage,
      animal,
      length,
      count: drawn,
      random: streamOf(scene.seed, "animal", index, animal.body),
      placed,
    };
    const onGround =
      animal.body === "snail" || animal.body === "shrimp" || (animal.layer === "bottom" && animal.body !== "deep");
    const poses = onGround ? creeping(shoal) : swimming(shoal, open);
    const box = water;
    const ink: Inks = {
      body: new Pen(box),
      fin: new Pen(box),
      mark: new Pen(box),
      line: new Pen(box),
      eye: new Pen(box),
    };
    for (const pose of poses) silhouettes[animal.body](pose, ink);
    const fine = length > 8;
    const node =
      poses.length > 0
        ? group(
            `d-animal d-${animal.body} d-shade-${index % 3}`,
            paths(
              ["d-fin", ink.fin.d],
              ["d-body", ink.body.d],
              ["d-mark", ink.mark.d],
              ["d-limb", ink.line.d],
              ["d-eye", fine ? ink.eye.d : ""],
            ),
          )
        : undefined;
    return { animal, drawn, poses, node };
  });
}
