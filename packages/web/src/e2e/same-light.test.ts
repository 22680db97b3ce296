import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { expect, test } from "vitest";
import { chrome } from "./stage.ts";

const able = chrome !== undefined || process.env.CI === "true";

/** A small tank with a stone, a slope and a leaf canopy, so that every part of the solver has its say. */
const source = `
import { resolvePlan } from "@lentic/core/plan";
import { lightScene, scapeOf } from "@lentic/core/scape";
import { trace } from "@lentic/core/tracer";
const made = resolvePlan({
  lentic: 1,
  tank: { length: "40 cm", width: "25 cm", height: "25 cm", background: "grey" },
  substrate: [{ material: "quartz sand", front: "20 mm", back: "60 mm" }],
  hardscape: [{ kind: "stone", material: "granite", width: "90 mm", height: "70 mm" }],
  water: { stain: "1 1/m", haze: "1 NTU" },
  light: { kind: "bar", power: "12 W", tilt: "10 deg" },
  plants: [{ species: "Cryptocoryne wendtii", outline: "5 % 40 %, 45 % 40 %, 45 % 90 %, 5 % 90 %" }],
});
const light = lightScene(scapeOf(made.plan));
const result = trace(light.scene, { photons: 3000, seed: 7, directNoise: 0.1 });
globalThis.traced = result.lamps[0].ground.map((band) => Array.from(band));
`;

async function bundle(): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents: source, resolveDir: fileURLToPath(new URL("../..", import.meta.url)), loader: "ts" },
    bundle: true,
    write: false,
    format: "iife",
    target: "es2023",
    conditions: ["source"],
  });
  return outputFiles[0]!.text;
}

// engines differ in the last bits of exp and log; a path that splits there would show as a step far above 1e-6
(able ? test : test.skip)(
  "the same seed gives the same light in Node and in a browser",
  { timeout: 120_000 },
  async () => {
    const script = await bundle();
    const here = new Function(`const globalThis = {}; ${script}; return globalThis.traced;`)() as number[][];
    const browser = await chromium.launch({ ...(chrome ? { executablePath: chrome } : {}), args: ["--no-sandbox"] });
    try {
      const page = await browser.newPage();
      await page.addScriptTag({ content: script });
      const there = (await page.evaluate("globalThis.traced")) as number[][];
      expect(there).toHaveLength(here.length);
      const mean = here.flat().reduce((sum, v) => sum + v, 0) / here.flat().length;
      expect(mean).toBeGreaterThan(0);
      here.forEach((band, b) => {
        band.forEach((value, i) => {
          expect(Math.abs(there[b]![i]! - value) / mean).toBeLessThan(1e-6);
        });
      });
    } finally {
      await browser.close();
    }
  },
);
