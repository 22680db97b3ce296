import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { paperOf, plainText, styled, table, toJson, working, wrap } from "./paper.ts";

const stream = (more: object) => ({ isTTY: true, columns: 90, ...more }) as unknown as NodeJS.WriteStream;

test("words are broken at a width, later lines indented", () => {
  expect(wrap("one two three four", 9, " ")).toBe("one two\n three\n four");
  fc.assert(
    fc.property(fc.array(fc.stringMatching(/^[a-z]{1,12}$/)), fc.integer({ min: 20, max: 90 }), (words, width) => {
      const text = wrap(words.join(" "), width, "  ");
      for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(width);
      expect(text.split(/\s+/).filter(Boolean)).toEqual(words);
    }),
  );
});

describe("a table", () => {
  const rows = [
    ["a", "10", "some words that go on and on"],
    ["bb", "9", "few"],
  ];
  test("has columns as wide as they need, numbers to the right", () => {
    expect(table(rows, { right: [false, true] })).toBe("a   10  some words that go on and on\nbb   9  few");
  });
  test("breaks its last column where there is room for words", () => {
    expect(table(rows, { right: [false, true], width: 26 })).toBe(
      "a   10  some words that go\n        on and on\nbb   9  few",
    );
    expect(table(rows, { width: 12 }).split("\n")).toHaveLength(2);
  });
  test("counts characters, not bytes", () => {
    expect(
      table([
        ["µ°", "x"],
        ["abc", "y"],
      ]),
    ).toBe("µ°   x\nabc  y");
  });
});

describe("paper", () => {
  const keep = { ...process.env };
  const within = (env: NodeJS.ProcessEnv, check: () => void): void => {
    for (const key of ["NO_COLOR", "TERM"]) delete process.env[key];
    Object.assign(process.env, env);
    try {
      check();
    } finally {
      for (const key of ["NO_COLOR", "TERM"]) delete process.env[key];
      Object.assign(process.env, keep);
    }
  };
  test("is 80 wide and without colour when piped; as wide as the terminal within reason", () => {
    within({}, () => {
      expect(paperOf(stream({ isTTY: false }))).toEqual({ colour: false, width: 80 });
      expect(paperOf(stream({}))).toEqual({ colour: true, width: 90 });
      expect(paperOf(stream({ columns: 20 })).width).toBe(48);
      expect(paperOf(stream({ columns: 400 })).width).toBe(160);
    });
  });
  test("has no colour with NO_COLOR or on a dumb terminal", () => {
    within({ NO_COLOR: "1" }, () => expect(paperOf(stream({})).colour).toBe(false));
    within({ NO_COLOR: "" }, () => expect(paperOf(stream({})).colour).toBe(true));
    within({ TERM: "dumb" }, () => expect(paperOf(stream({})).colour).toBe(false));
  });
  test("styles only in colour", () => {
    expect(styled({ colour: false, width: 80 }, "red", "x")).toBe("x");
    expect(styled({ colour: true, width: 80 }, "red", "x")).not.toBe("x");
  });
});

test("signs in plain ASCII keep columns in line", () => {
  expect(plainText("24.0  °C         fine")).toBe("24.0  C          fine");
  expect(plainText("−0.5 µmol/m²s ± 2 × 3 · °dKH")).toBe("-0.5 umol/m2s +/- 2 x 3 . dKH");
});

test("typed arrays become lists", () => {
  expect(JSON.parse(toJson({ a: Float64Array.of(1, 2.5) }))).toEqual({ a: [1, 2.5] });
});

test("what is being worked out shows on a terminal alone, and goes away", () => {
  const written: string[] = [];
  const write = (text: string) => written.push(text);
  expect(working("Working ...", () => 7, stream({ write, isTTY: false }))).toBe(7);
  expect(written).toEqual([]);
  expect(() =>
    working(
      "Working ...",
      () => {
        throw new Error("no");
      },
      stream({ write }),
    ),
  ).toThrow("no");
  expect(written).toEqual(["Working ...", `\r${" ".repeat(11)}\r`]);
});
