import { expect, test } from "vitest";
import { beyond } from "./curves.ts";

const hours = Float64Array.from({ length: 25 }, (_, h) => h);
const day = (out: (h: number) => boolean): Float64Array => hours.map((h) => (out(h) ? 40 : 10));

test("a stretch over midnight is one stretch, and separate ones are not joined", () => {
  const run = { hours };
  expect(
    beyond(
      run,
      day(() => false),
      30,
      "over",
    ),
  ).toBeNull();
  expect(
    beyond(
      run,
      day((h) => h >= 12 && h <= 17),
      30,
      "over",
    ),
  ).toEqual({ from: 12, to: 17 });
  expect(
    beyond(
      run,
      day((h) => h <= 2 || h >= 20),
      30,
      "over",
    ),
  ).toEqual({ from: 20, to: 2 });
  expect(
    beyond(
      run,
      day((h) => (h >= 3 && h <= 4) || (h >= 10 && h <= 16)),
      30,
      "over",
    ),
  ).toEqual({ from: 10, to: 16 });
  expect(
    beyond(
      run,
      day(() => true),
      30,
      "over",
    ),
  ).toEqual({ from: 0, to: 24 });
});
