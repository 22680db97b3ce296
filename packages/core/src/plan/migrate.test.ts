import { describe, expect, test } from "vitest";
import { currentVersion, type Migration, migrate, migrations, sequenceProblems } from "./migrate.ts";

test("the sequence runs from lentic/1 to the current version without a gap", () => {
  expect(sequenceProblems(migrations)).toEqual([]);
  expect(migrations).toHaveLength(currentVersion);
});

test("a gap, a repeat and a wrong start are found", () => {
  const step = (n: number): Migration => ({ id: `lentic/${n}`, up: (raw) => raw });
  expect(sequenceProblems([step(1), step(3)])).toEqual(["lentic/3 stands where lentic/2 belongs"]);
  expect(sequenceProblems([step(1), step(1)])).toEqual(["lentic/1 stands where lentic/2 belongs"]);
  expect(sequenceProblems([step(2)])).toHaveLength(1);
  expect(sequenceProblems([step(1), step(2), step(3)])).toEqual([]);
});

describe("a longer history", () => {
  const sequence: readonly Migration[] = [
    { id: "lentic/1", up: () => ({ spoiled: true }) },
    { id: "lentic/2", up: ({ size, ...raw }) => ({ ...raw, tank: size ?? null }) },
    { id: "lentic/3", up: (raw) => ({ ...raw, name: "renamed" }) },
  ];

  test("an old plan passes every later step, in order, and none before its own version", () => {
    const old = { lentic: 1, size: "60 cm" };
    expect(migrate(old, sequence)).toEqual({ raw: { lentic: 3, tank: "60 cm", name: "renamed" }, from: 1 });
    expect(migrate({ lentic: 2, tank: "60 cm" }, sequence)).toEqual({
      raw: { lentic: 3, tank: "60 cm", name: "renamed" },
      from: 2,
    });
    expect(old).toEqual({ lentic: 1, size: "60 cm" });
  });

  test("a plan of the newest version comes back as it is", () => {
    const raw = { lentic: 3, name: "as typed" };
    expect(migrate(raw, sequence)).toEqual({ raw, from: 3 });
  });
});

test.each([
  [{}, "missing"],
  [{ lentic: 2 }, "newer than this program knows"],
  [{ lentic: 0 }, "whole number"],
  [{ lentic: 1.5 }, "whole number"],
  [{ lentic: "1" }, "whole number"],
  [{ lentic: null }, "whole number"],
])("%j is refused", (raw, words) => {
  const made = migrate(raw);
  expect(made).toMatchObject({ path: "lentic", message: expect.stringContaining(words) });
});
