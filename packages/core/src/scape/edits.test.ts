import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fieldHeight, outlineCentroid } from "../geometry/index.ts";
import { goodPlans } from "../plan/arbitrary.ts";
import { applyToRaw, type Change, invert, type RawPlan, resolvePlan, sameJson } from "../plan/index.ts";
import { floatingGap, meshBounds } from "../solids/index.ts";
import {
  addEdge,
  addLamp,
  addPiece,
  addSand,
  addZone,
  type Board,
  brushed,
  drawZone,
  duplicate,
  group,
  letDown,
  lock,
  moveTo,
  raiseTo,
  resize,
  scaleBy,
  scapeFindings,
  scapeOf,
  takeOut,
  turnTo,
  underBrush,
} from "./index.ts";

const tank: RawPlan = { length: "1016 mm", width: "516 mm", height: "458 mm", glass: "8 mm", base: "8 mm" };
const base: RawPlan = {
  lentic: 1,
  tank,
  substrate: [{ material: "baked soil", front: "40 mm", back: "80 mm" }],
  hardscape: [
    { kind: "stone", material: "slate", width: "200 mm", height: "160 mm", at: "30 %", depth: "50 %" },
    { kind: "stone", material: "slate", width: "120 mm", height: "90 mm", at: "60 %", depth: "40 %" },
    { kind: "wood", at: "70 %", depth: "60 %" },
  ],
  light: { on: "11:00", off: "19:30", ramp: "30 min" },
  lamps: [{ kind: "pendant", at: "25 %" }],
  plants: [
    { species: "Eleocharis acicularis", outline: "0 % 0 %, 50 % 0 %, 50 % 40 %, 0 % 40 %" },
    { species: "Anubias barteri", on: "S2", cover: "3 %" },
  ],
};

function boardOf(raw: RawPlan, units: Board["units"] = "metric"): Board {
  const made = resolvePlan(raw);
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return { raw, scape: scapeOf(made.plan), units };
}

const after = (board: Board, changes: readonly Change[]): Board => boardOf(applyToRaw(board.raw, changes), board.units);

