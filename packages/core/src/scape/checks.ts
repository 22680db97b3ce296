/** What does not hold, fit or suit in a scape, each with its place, its figures and what would mend it. */
import { findSubstrate, type PlantFact } from "../facts/index.ts";
import { cellsNearLines, fieldHeight, type Point2, resampleField, steepestPlace } from "../geometry/index.ts";
import type { Path } from "../plan/index.ts";
import { floatingGap } from "../solids/index.ts";
import { convert } from "../units/index.ts";
import type { PlacedPiece } from "./pieces.ts";
import type { Scape } from "./scape.ts";
import type { Zone } from "./zones.ts";

export type ScapeSeverity = "note" | "caution";

/** One thing to look at. */
export interface ScapeFinding {
  readonly id: string;
  readonly severity: ScapeSeverity;
  /** What is wrong, with its figures: one sentence. */
  readonly title: string;
  /** Why it matters, or what to do. */
  readonly reason: string;
  /** Where, m from the left pane and from the front pane; null = everywhere. */
  readonly at: Point2 | null;
  /** The part of the plan that it speaks of. */
  readonly path: Path;
}

const mm = (metres: number): string => `${Math.round(metres * 1000)} mm`;

/** Steps are held over this distance from their line at least, m. Design value. */
const heldNear = 0.02;
/** Cells a side over one of which the rim of a layer of limited area is blurred. */
const rimCells = 64;

/** Nodes a side on which the slope is judged: near the scale of a hand, not of a grain. */
const judged = 65;

/** The bed's steepest place against what its uppermost grains hold. */
function slopeFinding(scape: Scape): ScapeFinding | null {
  const { ground, plan, edges } = scape;
  const materials = plan.substrate.filter((layer) => !layer.within);
  const fact = materials.length > 0 ? findSubstrate(materials.at(-1)!.material)! : null;
  if (!fact) return null;
  const field = ground.columns > judged || ground.rows > judged ? resampleField(ground, judged, judged) : ground;
  const near = Math.max(heldNear, scape.length / rimCells, scape.width / rimCells);
  const steepest = steepestPlace(field, cellsNearLines(field, edges, near));
  if (!steepest || steepest.angle <= fact.designSlope) return null;
  const slides = steepest.angle > fact.reposeAngle;
  return {
    id: "slope",
    severity: slides ? "caution" : "note",
    title: `${sentenceCase(placeWords(scape, [steepest.x, steepest.y]))} the ${fact.id} stands at ${Math.round(steepest.angle)}°; under water it holds ${fact.reposeAngle}°`,
    reason: slides
      ? "It will slide: lower the crest, lengthen the run, or hold it with a step of stones."
      : `It keeps less than the usual margin (${fact.designSlope}°): digging animals and time will flatten it.`,
    at: [steepest.x, steepest.y],
    path: ["substrate"],
  };
}

const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A place in words: "at the back on the left". */
export function placeWords({ length, width }: Pick<Scape, "length" | "width">, [x, y]: Point2): string {
  const across = x < length / 3 ? "on the left" : x > (2 * length) / 3 ? "on the right" : "in the middle";
  const deep = y < width / 3 ? "in front" : y > (2 * width) / 3 ? "at the back" : "half way back";
  return `${deep} ${across}`;
}

const sides = [
  ["left", "the left pane"],
  ["right", "the right pane"],
  ["front", "the front pane"],
  ["back", "the back pane"],
] as const;

/** Less than this is taken as touching, m. */
const touching = 0.0005;

function pieceFindings(scape: Scape, piece: PlacedPiece): readonly ScapeFinding[] {
  const path: Path = ["hardscape", piece.index];
  const findings: ScapeFinding[] = [];
  const say = (id: string, severity: ScapeSeverity, title: string, reason: string): void => {
    findings.push({ id: `${id}-${piece.key}`, severity, title, reason, at: piece.middle, path });
  };
  for (const [side, name] of sides) {
    if (piece.beyond[side] <= touching) continue;
    say(
      "through",
      "caution",
      `${piece.key} reaches ${mm(piece.beyond[side])} through ${name}`,
      "Move, turn or shrink it.",
    );
  }
  if (piece.beyond.top > touching) {
    say("above", "note", `${piece.key} stands ${mm(piece.beyond.top)} above the rim`, "Under a lid it will not fit.");
  }
  const others = scape.pieces.filter((other) => other !== piece).map((other) => other.mesh);
  const gap = floatingGap(piece.mesh, scape.ground, others);
  if (gap > touching) {
    say(
      "floating",
      "caution",
      `${piece.key} hangs ${mm(gap)} above what is under it`,
      "Let it down, or put something under it.",
    );
  }
  if (piece.weighed && piece.volume > boxVolume(scape, piece)) {
    say(
      "mass",
      "note",
      `${piece.key} is heavier than its box of solid ${piece.material} would be`,
      "Look at its mass and sizes again.",
    );
  }
  if (piece.ballast > 0.05 && piece.kind === "wood") {
    const kg = Number(piece.ballast.toPrecision(2));
    say(
      "floats",
      "note",
      `${piece.key} floats while it is dry`,
      `Tie it to ${kg} kg of stone, or soak it until it sinks.`,
    );
  }
  return findings;
}

