/** Measures round the front elevation, and the aids that help to judge a composition. */
import { fieldHeight } from "../geometry/index.ts";
import type { PlacedLamp } from "./elevation-lamps.ts";
import { type Box, overlap, type Point } from "./geometry.ts";
import { spreadOut } from "./labels.ts";
import { type Lettering, SMALL, text, textBox, turnedBox, turnedText } from "./lettering.ts";
import { paths } from "./node.ts";
import { Pen } from "./pen.ts";
import type { ElevationShow, WrittenLength } from "./plan-options.ts";
import type { ScapeScene } from "./scape-scene.ts";
import type { ElevationFrame } from "./scape-view.ts";
import { textWidth } from "./text.ts";

type Written = (metres: number) => WrittenLength;

/** On a page narrower than this heights stand as bare figures, px. */
const WORDS_FROM = 560;

export const rightMargin = (width: number): number => (width >= WORDS_FROM ? 96 : 50);
export const LEFT_MARGIN = 32;
/** Room under the tank for its length, and for the balance over that; px. */
export const FOOT = 30;
export const BALANCE = 17;

/** Outside height and length, water line, heights of the ground, lamp over the water. */
export function elevationDimensions(
  scene: ScapeScene,
  frame: ElevationFrame,
  lamps: readonly PlacedLamp[],
  written: Written,
  balance: boolean,
): Lettering {
  const { outer, inner, surface } = frame;
  const { tank, ground } = scene;
  const nodes: Lettering["nodes"] = [];
  const boxes: Box[] = [];
  const [lines, dashed, ticks, level] = [new Pen(), new Pen(), new Pen(), new Pen()];
  const tick = (x: number, y: number): void => {
    ticks.move(x - 3, y + 3).line(x + 3, y - 3);
  };

  const x = outer.left - 12;
  lines.move(outer.left - 3, outer.top).line(x - 5, outer.top);
  lines.move(outer.left - 3, outer.bottom).line(x - 5, outer.bottom);
  lines.move(x, outer.top).line(x, outer.bottom);
  tick(x, outer.top);
  tick(x, outer.bottom);
  const high = written(tank.height + tank.base).number;
  const middle = (outer.top + outer.bottom) / 2;
  nodes.push(turnedText("d-label", x - 9, middle, -90, high));
  boxes.push(turnedBox(x - 9, middle, -90, textWidth(high, 12), 12));

  const y = outer.bottom + 13 + (balance ? BALANCE : 0);
  const long = written(tank.length + 2 * tank.glass);
  const across = (outer.left + outer.right) / 2;
  const span = outer.right - outer.left;
  const words = `${long.number} ${long.unit}`;
  const wide = textWidth(words, 12);
  lines.move(outer.left, outer.bottom + 3).line(outer.left, y + 5);
  lines.move(outer.right, outer.bottom + 3).line(outer.right, y + 5);
  tick(outer.left, y);
  tick(outer.right, y);
  if (wide < span - 24) {
    lines.move(outer.left, y).line(across - wide / 2 - 5, y);
    lines.move(across + wide / 2 + 5, y).line(outer.right, y);
    nodes.push(text("d-label", across, y + 4, words, "middle"));
    boxes.push(textBox(across, y + 4, wide, 12, "middle"));
  } else {
    lines.move(outer.left, y).line(outer.right, y);
    nodes.push(text("d-label", across, y + 16, words, "middle"));
    boxes.push(textBox(across, y + 16, wide, 12, "middle"));
  }

  const worded = frame.width >= WORDS_FROM;
  const front = fieldHeight(ground, tank.length, 0);
  const back = fieldHeight(ground, tank.length, tank.width);
  const marks = [
    { at: surface, words: [written(tank.waterLine).number, "water"], far: false },
    {
      at: frame.toPage(tank.length, tank.width, back)[1],
      words: [written(back).number, "soil, back"],
      far: true,
    },
    { at: frame.toPage(tank.length, 0, front)[1], words: [written(front).number, "soil, front"], far: false },
  ].filter(({ far }) => scene.layers.length > 0 || !far);
  if (scene.layers.length === 0) marks.pop();
  marks.sort((a, b) => a.at - b.at);
  const tops = spreadOut(
    marks.map(({ at }) => ({ want: at - 7, size: 14 })),
    0,
    surface - 8,
    outer.bottom + 8,
  );
  marks.forEach(({ at, words: [figure = "", kind = ""], far }, i) => {
    const baseline = (tops[i] ?? 0) + 11;
    const pen = far ? dashed : lines;
    pen.polyline([
      [outer.right + 2, at],
      [outer.right + 6, at],
      [outer.right + 14, baseline - 4],
    ]);
    const content = worded ? `${figure} ${kind}` : figure;
    nodes.push(text("d-note", outer.right + 18, baseline, content));
    boxes.push(textBox(outer.right + 18, baseline, textWidth(content, SMALL), SMALL));
  });
  const mark = Math.max(inner.left + 8, inner.right - 14);
  level.polyline(
    [
      [mark - 4.5, surface - 8],
      [mark + 4.5, surface - 8],
      [mark, surface - 0.8],
    ],
    true,
  );

  const lamp = lamps[0];
  if (lamp && surface - lamp.box.bottom > 6) {
    const lx = outer.right + 10;
    const [from, to] = [lamp.box.bottom, surface - 1];
    lines.move(Math.min(lamp.box.right + 3, lx - 3), from).line(lx + 4, from);
    lines.move(lx, from).line(lx, to);
    tick(lx, from);
    tick(lx, to);
    const figure = written(lamp.lamp.z - tank.waterLine).number;
    const baseline = (from + Math.min(to, inner.top)) / 2 + 4;
    const room = textBox(lx + 6, baseline, textWidth(figure, SMALL), SMALL);
    if (boxes.every((b) => !overlap(b, room))) {
      nodes.push(text("d-note", lx + 6, baseline, figure));
      boxes.push(room);
    }
  }
  nodes.unshift(
    ...paths(["d-dimension", lines.d], ["d-dimension d-dashed", dashed.d], ["d-tick", ticks.d], ["d-level", level.d]),
  );
  return { nodes, boxes };
}

