/// <reference path="../../../core/src/model3d/gltf-validator.d.ts" />
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { validateBytes } from "gltf-validator";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axe, chrome, demoAddress, raise, type Stage } from "./stage.ts";

// without a browser these journeys cannot be made: said aloud, and a failure where CI asks for them
const able = chrome !== undefined || process.env.CI === "true";
const journey = able ? test : test.skip;
const cli = fileURLToPath(new URL("../../../cli/dist/lentic.js", import.meta.url));

let stage: Stage;

beforeAll(async () => {
  if (able) stage = await raise();
}, 60_000);
afterAll(async () => {
  if (able) await stage.close();
});

/** Presses and takes the file that comes. */
async function taken(page: Page, label: string): Promise<{ readonly file: string; readonly bytes: Uint8Array }> {
  const [download] = await Promise.all([
    page.waitForEvent("download", { timeout: 60_000 }),
    page.getByRole("button", { name: label, exact: true }).click(),
  ]);
  return { file: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(await download.path())) };
}

/** Width and height of a PNG (ISO/IEC 15948: signature, then the IHDR chunk). */
function pngSize(bytes: Uint8Array): readonly [width: number, height: number] {
  expect([...bytes.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  expect(new TextDecoder().decode(bytes.subarray(12, 16))).toBe("IHDR");
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  return [view.getUint32(16), view.getUint32(20)];
}

/** Dark pixels where the plan's length is written, under the glass, in the gap of its line. */
async function lettered(blank: Page, bytes: Uint8Array): Promise<number> {
  return blank.evaluate(async (source) => {
    const image = new Image();
    image.src = `data:image/png;base64,${source}`;
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [image.width, image.height];
    const pen = canvas.getContext("2d")!;
    pen.drawImage(image, 0, 0);
    const k = image.width / 760;
    const { data } = pen.getImageData(image.width * 0.47, image.height - 26 * k, image.width * 0.06, 24 * k);
    return data.filter((value, at) => at % 4 === 0 && value < 120).length;
  }, Buffer.from(bytes).toString("base64"));
}

describe("what leaves the board", () => {
  journey("each picture as SVG and PNG, and the scene as glTF, are what they say", { timeout: 240_000 }, async () => {
    const { page, context, errors } = await stage.open({ width: 1440, height: 1400 });
    const address = await demoAddress(page, stage.url);
    await page.goto(`${address}/scape`);
    await page.getByRole("heading", { name: "Take away" }).waitFor();
    await page.getByRole("textbox", { name: "pictures" }).fill("1200");
    await expect
      .poll(() => page.getByRole("button", { name: "light map as SVG" }).isEnabled(), { timeout: 90_000 })
      .toBe(true);
    // files are looked into on a page of their own, as a stranger would
    const blank = await context.newPage();
    for (const [label, end] of [
      ["front elevation", "front"],
      ["plan", "plan"],
      ["light map", "light"],
    ] as const) {
      const svg = await taken(page, `${label} as SVG`);
      expect(svg.file).toBe(`quarry-bank-${end}.svg`);
      const text = new TextDecoder().decode(svg.bytes);
      const parsed = await blank.evaluate((source) => {
        const read = new DOMParser().parseFromString(source, "image/svg+xml");
        const outside = [...read.querySelectorAll("*")].flatMap((e) =>
          [...e.attributes].filter((a) => /href|src/.test(a.name) && !a.value.startsWith("#")).map((a) => a.value),
        );
        const root = read.documentElement;
        return {
          root: root.tagName,
          faults: read.querySelectorAll("parsererror").length,
          width: root.getAttribute("width"),
          fonts: (read.querySelector("style")?.textContent?.match(/font\/woff2;base64,d09GMg/g) ?? []).length,
          paths: read.querySelectorAll("path").length,
          outside,
        };
      }, text);
      expect(parsed).toMatchObject({ root: "svg", faults: 0, width: "1200", fonts: 4, outside: [] });
      expect(parsed.paths).toBeGreaterThan(50);
      expect(text.match(/url\((?!data:|#)/g)).toBeNull();
      const png = await taken(page, `${label} as PNG`);
      expect(png.file).toBe(`quarry-bank-${end}.png`);
      const [width, height] = pngSize(png.bytes);
      expect(width).toBe(1200);
      expect(height).toBeGreaterThan(400);
      if (end === "plan") expect(await lettered(blank, png.bytes)).toBeGreaterThan(20);
      // not a blank page: a picture of many inks does not pack this small
      expect(png.bytes.length).toBeGreaterThan(60_000);
    }
    const glb = await taken(page, "the scene in three dimensions as glTF (GLB)");
    expect(glb.file).toBe("quarry-bank.glb");
    expect(new TextDecoder().decode(glb.bytes.subarray(0, 4))).toBe("glTF");
    const report = await validateBytes(glb.bytes, { writeTimestamp: false });
    expect(report.issues).toMatchObject({ numErrors: 0, numWarnings: 0 });

    // the command line writes the same bytes
    const folder = mkdtempSync(join(tmpdir(), "lentic glb "));
    const plan = (await (await page.request.get(address.replace("/tank/", "/api/tanks/"))).json()) as { text: string };
    writeFileSync(join(folder, "plan.yaml"), plan.text);
    const out = join(folder, "scene.glb");
    const ran = spawnSync(process.execPath, [cli, "draw", join(folder, "plan.yaml"), "--gltf", out]);
    expect(ran.status).toBe(0);
    expect(Buffer.compare(readFileSync(out), Buffer.from(glb.bytes))).toBe(0);
    rmSync(folder, { recursive: true, force: true });

    await page.getByRole("textbox", { name: "pictures" }).fill("12 px");
    await page.getByText(/12 px will not do as a width; allowed: whole px from 200 to 8000/).waitFor();
    expect(await page.getByRole("button", { name: "plan as PNG" }).isDisabled()).toBe(true);
    expect(await axe(page)).toEqual([]);
    expect(errors).toEqual([]);
    await context.close();
  });

  journey("the sheets print to scale, nothing else of the page with them", { timeout: 240_000 }, async () => {
    const { page, context, errors } = await stage.open({ width: 1440, height: 1400 });
    await page.goto(`${await demoAddress(page, stage.url)}/scape`);
    await page.getByRole("button", { name: "sheets to print" }).click();
    const first = page.getByRole("img", { name: "Sheet 1 of 5: Front elevation and plan" });
    await first.waitFor({ timeout: 60_000 });
    expect(await axe(page)).toEqual([]);

    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Save sheet 1 (SVG)" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("quarry-bank-sheet-1.svg");
    // the sheet by itself, laid out by the browser at 96 px to the inch
    const svg = readFileSync(await download.path(), "utf8");
    const blank = await context.newPage();
    const measured = await blank.evaluate((source) => {
      document.body.innerHTML = source.replace(/<\?xml.*?\?>/, "");
      const wide = (selector: string): number =>
        (document.querySelector(selector)!.getBoundingClientRect().width / 96) * 25.4;
      const words = document.body.textContent ?? "";
      return { sheet: wide("svg"), bar: wide(".s-bar"), plan: wide(".d-plan .d-glass"), words };
    }, svg);
    const scale = Number(/1:(\d+), print at 100 %/.exec(measured.words)?.[1]);
    expect(scale).toBe(5);
    // lines have a breadth of their own, which the box of an element leaves out
    expect(Math.abs(measured.sheet - 210)).toBeLessThan(0.2);
    expect(Math.abs(measured.bar - 40)).toBeLessThan(0.2);
    expect(Math.abs(measured.plan - 760 / scale)).toBeLessThan(0.2);

    // on paper: as many pages as sheets, each of its size, the pictures as large as the paper
    await page.emulateMedia({ media: "print" });
    const box = (await first.boundingBox())!;
    expect(Math.abs((box.width / 96) * 25.4 - 210)).toBeLessThan(0.2);
    expect(Math.abs((box.height / 96) * 25.4 - 297)).toBeLessThan(0.2);
    expect(await page.locator("#root").isVisible()).toBe(false);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map((m) => [Number(m[1]), Number(m[2])]);
    expect(boxes).toHaveLength(5);
    for (const [w, h] of boxes) {
      expect(Math.abs((w! / 72) * 25.4 - 210)).toBeLessThan(0.4);
      expect(Math.abs((h! / 72) * 25.4 - 297)).toBeLessThan(0.4);
    }
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("button", { name: "close" }).click();
    expect(await page.locator(".sheets").count()).toBe(0);
    expect(errors).toEqual([]);
    await context.close();
  });
});