function boxVolume({ plan }: Scape, piece: PlacedPiece): number {
  const { width, breadth, height } = plan.hardscape[piece.index]!;
  return width.value * breadth.value * height.value;
}

/** Share of a zone's area over which bare sand was laid for looks. */
function zoneFindings(scape: Scape, zone: Zone): readonly ScapeFinding[] {
  const { fact, planting, key, on } = zone;
  const { plan } = scape;
  const path: Path = ["plants", zone.index];
  const findings: ScapeFinding[] = [];
  const middle = middleOf(zone.outline);
  const say = (id: string, severity: ScapeSeverity, title: string, reason: string): void => {
    findings.push({ id: `${id}-${key}`, severity, title: `${key}, ${fact.name}: ${title}`, reason, at: middle, path });
  };
  if (fact.co2Need === "needed" && !plan.co2) {
    say(
      "co2",
      "caution",
      "it needs added CO2, and the plan has none",
      "Add CO2, or plant a species that does without.",
    );
  }
  warmth(scape, fact, say);
  const gh = convert(plan.water.gh.value, "mmol/L", "dGH");
  if (gh > fact.ghMax) {
    say(
      "hardness",
      "note",
      `the water has ${Math.round(gh)} dGH, it likes up to ${fact.ghMax}`,
      "Softer water suits it better.",
    );
  }
  const depth = scape.waterDepth - fieldHeight(scape.ground, middle[0], middle[1]);
  if (!zone.afloat && on === null && fact.heightMin > depth) {
    say(
      "depth",
      "note",
      `it grows at least ${mm(fact.heightMin)} high, over ${mm(Math.max(0, depth))} of water`,
      "It will lie on the surface and shade what is under it.",
    );
  }
  // a creeping stem that also holds on to wood roots in the ground as well; common practice, no source
  if (fact.zone === "epiphyte" && fact.propagation.includes("rhizome") && on === null && !zone.afloat) {
    say(
      "epiphyte",
      "note",
      "it grows on stone or wood, and stands in the ground here",
      "Tie it on; its rhizome rots under ground.",
    );
  }
  if (on !== null && !fact.attach) {
    say(
      "holds",
      "note",
      "it does not hold on to stone or wood by itself",
      "Tie it for good, or plant it in the ground.",
    );
  }
  const bed = plan.substrate.some((layer) => findSubstrate(layer.material)?.nutrients);
  if (fact.feeding === "root" && on === null && !bed && !zone.afloat) {
    say(
      "roots",
      "note",
      "it feeds by its roots, and the bed holds no food",
      "Put root food under it, or a nutrient soil under the sand.",
    );
  }
  const thin = fieldHeight(scape.ground, middle[0], middle[1]);
  if (!zone.afloat && on === null && thin < shallow) {
    say(
      "rooting",
      "note",
      `it has ${mm(thin)} of bed to root in`,
      "Three to five centimetres hold most plants. Common practice.",
    );
  }
  if (planting.portions && planting.portions.value < 0.5 * fact.density * zone.area) {
    say(
      "sparse",
      "note",
      "half the usual number of portions or fewer",
      "It will take longer to close; algae like the gap.",
    );
  }
  return findings;
}

/** Bed under which rooted plants hardly hold, m. Common practice, no source. */
const shallow = 0.02;

function warmth(
  { plan }: Scape,
  fact: PlantFact,
  say: (id: string, severity: ScapeSeverity, title: string, reason: string) => void,
): void {
  const set = plan.heater?.set.value;
  const [low, high] =
    set === undefined ? [plan.room.night.value, plan.room.day.value] : [set, Math.max(set, plan.room.day.value)];
  if (high < fact.temperatureMin) {
    say(
      "cold",
      "caution",
      `the water stays near ${Math.round(high)} °C, it wants ${fact.temperatureMin} or more`,
      "Set the heater higher, or plant a hardier species.",
    );
  } else if (low > fact.temperatureMax) {
    say(
      "warm",
      "caution",
      `the water stays near ${Math.round(low)} °C, it bears up to ${fact.temperatureMax}`,
      "Set the heater lower, or plant another species.",
    );
  }
}

function middleOf(outline: readonly Point2[]): Point2 {
  let [x, y] = [0, 0];
  for (const [px, py] of outline) {
    x += px / outline.length;
    y += py / outline.length;
  }
  return [x, y];
}

/** Everything that was found, cautions first. */
export function scapeFindings(scape: Scape): readonly ScapeFinding[] {
  const slope = slopeFinding(scape);
  const all = [
    ...(slope ? [slope] : []),
    ...scape.pieces.flatMap((piece) => pieceFindings(scape, piece)),
    ...scape.zones.flatMap((zone) => zoneFindings(scape, zone)),
  ];
  return [...all.filter((f) => f.severity === "caution"), ...all.filter((f) => f.severity === "note")];
}
