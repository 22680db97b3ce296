import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { icosphere, type Mesh, writeGlb } from "@lentic/core/solids";
import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axe, chrome, raise, type Stage } from "./stage.ts";

// without a browser these journeys cannot be made: said aloud, and a failure where CI asks for them
const able = chrome !== undefined || process.env.CI === "true";
const journey = able ? test : test.skip;

let stage: Stage;

beforeAll(async () => {
  if (able) stage = await raise();
}, 60_000);
afterAll(async () => {
  if (able) await stage.close();
});

const glass = `lentic: 1
name: Own stones
tank: { length: 900 mm, width: 450 mm, height: 450 mm }
light: { kind: pendant, power: 40 W }
co2: {}
heater: {}
filter: {}
`;

async function begin(page: Page): Promise<{ readonly address: string; readonly text: () => Promise<string> }> {
  const made = await page.request.post(`${stage.url}/api/tanks`, {
    data: { text: glass },
    headers: { origin: stage.url },
  });
  const { id } = (await made.json()) as { id: string };
  return {
    address: `${stage.url}/tank/${id}/scape`,
    text: async () => {
      const answer = await page.request.get(`${stage.url}/api/tanks/${id}`);
      return ((await answer.json()) as { text: string }).text;
    },
  };
}

/** A ball of 200 mm, 20 parts² triangles. */
function ball(parts: number): Mesh {
  const { positions, triangles } = icosphere(parts);
  return { positions: positions.map((v) => 0.1 * v), triangles };
}

const file = (name: string, bytes: Uint8Array): { name: string; mimeType: string; buffer: Buffer } => ({
  name,
  mimeType: "application/octet-stream",
  buffer: Buffer.from(bytes),
});
const written = (text: string): Uint8Array => new TextEncoder().encode(text);

const things = (page: Page): Locator => page.locator(".things button");

