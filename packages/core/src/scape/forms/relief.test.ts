import { describe, expect, test } from "vitest";
import { findSubstrate } from "../../facts/index.ts";
import { fieldFromRows, rearDepth, slopeSafety, steepestPlace } from "../../geometry/index.ts";
import { reliefOf, reliefRows, workingSlope } from "./relief.ts";

const tank = { length: 0.8, width: 0.4 };
const slope = workingSlope(26);

describe("a relief", () => {
  test("under a cliff at the back is front + run x slope, as the rule of rear depths has it", () => {
    const { columns, rows, mm } = reliefOf(tank, (_, y) => (y > 0.04 ? 0.3 : 0.04), slope, 0.02);
    const angle = (Math.atan(slope) * 180) / Math.PI;
    // the front row alone is low; whole mm lose up to 1 mm a row
    const wanted = 1000 * rearDepth(0.04, tank.width, angle);
    const back = mm.slice((rows - 1) * columns);
    expect(Math.max(...back)).toBeLessThanOrEqual(wanted + 0.5);
    expect(Math.min(...back)).toBeGreaterThan(wanted - rows);
    expect(mm.slice(0, columns).every((h) => h === 40)).toBe(true);
  });

  test("keeps more than the safety of 1.4 that the design slope stands for", () => {
    const { columns, rows, mm } = reliefOf(tank, (x, y) => 0.5 * Math.sin(9 * x) ** 2 * y, slope, 0.02);
    const front = Array.from({ length: rows }, (_, j) => mm.slice(j * columns, (j + 1) * columns).map((h) => h / 1000));
    const { angle } = steepestPlace(fieldFromRows(tank.length, tank.width, front))!;
    const tangent = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
    expect(tangent(findSubstrate("baked soil")!.reposeAngle) / tangent(angle)).toBeGreaterThan(slopeSafety);
    expect(Math.min(...mm)).toBe(20);
  });

  test("that holds is left as it was wanted", () => {
    const { mm, columns } = reliefOf(tank, (_, y) => 0.03 + 0.2 * y, slope, 0.02);
    expect([mm[0], mm.at(-1), mm[4 * columns]]).toEqual([30, 110, 70]);
  });

  test("is typed from the back, each row with its unit", () => {
    expect(reliefRows({ columns: 2, rows: 2, mm: [1, 2, 3, 4] })).toEqual(["3 4 mm", "1 2 mm"]);
  });
});
