import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { applyChanges, applyToRaw, invert, type RawPlan, readPlan, resolvePlan, sameJson } from "../plan/index.ts";
import { type Board, givePhotometry, type LampFigures, lightScene, readLampFile, scapeOf } from "./index.ts";

const room = new URL("../light/", import.meta.url);
const good = (name: string): string => readFileSync(new URL(`good-photometry/${name}`, room), "latin1");

function figuresOf(file: string): LampFigures {
  const read = readLampFile(file);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.figures;
}

/** Matt disc: intensity falls with the cosine. */
const matt = (down: number, watts: number): string => {
  const angles = Array.from({ length: 91 }, (_, v) => v);
  const candela = angles.map((v) => (v === 90 ? 0 : down * Math.cos((v * Math.PI) / 180)).toFixed(6));
  return `IESNA:LM-63-1995\nTILT=NONE\n1 -1 1 91 1 1 2 0.1 0.1 0\n1 1 ${watts}\n${angles.join(" ")}\n0\n${candela.join(" ")}\n`;
};

describe("an owner's photometric file", () => {
  test("a matt emitter: pi times its intensity in lumens, a beam of 120 degrees", () => {
    const figures = figuresOf(matt(100, 4));
    expect(figures.lumens / (100 * Math.PI)).toBeCloseTo(1, 4);
    expect(figures.efficacy).toBeCloseTo(figures.lumens / 4, 12);
    expect(figures.beam![0]).toBeCloseTo(120, 2);
    expect(figures.beam![1]).toBeCloseTo(120, 2);
    expect(figures).toMatchObject({ watts: 4, down: 100, upwards: 0, outputRatio: null });
    expect(figuresOf(matt(100, 0))).toMatchObject({ watts: null, efficacy: null });
  });

  test("a lens made for 60 degrees has that beam; a lamp that shines up has none downwards", () => {
    expect(figuresOf(good("beam-60-absolute-2002.ies")).beam![0]).toBeCloseTo(60, 1);
    const up = figuresOf(good("upwards-1995.ies"));
    expect(up.beam).toBeNull();
    expect(up.upwards).toBeCloseTo(1, 12);
  });

  test("every sound file is taken or told to be too long, every bad one refused with its line", () => {
    for (const name of readdirSync(new URL("good-photometry/", room))) {
      const read = readLampFile(good(name));
      expect(read.ok, name).toBe(true);
    }
    for (const name of readdirSync(new URL("bad-photometry/", room))) {
      const read = readLampFile(readFileSync(new URL(`bad-photometry/${name}`, room), "latin1"));
      if (read.ok) throw new Error(`${name} was taken`);
      expect(read.faults[0]!.line, name).toBeGreaterThan(0);
      expect(read.faults[0]!.allowed, name).not.toBe("");
    }
    const long = readLampFile(`${matt(100, 4)}${" \n".repeat(40_000)}`);
    expect(long).toMatchObject({ ok: false, faults: [{ allowed: "at most 60000 characters" }] });
  });

  test("a plan keeps the text, in either kind of line end, lights by it, and gives it back", () => {
    const written =
      "lentic: 1\ntank: { length: 900 mm, width: 450 mm, height: 450 mm }\nlight:\n  kind: pendant\nlamps:\n  - kind: bar\n";
    const before = readPlan(written);
    if (!before.ok) throw new Error(JSON.stringify(before.faults));
    const { raw } = before;
    const file = good("beam-60-absolute-2002.ies").replace(/\r?\n/g, "\r\n");
    const read = readLampFile(file);
    if (!read.ok) throw new Error("refused");
    expect(read.text).not.toContain("\r");
    for (const index of [0, 1]) {
      const board = boardOf(raw);
      const changes = givePhotometry(board, { kind: "lamp", index }, read.text);
      const after = boardOf(applyToRaw(raw, changes));
      const lamps = [after.scape.plan.light!, ...after.scape.plan.lamps];
      expect(lamps[index]!.photometry).toBe(read.text);
      expect(lamps[1 - index]!.photometry).toBeNull();
      expect(lightScene(after.scape)!.scene.lamps[index]!.beam.kind).not.toBe("lobe");
      const told = readPlan(applyChanges(written, changes));
      expect(told.ok && [told.plan.light!, ...told.plan.lamps][index]!.photometry).toBe(read.text);
      expect(sameJson(applyToRaw(after.raw, changes.map(invert)), raw)).toBe(true);
      const without = applyToRaw(after.raw, givePhotometry(after, { kind: "lamp", index }, null));
      expect(sameJson(without, raw)).toBe(true);
    }
  });
});

function boardOf(raw: RawPlan): Board {
  const made = resolvePlan(raw);
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return { raw, scape: scapeOf(made.plan), units: "metric" };
}
