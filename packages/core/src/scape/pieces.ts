import { findWood } from "../facts/index.ts";
import { ballast, type HeightField, type Point2, woodLift } from "../geometry/index.ts";
import {
  type HardscapePlan,
  type Plan,
  pieceDensity,
  pieceForm,
  pieceNames,
  pieceStanding,
  sharesOf,
  standingBounds,
} from "../plan/index.ts";
import { type BeyondBox, beyondBox, type Mesh, type Point3, placeDirection } from "../solids/index.ts";

/** A stone or a piece of wood where it lies. */
export interface PlacedPiece {
  /** Position in the plan's list. */
  readonly index: number;
  /** S1, S2 for stones, W1 for wood, in the order of the list. */
  readonly key: string;
  /** Everything that it is called by. */
  readonly names: readonly string[];
  readonly kind: HardscapePlan["kind"];
  readonly material: string;
  readonly mesh: Mesh;
  /** Square to its beds (stone) or along its grain (wood), unit vector. */
  readonly grain: Point3;
  /** Its middle seen from above, m. */
  readonly middle: Point2;
  /** m³, kg as it lies in the tank. */
  readonly volume: number;
  readonly mass: number;
  /** Whether the owner gave the mass; else it follows from size and shape. */
  readonly weighed: boolean;
  /** Shares of its volume, 0..1. */
  readonly shareUnderWater: number;
  readonly shareInBed: number;
  /** Stone that holds it down while it is dry, kg; 0 for what sinks. */
  readonly ballast: number;
  /** How far it reaches through the panes and the floor, m. */
  readonly beyond: BeyondBox;
}

/** Stone that is usually at hand to hold wood down, kg/m³. Design value (granite). */
const ballastDensity = 2650;

/** The pieces of a plan on their ground. */
export function placedPieces(
  plan: Plan,
  ground: HeightField,
  waterDepth: number,
  height: number,
): readonly PlacedPiece[] {
  const names = pieceNames(plan);
  return plan.hardscape.map((piece, index) => {
    const form = pieceForm(piece);
    const { mesh } = pieceStanding(piece, ground);
    const shares = sharesOf(mesh, ground, waterDepth);
    const weighed = piece.mass.text !== undefined;
    const volume = weighed ? piece.mass.value / pieceDensity(piece) : form.volume;
    const { min, max } = standingBounds(mesh);
    const own = names[index]!;
    const turned = { tip: piece.tip.value, lean: piece.lean.value, turn: piece.turn.value };
    const wood = piece.kind === "wood" ? findWood(piece.material)! : null;
    return {
      index,
      key: own.at(-1)!,
      names: own,
      kind: piece.kind,
      material: piece.material,
      mesh,
      grain: placeDirection(form.grain, turned),
      middle: [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2],
      volume,
      mass: weighed ? piece.mass.value : volume * pieceDensity(piece),
      weighed,
      shareUnderWater: shares.shareUnderWater,
      shareInBed: shares.shareInBed,
      ballast: wood ? ballast(woodLift(volume, 1000 * wood.basicGravity.value), ballastDensity) : 0,
      beyond: beyondBox(mesh, { length: ground.length, width: ground.width, height }),
    };
  });
}