describe("what an owner brings along", () => {
  for (const width of [1440, 390]) {
    journey(`a scanned stone, at ${width} px`, { timeout: 180_000 }, async () => {
      const { page, context, errors } = await stage.open({ width, height: 1000 });
      const { address, text } = await begin(page);
      await page.goto(address);
      const block = page.locator(".import-piece");
      await block.getByText("Bring in your own piece").click();
      const picker = block.getByLabel("File");
      const read = block.getByRole("button", { name: "Read it" });
      expect(await read.isDisabled()).toBe(true);

      // a broken file: where and why, and the page lives on
      await picker.setInputFiles(file("torn.obj", written("v 0 0 0\nv 1 0 0\nv 0 one 0\nf 1 2 3\n")));
      expect(await read.isDisabled()).toBe(true);
      await block.getByRole("textbox", { name: "is" }).fill("23");
      await block.getByText(/allowed: /).waitFor();
      await block.getByRole("textbox", { name: "is" }).fill("9 m");
      await block.getByText("9 m is no length of a piece; allowed: 5 mm to 6000 mm").waitFor();
      await block.getByRole("textbox", { name: "is" }).fill("23 cm");
      await read.click();
      const refusal = block.getByRole("alert");
      await refusal.filter({ hasText: "torn.obj, line 3: a corner that is not numbers; allowed:" }).waitFor();
      expect(await axe(page)).toEqual([]);

      // a sound solid of no size that a plan takes
      const cliff = { ...ball(4), positions: ball(4).positions.map((v) => 100 * v) };
      await picker.setInputFiles(file("cliff.glb", writeGlb([{ name: "cliff", mesh: cliff }])));
      await block.getByRole("textbox", { name: "is" }).fill("");
      await read.click();
      await refusal
        .filter({ hasText: /^cliff\.glb: the piece would be .* m by .*allowed: 5 mm to 6 m each way/ })
        .waitFor();

      // one that is refused by its size alone, without being read
      const folder = mkdtempSync(join(tmpdir(), "lentic import "));
      writeFileSync(join(folder, "huge.stl"), "");
      truncateSync(join(folder, "huge.stl"), 101 * 1024 * 1024);
      await picker.setInputFiles(join(folder, "huge.stl"));
      await refusal.filter({ hasText: "huge.stl: 101 MB; allowed: up to 100 MB" }).waitFor();
      expect(await read.isDisabled()).toBe(true);
      rmSync(folder, { recursive: true });

      // a large one, left half way
      await picker.setInputFiles(file("large.glb", writeGlb([{ name: "scan", mesh: ball(120) }])));
      await refusal.waitFor({ state: "detached" });
      await block.getByRole("textbox", { name: "is" }).fill("");
      await read.click();
      await block.getByRole("button", { name: "Cancel" }).click();
      await block.getByRole("progressbar").waitFor({ state: "detached" });
      expect(await block.getByRole("button", { name: "Put it in the tank" }).count()).toBe(0);
      expect(await things(page).filter({ hasText: /^S1/ }).count()).toBe(0);

      await picker.setInputFiles(file("stone.glb", writeGlb([{ name: "scan", mesh: ball(40) }])));
      await block.getByLabel("Material").selectOption("basalt");
      await read.click();
      const result = block.locator(".import-result");
      await result.getByText("200 × 200 × 200 mm").waitFor({ timeout: 30_000 });
      // a ball of 200 mm holds 4.19 L; basalt weighs 2.8 to 3.0 kg/L (facts of the stones)
      await result.getByText("4.19 L").waitFor();
      await result.getByText("kept of 32,000").waitFor();
      const mass = Number(/Mass\s*([\d.]+) kg/.exec((await result.innerText()).replaceAll("\n", " "))?.[1]);
      expect(mass / 4.19).toBeGreaterThan(2.8);
      expect(mass / 4.19).toBeLessThan(3);
      expect(await axe(page)).toEqual([]);
      await block.getByRole("button", { name: "Put it in the tank" }).click();

      await things(page).filter({ hasText: /^S1/ }).waitFor();
      await expect.poll(text).toContain("model: m1:");
      expect(await text()).toContain("material: basalt");
      await page.locator(".board-told", { hasText: `200 × 200 × 200 mm, ${mass} kg` }).waitFor();
      await page.getByRole("table").filter({ hasText: "the plan needs" }).getByText("basalt, 1 piece").waitFor();
      await page.reload();
      await things(page).filter({ hasText: /^S1/ }).waitFor();
      await page.getByRole("button", { name: "undo" }).click();
      await expect.poll(text).toBe(glass);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
      expect(errors).toEqual([]);
      await context.close();
    });
  }

  journey("a lamp's photometric file", { timeout: 120_000 }, async () => {
    const { page, context, errors } = await stage.open({ width: 1440, height: 1000 });
    const { address, text } = await begin(page);
    await page.goto(address);
    await things(page).filter({ hasText: "lamp" }).click();
    const block = page.locator(".import-lamp");
    const picker = block.getByLabel("File");
    const head = "IESNA:LM-63-1995\r\nTILT=NONE\r\n1 -1 1 4 1 1 2 0.1 0.1 0\r\n1 1 6\r\n0 30 60 90\r\n0\r\n";
    await picker.setInputFiles(file("bad.ies", written(`${head}100 80 forty 0\r\n`)));
    await block
      .getByRole("alert")
      .filter({ hasText: /bad\.ies is not taken:\s*line 7: .*"forty".*allowed: / })
      .waitFor();
    await picker.setInputFiles(file("long.ies", written(`${head}100 80 40 0\r\n${"\r\n".repeat(60_001)}`)));
    await block.getByRole("alert").filter({ hasText: "at most 60000 characters" }).waitFor();
    expect(await text()).toBe(glass);

    await picker.setInputFiles(file("good.ies", written(`${head}100 80 40 0\r\n`)));
    // half of 100 cd lies three quarters of the way from 30 to 60 degrees
    await block.getByText("105 deg at half intensity, 100 cd straight down").waitFor();
    await block.getByText(/lm\/W at 6 W/).waitFor();
    await expect.poll(text).toContain("photometry:");
    expect(await text()).toContain("0 30 60 90");
    expect(await block.getByRole("alert").count()).toBe(0);
    expect(await axe(page)).toEqual([]);
    await page.reload();
    await things(page).filter({ hasText: "lamp" }).click();
    await block.getByText("105 deg at half intensity, 100 cd straight down").waitFor();
    await block.getByRole("button", { name: "remove the file" }).click();
    await expect.poll(text).toBe(glass);
    await block.getByText("File", { exact: true }).waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });
});