/** Something that draws the eye, with what it weighs. */
export interface Weight {
  readonly box: Box;
  readonly weight: number;
}

/** Shares of the weight left and right of the middle, and where its centre lies on the page. */
function balanceOf(weights: readonly Weight[], middle: number): { left: number; right: number; centre: number } {
  let [left, right, moment] = [0, 0, 0];
  for (const { box, weight } of weights) {
    const wide = box.right - box.left;
    const share = wide > 0 ? Math.min(1, Math.max(0, (middle - box.left) / wide)) : box.left < middle ? 1 : 0;
    left += weight * share;
    right += weight * (1 - share);
    moment += (weight * (box.left + box.right)) / 2;
  }
  const all = left + right;
  return all > 0
    ? { left: left / all, right: right / all, centre: moment / all }
    : { left: 0.5, right: 0.5, centre: middle };
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Lines and marks to judge a composition by. */
export function elevationAids(
  scene: ScapeScene,
  frame: ElevationFrame,
  show: ElevationShow,
  weights: readonly Weight[],
  taken: readonly Box[],
): Lettering {
  const { inner, outer, surface } = frame;
  const nodes: Lettering["nodes"] = [];
  const boxes: Box[] = [];
  const [thirds, golden, horizon] = [new Pen(), new Pen(), new Pen()];
  const label = (x: number, baseline: number, words: string, className = "d-note d-halo"): void => {
    const room = textBox(x, baseline, textWidth(words, SMALL), SMALL, "middle");
    if ([...taken, ...boxes].some((b) => overlap(b, room)) || room.left < 0 || room.right > frame.width) return;
    boxes.push(room);
    nodes.push(text(className, x, baseline, words, "middle"));
  };
  const upright = (pen: Pen, share: number, words: string): void => {
    const x = inner.left + (inner.right - inner.left) * share;
    pen.move(x, inner.top - 3).line(x, inner.bottom);
    label(x, inner.top - 6, words);
  };
  const level = (pen: Pen, share: number): void => {
    const y = inner.bottom - (inner.bottom - surface) * share;
    pen.move(inner.left, y).line(inner.right, y);
  };
  if (show.thirds) {
    upright(thirds, 1 / 3, "1/3");
    upright(thirds, 2 / 3, "2/3");
    level(thirds, 1 / 3);
    level(thirds, 2 / 3);
  }
  if (show.golden) {
    upright(golden, GOLDEN, "0.618");
    upright(golden, 1 - GOLDEN, "0.382");
    level(golden, GOLDEN);
  }
  if (show.horizon) {
    const { length, width } = scene.tank;
    const heights = Array.from({ length: 33 }, (_, i) => fieldHeight(scene.ground, (length * i) / 32, width));
    const mean = heights.reduce((sum, h) => sum + h, 0) / heights.length;
    const y = frame.toPage(length / 2, width, mean)[1];
    horizon.move(inner.left, y).line(inner.right, y);
    label(inner.left + 32, y - 4, "horizon");
  }
  const scales = new Pen();
  if (show.balance) {
    const middle = (inner.left + inner.right) / 2;
    const { left, right, centre } = balanceOf(weights, middle);
    const y = outer.bottom + 4;
    const mark: Point[] = [
      [centre, y],
      [centre + 5, y + 8],
      [centre - 5, y + 8],
    ];
    scales.polyline(mark, true);
    const share = (k: number): string => `${Math.round(k * 100)} %`;
    const quarter = (inner.right - inner.left) / 4;
    label(middle - quarter, y + 11, `left ${share(left)}`);
    label(middle + quarter, y + 11, `right ${share(right)}`);
  }
  nodes.unshift(
    ...paths(["d-third", thirds.d], ["d-golden", golden.d], ["d-horizon", horizon.d], ["d-balance", scales.d]),
  );
  return { nodes, boxes };
}