describe("a hand on the board", () => {
  const board = boardOf(base);

  test("moves a piece to a place, with its group, but not what is locked", () => {
    const moved = after(board, moveTo(board, { kind: "piece", index: 0 }, 0.4, 0.3));
    expect(moved.scape.pieces[0]!.middle).toEqual([expect.closeTo(0.4, 6), expect.closeTo(0.3, 6)]);
    expect(moved.scape.pieces[1]!.middle).toEqual(board.scape.pieces[1]!.middle);
    const bound = after(board, group(board, [0, 1], true));
    const both = after(bound, moveTo(bound, { kind: "piece", index: 0 }, 0.4, 0.3));
    expect(both.scape.pieces[1]!.middle).toEqual([expect.closeTo(0.7, 6), expect.closeTo(0.25, 6)]);
    const held = after(bound, lock(bound, 1, true));
    const one = after(held, moveTo(held, { kind: "piece", index: 0 }, 0.4, 0.3));
    expect(one.scape.pieces[1]!.middle).toEqual(board.scape.pieces[1]!.middle);
    expect(moveTo(after(board, lock(board, 0, true)), { kind: "piece", index: 0 }, 0.9, 0.3)).toEqual([]);
    const parted = after(bound, group(bound, [0, 1], false));
    expect(sameJson(parted.raw, board.raw)).toBe(true);
  });

  test("moves an area as a whole, no further than the glass", () => {
    const moved = after(board, moveTo(board, { kind: "zone", index: 0 }, 0.95, 0.25));
    const xs = moved.scape.zones[0]!.outline.map(([x]) => x);
    expect(Math.max(...xs)).toBeCloseTo(1, 6);
    expect(outlineCentroid(moved.scape.zones[0]!.outline)[0]).toBeCloseTo(0.75, 6);
    expect(moved.scape.zones[0]!.area).toBeCloseTo(board.scape.zones[0]!.area, 6);
  });

  test("sizes are written in the reader's own unit", () => {
    expect(resize(board, 0, { width: 0.1234 })[0]!.after).toBe("123 mm");
    expect(resize({ ...board, units: "us" }, 0, { width: 0.127 })[0]!.after).toBe("5 in");
    const twice = after(board, scaleBy(board, 0, 2)).scape.plan.hardscape[0]!;
    expect([twice.width.value, twice.height.value, twice.breadth.value]).toEqual([0.4, 0.32, 0.32]);
    expect(resize(board, 0, { height: 99 })[0]!.after).toBe("6000 mm");
  });

  test("turns within half a turn either way, leans within a right angle", () => {
    const text = (angle: number) => turnTo(board, { kind: "piece", index: 0 }, "turn", angle)[0]!.after;
    expect([text(10), text(190), text(-190), text(720)]).toEqual(["10 deg", "-170 deg", "170 deg", "0 deg"]);
    expect(turnTo(board, { kind: "piece", index: 0 }, "lean", 120)[0]!.after).toBe("90 deg");
    expect(turnTo(board, { kind: "lamp", index: 1 }, "tilt", 20)[0]!.path).toEqual(["lamps", 0, "tilt"]);
  });

  test("a raised piece is let down until it just touches", () => {
    const high = after(board, raiseTo(board, 1, 0.1));
    expect(scapeFindings(high.scape).map((f) => f.id)).toContain("floating-S2");
    const down = after(high, letDown(high, 1));
    const others = down.scape.pieces.filter((p) => p.index !== 1).map((p) => p.mesh);
    expect(floatingGap(down.scape.pieces[1]!.mesh, down.scape.ground, others)).toBeLessThan(0.001);
    expect(scapeFindings(down.scape).map((f) => f.id)).not.toContain("floating-S2");
  });

  test("a piece is let down on another one below it", () => {
    const on = after(board, moveTo(board, { kind: "piece", index: 1 }, 0.3, 0.25));
    const high = after(on, raiseTo(on, 1, 0.3));
    const down = after(high, letDown(high, 1));
    const { min } = meshBounds(down.scape.pieces[1]!.mesh);
    const under = fieldHeight(down.scape.ground, 0.3, 0.25);
    expect(min[2]).toBeGreaterThan(under + 0.05);
  });

  test("a stroke lays the layer on a grid and raises it where it was drawn", () => {
    const raised = after(board, brushed(board, [{ kind: "raise", x: 0.5, y: 0.25, radius: 0.15, strength: 0.03 }]));
    const rise = (x: number, y: number): number =>
      fieldHeight(raised.scape.ground, x, y) - fieldHeight(board.scape.ground, x, y);
    expect(rise(0.5, 0.25)).toBeGreaterThan(0.024);
    expect(Math.abs(rise(0.1, 0.25))).toBeLessThan(0.001);
    const [layer] = raised.raw.substrate as readonly RawPlan[];
    expect(Object.keys(layer!)).toEqual(["material", "heights"]);
    const dug = after(raised, brushed(raised, [{ kind: "lower", x: 0.5, y: 0.25, radius: 0.3, strength: 1 }]));
    expect(fieldHeight(dug.scape.ground, 0.5, 0.25)).toBe(0);
  });

  test("a bed that was only assumed is there once it is worked on", () => {
    const bare = boardOf({ lentic: 1, tank });
    const shaped = after(bare, brushed(bare, [{ kind: "raise", x: 0.2, y: 0.2, radius: 0.1, strength: 0.02 }]));
    expect(fieldHeight(shaped.scape.ground, 0.9, 0.4)).toBeCloseTo(0.05, 9);
    const sand = after(
      bare,
      addSand(bare, [
        [0.3, 0],
        [0.5, 0],
        [0.5, 0.5],
        [0.3, 0.5],
      ]),
    );
    expect(sand.scape.layers.map((l) => l.material)).toEqual(["gravel", "quartz sand"]);
    expect(fieldHeight(sand.scape.ground, 0.4, 0.25)).toBeCloseTo(0.06, 9);
  });

  test("what is added reads, and what is doubled has the same form elsewhere", () => {
    const stone = after(board, addPiece(board, "stone", [0.8, 0.2]));
    expect(stone.scape.pieces).toHaveLength(4);
    expect(stone.scape.pieces[3]!.material).toBe("slate");
    const wood = after(stone, addPiece(stone, "wood", [0.5, 0.3]));
    const twin = after(wood, duplicate(wood, { kind: "piece", index: 0 }));
    const [a, b] = [twin.scape.pieces[0]!, twin.scape.pieces.at(-1)!];
    expect(b.volume).toBeCloseTo(a.volume, 12);
    expect(b.middle[0]).not.toBeCloseTo(a.middle[0], 2);
    const planted = after(twin, addZone(twin, "rotala-rotundifolia", [0.6, 0.4]));
    expect(planted.scape.zones.at(-1)!.fact.name).toBe("Rotala rotundifolia");
    const redrawn = after(
      planted,
      drawZone(planted, 1, [
        [0.1, 0.1],
        [0.3, 0.1],
        [0.2, 0.3],
      ]),
    );
    expect(redrawn.scape.zones[1]!.area).toBeCloseTo(0.02, 5);
    const lit = after(redrawn, addLamp(redrawn));
    expect(lit.scape.plan.lamps).toHaveLength(2);
    const held = after(
      lit,
      addEdge(lit, [
        [0, 0.3],
        [1, 0.3],
      ]),
    );
    expect(held.scape.edges[0]).toEqual([
      [0, expect.closeTo(0.3, 9)],
      [1, expect.closeTo(0.3, 9)],
    ]);
  });

  test("taken out, the others keep their forms and what was tied to them", () => {
    const seeded = board.scape.pieces.map((p) => p.mesh);
    const without = after(board, takeOut(board, { kind: "piece", index: 0 }));
    expect(without.scape.pieces.map((p) => p.key)).toEqual(["S1", "W1"]);
    expect([...without.scape.pieces[0]!.mesh.positions]).toEqual([...seeded[1]!.positions]);
    expect(without.scape.zones[1]!.on).toBe(0);
    const untied = after(board, takeOut(board, { kind: "piece", index: 1 }));
    expect(untied.scape.zones[1]!.on).toBeNull();
  });

  test("without the first lamp the next one takes its hours", () => {
    const { plan } = after(board, takeOut(board, { kind: "lamp", index: 0 })).scape;
    expect(plan.lamps).toEqual([]);
    expect([plan.light!.kind.value, plan.light!.on.value, plan.light!.off.value]).toEqual(["pendant", 11, 19.5]);
    const dark = after(
      boardOf({ ...base, lamps: [] }),
      takeOut(boardOf({ ...base, lamps: [] }), { kind: "lamp", index: 0 }),
    );
    expect(dark.scape.plan.light).toBeNull();
  });

  test("any edit of any plan reads, and its undoing restores the plan", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const pick = fc.nat({ max: 40 });
    fc.assert(
      fc.property(goodPlans, pick, pick, share, share, share, (raw, which, act, u, v, w) => {
        const made = resolvePlan(raw);
        if (!made.ok) return;
        const b: Board = { raw, scape: scapeOf(made.plan), units: act % 2 ? "us" : "metric" };
        const { length, width, pieces, zones, plan } = b.scape;
        const [x, y] = [u * length, v * width];
        const piece = pieces.length > 0 ? which % pieces.length : -1;
        const zone = zones.length > 0 ? which % zones.length : -1;
        const acts: (() => readonly Change[])[] = [
          () => addPiece(b, act % 3 ? "stone" : "wood", [x, y]),
          () => addZone(b, "Anubias barteri", [x, y]),
          () =>
            addSand(b, [
              [0, 0],
              [length * 0.3, 0],
              [length * 0.2, width * 0.5],
            ]),
          () => brushed(b, [{ kind: "smooth", x, y, radius: 0.05 + w * 0.2, strength: w }]),
          ...(plan.light
            ? [() => takeOut(b, { kind: "lamp", index: 0 }), () => moveTo(b, { kind: "lamp", index: 0 }, x, y)]
            : []),
          ...(piece >= 0
            ? [
                () => moveTo(b, { kind: "piece", index: piece }, x, y),
                () => scaleBy(b, piece, 0.5 + w),
                () => turnTo(b, { kind: "piece", index: piece }, "turn", 720 * w - 360),
                () => takeOut(b, { kind: "piece", index: piece }),
                () => duplicate(b, { kind: "piece", index: piece }),
                () => letDown(b, piece),
              ]
            : []),
          ...(zone >= 0
            ? [
                () => moveTo(b, { kind: "zone", index: zone }, x, y),
                () => takeOut(b, { kind: "zone", index: zone }),
                () => duplicate(b, { kind: "zone", index: zone }),
                () =>
                  drawZone(b, zone, [
                    [0, 0],
                    [length * 0.3, 0],
                    [length * 0.2, width * 0.5],
                  ]),
              ]
            : []),
        ];
        const changes = acts[act % acts.length]!();
        const next = applyToRaw(raw, changes);
        const resolved = resolvePlan(next);
        // a tank too small for what was added says so; nothing else may be wrong
        const faults = resolved.ok
          ? []
          : resolved.faults.filter((f) => !/no water in the tank|water line/.test(f.message));
        expect(faults).toEqual([]);
        expect(sameJson(applyToRaw(next, [...changes].reverse().map(invert)), raw)).toBe(true);
        for (const change of changes) expect(change.name).not.toMatch(/undefined|NaN/);
      }),
      { numRuns: 300 },
    );
  });
});

test("under the brush a bed looks as it is once the strokes are laid, to the millimetre of the plan", () => {
  const board = boardOf(base);
  const strokes = [
    { kind: "raise", x: 0.2, y: 0.15, radius: 0.08, strength: 0.03 },
    { kind: "smooth", x: 0.25, y: 0.15, radius: 0.1, strength: 0.5 },
  ] as const;
  const seen = underBrush(board.scape, strokes);
  const { ground } = after(board, brushed(board, strokes)).scape;
  for (const x of [0.05, 0.2, 0.28]) {
    for (const y of [0.05, 0.15, 0.25]) {
      expect(Math.abs(fieldHeight(seen.ground, x, y) - fieldHeight(ground, x, y))).toBeLessThan(0.0006);
    }
  }
  expect(fieldHeight(seen.ground, 0.2, 0.15)).toBeGreaterThan(fieldHeight(board.scape.ground, 0.2, 0.15) + 0.01);
});
