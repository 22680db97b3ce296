import { loadavg } from "node:os";
import type { Locator, Page } from "playwright-core";
import { stringify } from "yaml";
import type { RawPlan } from "../packages/core/src/plan/index.ts";
import { openApp } from "./app.ts";
import { type FrameWork, frameMark, frameWork } from "./frame-work.ts";
import { quantilesOf } from "./timing.ts";

/** Frames before those that count, and those. */
const warm = 10;
const counted = 60;

type Place = readonly [x: number, y: number];

/** A place of the page where a drawing shows this thing, the one with most of it around. */
async function placeOf(drawing: Locator, figure: string): Promise<Place> {
  const found = await drawing.evaluate((svg, wanted): [number, number] | null => {
    const box = svg.getBoundingClientRect();
    const own = (x: number, y: number): boolean =>
      document.elementFromPoint(x, y)?.closest("[data-figure]")?.getAttribute("data-figure") === wanted;
    let best: [number, number] | null = null;
    let most = 0;
    for (let y = box.top + 2; y < Math.min(box.bottom, innerHeight); y += 4)
      for (let x = box.left + 2; x < box.right; x += 4) {
        if (!own(x, y)) continue;
        let around = 1;
        for (const d of [4, 8, 12])
          for (const [i, j] of [
            [d, 0],
            [-d, 0],
            [0, d],
            [0, -d],
          ] as const)
            if (own(x + i, y + j)) around += 1;
        if (around > most) [best, most] = [[x, y], around];
      }
    return best;
  }, figure);
  if (!found) throw new Error(`${figure} is nowhere to be seen`);
  return found;
}

/** A press that is dragged to and fro, one move a frame: the work of each frame. */
async function dragged(page: Page, [x, y]: Place, [across, down]: Place): Promise<readonly FrameWork[]> {
  const mark = (): Promise<void> =>
    page.evaluate(
      (name) =>
        new Promise<void>((resolve) => {
          // the second frame begins after the first was handed on
          requestAnimationFrame(() =>
            requestAnimationFrame(() => {
              performance.mark(name);
              resolve();
            }),
          );
        }),
      frameMark,
    );
  await page.mouse.move(x, y);
  await page.mouse.down();
  const step = async (i: number): Promise<void> => {
    const away = i % 24 < 12 ? i % 24 : 24 - (i % 24);
    await page.mouse.move(x + across * (away + 1), y + down * (away + 1));
  };
  for (let i = 0; i < warm; i++) {
    await step(i);
    await mark();
  }
  const browser = page.context().browser()!;
  await browser.startTracing(page, {
    categories: ["toplevel", "devtools.timeline", "disabled-by-default-devtools.timeline", "blink.user_timing", "v8"],
  });
  await mark();
  for (let i = warm; i < warm + counted; i++) {
    await step(i);
    await mark();
  }
  const trace = await browser.stopTracing();
  // given up rather than kept: nothing else has to be worked out then
  await page.evaluate(() => {
    for (const drawing of document.querySelectorAll(".board-drawing, .board-solid canvas"))
      drawing.dispatchEvent(new PointerEvent("pointercancel", { bubbles: true, pointerId: 1 }));
  });
  await page.mouse.up();
  return frameWork(trace);
}

/**
 * The drawing board in a browser: work of the page's main thread for one frame of each kind of edit.
 * @param only edits whose name has this in it
 */
export async function boardFrames(raw: RawPlan, only = ""): Promise<string[]> {
  const executablePath = process.env.LENTIC_CHROME;
  if (!executablePath) return ["no browser here; set LENTIC_CHROME to one"];
  const app = await openApp(executablePath);
  try {
    const page = await app.browser.newPage({ viewport: { width: 1440, height: 1300 } });
    const made = await page.request.post(`${app.url}/api/tanks`, {
      data: { text: stringify({ name: "Crowded bench", ...raw }) },
      headers: { origin: app.url },
    });
    const { id } = (await made.json()) as { id: string };
    await page.goto(`${app.url}/tank/${id}/scape`);
    const plan = page.getByRole("group", { name: /^The scape from above/ });
    const front = page.getByRole("group", { name: /^The scape from the front/ });
    await front.waitFor();
    await page
      .locator(".light-state")
      .filter({ hasText: /^followed/ })
      .waitFor({ timeout: 240_000 });
    const lines: string[] = [];
    const say = (what: string, frames: readonly FrameWork[]): void => {
      const of = (key: keyof FrameWork): string => {
        const { median, p95 } = quantilesOf(frames.map((f) => f[key]));
        return `${key} ${median.toFixed(1)}/${p95.toFixed(1)}`;
      };
      lines.push(
        `${what.padEnd(28)} ${(["script", "scriptCpu", "style", "layout", "paint", "all", "cpu"] as const).map(of).join("  ")} ms  (load ${loadavg()[0]!.toFixed(1)})`,
      );
    };
    const thing = (name: RegExp): Locator => page.locator(".things button").filter({ hasText: name }).first();
    const choose = async (name: RegExp): Promise<void> => {
      await thing(name).click();
      await page.evaluate(() => scrollTo(0, 0));
      await plan.scrollIntoViewIfNeeded();
      await page.waitForTimeout(300);
    };
    const measure = async (what: string, place: () => Promise<Place>, by: Place): Promise<void> => {
      if (!what.includes(only)) return;
      await page.waitForTimeout(500);
      say(what, await dragged(page, await place(), by));
    };
    const grip = async (handle: string): Promise<Place> => {
      const box = (await plan.locator(`[data-handle="${handle}"]`).first().boundingBox())!;
      return [box.x + box.width / 2, box.y + box.height / 2];
    };
    lines.push("in a browser, work of the page's main thread a frame, median/p95 (bar: script p95 <= 33 ms):");
    await choose(/^S8 /);
    await measure("a stone, from above", () => placeOf(plan, "piece:7"), [1, 0.5]);
    await measure("a stone, from the front", () => placeOf(front, "piece:7"), [1, 0]);
    await measure("a stone turned", () => grip("turn"), [2, 0]);
    await measure("a stone sized", () => grip("corner"), [-1, -1]);
    await choose(/^W4 /);
    await measure("wood, from above", () => placeOf(plan, "piece:63"), [1, 0.5]);
    await measure("wood, from the front", () => placeOf(front, "piece:63"), [1, 0]);
    await choose(/^M /);
    await measure("a planting, from above", () => placeOf(plan, "zone:12"), [1, 0.5]);
    await choose(/lamp 2$/);
    await measure("a lamp, from above", () => placeOf(plan, "lamp:1"), [1, 0.5]);
    await page.getByRole("button", { name: "Ground", exact: true }).click();
    await measure("the ground, brushed", () => placeOf(plan, "zone:12"), [4, 1]);
    await page.getByRole("button", { name: "Select", exact: true }).click();
    await page.getByRole("button", { name: "in three dimensions", exact: true }).click();
    await choose(/^W7 /);
    const canvas = (await page.locator(".board-solid canvas").boundingBox())!;
    const middle: Place = [canvas.x + canvas.width / 2, canvas.y + canvas.height * 0.62];
    await measure("in three dimensions, dragged", async () => middle, [1, 0.2]);
    return lines;
  } finally {
    await app.close();
  }
}
