/** The view in a real browser: what is seen, chosen, moved, and what happens when the picture's memory goes. */
import { fileURLToPath } from "node:url";
import { dot, minus, type Vector } from "@lentic/core/model3d";
import { build } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axe, chrome } from "../e2e/stage.ts";
import { demoScene } from "./demo.ts";
import type { DemoPage } from "./demo-page.tsx";
import { axesOf, orbitFor, viewAngle } from "./orbit.ts";

// without a browser these journeys cannot be made: said aloud, and a failure where CI asks for them
const able = chrome !== undefined || process.env.CI === "true";
const journey = able ? test : test.skip;

declare global {
  var demo: DemoPage;
}

const origin = "http://room3d.test";
let browser: Browser;
let files: ReadonlyMap<string, string>;

beforeAll(async () => {
  if (!able) return;
  const made = await build({
    entryPoints: [fileURLToPath(new URL("demo-page.tsx", import.meta.url))],
    bundle: true,
    splitting: true,
    format: "esm",
    write: false,
    outdir: "/made",
    conditions: ["source"],
    jsx: "automatic",
    define: { "process.env.NODE_ENV": '"production"' },
  });
  files = new Map(made.outputFiles.map((file) => [file.path.replace(/^.*[\\/]made[\\/]/, "/"), file.text]));
  browser = await chromium.launch({
    ...(chrome ? { executablePath: chrome } : {}),
    // a machine without a graphics card draws in software
    args: ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"],
  });
}, 60_000);
afterAll(async () => {
  if (able) await browser.close();
});

interface Visit {
  readonly page: Page;
  readonly errors: string[];
  close(): Promise<void>;
}

async function open({
  width = 1000,
  height = 700,
  query = "view=front",
  touch = false,
  before = "",
} = {}): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width, height }, hasTouch: touch });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type()) && !/GPU stall|GL Driver Message/.test(message.text()))
      errors.push(message.text());
  });
  if (before) await page.addInitScript(before);
  await page.route(`${origin}/**`, (route) => {
    const text = files.get(new URL(route.request().url()).pathname);
    return route.fulfill(
      text === undefined
        ? {
            contentType: "text/html",
            body: '<!doctype html><html lang="en"><title>View</title><style>html,body,main,#root{margin:0;height:100%}h1{position:absolute;clip-path:inset(50%)}</style><main><h1>View</h1><div id="root"></div></main><script type="module" src="/demo-page.js"></script>',
          }
        : { contentType: "text/javascript", body: text },
    );
  });
  await page.goto(`${origin}/?${query}`);
  return { page, errors, close: () => context.close() };
}

const drawn = (page: Page) => page.waitForFunction(() => (globalThis.demo?.view?.stats().frames ?? 0) > 0);

/** Waits until the picture rests. */
async function settled(page: Page): Promise<void> {
  await page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(null)))),
  );
}

/** What a picture is made of: how many colours, what share of it differs from its first dot, and a sum to tell pictures apart. */
function seen(page: Page): Promise<{ colours: number; share: number; sum: number }> {
  return page.evaluate(async () => {
    const bitmap = await createImageBitmap(await globalThis.demo.view!.picture());
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const pen = canvas.getContext("2d")!;
    pen.drawImage(bitmap, 0, 0);
    const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
    const colours = new Set<number>();
    let [other, sum] = [0, 0];
    for (let k = 0; k < data.length; k += 4) {
      const colour = (data[k]! << 16) | (data[k + 1]! << 8) | data[k + 2]!;
      colours.add(colour);
      if (colour !== ((data[0]! << 16) | (data[1]! << 8) | data[2]!)) other += 1;
      sum = (sum * 31 + colour) % 1_000_000_007;
    }
    return { colours: colours.size, share: (4 * other) / data.length, sum };
  });
}

/** Where the middle of a piece is seen from the front, CSS pixels. */
function placeOf(index: number, width: number, height: number): readonly [x: number, y: number] {
  const scene = demoScene();
  const orbit = orbitFor(scene, "front", width / height);
  const [back, right, up] = axesOf(orbit);
  const { positions } = scene.pieces[index]!.mesh;
  const middle = [0, 1, 2].map((axis) => {
    const along = positions.filter((_, k) => k % 3 === axis);
    return (Math.min(...along) + Math.max(...along)) / 2;
  }) as unknown as Vector;
  const away = minus(middle, orbit.target);
  const deep = orbit.distance - dot(away, back);
  const high = Math.tan(viewAngle / 2) * deep;
  return [(width / 2) * (1 + dot(away, right) / (high * (width / height))), (height / 2) * (1 - dot(away, up) / high)];
}

const pebble = 4;

describe("the view", () => {
  journey(
    "draws the scape in both themes, only when something changes, and is accessible",
    { timeout: 120_000 },
    async () => {
      const pictures: number[] = [];
      for (const query of ["view=front&theme=paper", "view=corner&theme=paper", "view=front&theme=room"]) {
        const { page, errors, close } = await open({ query });
        await drawn(page);
        await settled(page);
        const { colours, share, sum } = await seen(page);
        expect(colours).toBeGreaterThan(500);
        expect(share).toBeGreaterThan(0.4);
        pictures.push(sum);
        const frames = await page.evaluate(() => globalThis.demo.view!.stats().frames);
        await page.waitForTimeout(400);
        expect(await page.evaluate(() => globalThis.demo.view!.stats().frames)).toBe(frames);
        expect(await axe(page)).toEqual([]);
        expect(errors).toEqual([]);
        await close();
      }
      expect(new Set(pictures).size).toBe(3);
    },
  );

  journey(
    "a press chooses, a drag moves what is chosen, empty space and Escape let go",
    { timeout: 120_000 },
    async () => {
      const { page, errors, close } = await open();
      await drawn(page);
      const [x, y] = placeOf(pebble, 1000, 700);
      await page.mouse.click(x, y);
      await page.waitForFunction(() => globalThis.demo.selects.length === 1);
      expect(await page.evaluate(() => globalThis.demo.selects)).toEqual([{ kind: "piece", index: pebble }]);
      await settled(page);
      const before = await seen(page);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 40, y, { steps: 4 });
      await page.mouse.move(x + 80, y - 4, { steps: 4 });
      await page.mouse.up();
      await page.waitForFunction(() => globalThis.demo.moves.at(-1)?.phase === "end");
      const moves = await page.evaluate(() => globalThis.demo.moves);
      expect(moves.length).toBeGreaterThan(2);
      expect(moves.every(({ kind, index }) => kind === "piece" && index === pebble)).toBe(true);
      expect(moves.slice(0, -1).every(({ phase }) => phase === "drag")).toBe(true);
      // 80 dots of a tank 744 mm long that fills some 900
      expect(moves.at(-1)!.x - 0.38).toBeGreaterThan(0.04);
      expect(moves.at(-1)!.x - 0.38).toBeLessThan(0.09);
      await settled(page);
      expect((await seen(page)).sum).not.toBe(before.sum);
      expect(await page.evaluate(() => globalThis.demo.view!.stats().rebuilt)).toMatchObject({
        pieces: 0,
        moved: 1,
        lamps: 0,
        ground: false,
      });

      // a drag beside it turns the view and moves nothing
      const count = moves.length;
      await page.mouse.move(500, 40);
      await page.mouse.down();
      await page.mouse.move(420, 70, { steps: 5 });
      await page.mouse.up();
      expect(await page.evaluate(() => globalThis.demo.moves.length)).toBe(count);
      await page.mouse.click(8, 8);
      await page.waitForFunction(() => globalThis.demo.selects.at(-1) === null);
      await page.evaluate(() => globalThis.demo.choose({ kind: "zone", index: 2 }));
      await page.locator("canvas").focus();
      await page.keyboard.press("Escape");
      await page.waitForFunction(() => globalThis.demo.selects.length === 3);
      expect(await page.evaluate(() => globalThis.demo.selects.at(-1))).toBeNull();
      expect(errors).toEqual([]);
      await close();
    },
  );

  journey("wheel and keys turn it and bring it nearer; Home goes back", { timeout: 120_000 }, async () => {
    const { page, errors, close } = await open({ query: "view=corner" });
    await drawn(page);
    await settled(page);
    const home = await seen(page);
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("CANVAS");
    const sums = [home.sum];
    for (const key of ["ArrowLeft", "ArrowUp", "+", "Shift+ArrowRight"]) {
      await page.keyboard.press(key);
      await settled(page);
      sums.push((await seen(page)).sum);
    }
    await page.mouse.move(500, 350);
    await page.mouse.wheel(0, 240);
    await settled(page);
    sums.push((await seen(page)).sum);
    expect(new Set(sums).size).toBe(sums.length);
    await page.keyboard.press("Home");
    await settled(page);
    expect((await seen(page)).sum).toBe(home.sum);
    expect(errors).toEqual([]);
    await close();
  });

  journey("a finger chooses, two fingers bring it nearer", { timeout: 120_000 }, async () => {
    const [width, height] = [390, 600];
    const { page, errors, close } = await open({ width, height, touch: true });
    await drawn(page);
    const [x, y] = placeOf(pebble, width, height);
    await page.touchscreen.tap(x, y);
    await page.waitForFunction(() => globalThis.demo.selects.length === 1);
    expect(await page.evaluate(() => globalThis.demo.selects[0])).toEqual({ kind: "piece", index: pebble });
    await settled(page);
    const before = await seen(page);
    const fingers = await page.context().newCDPSession(page);
    const touch = (type: "touchStart" | "touchMove" | "touchEnd", ...xs: number[]) =>
      fingers.send("Input.dispatchTouchEvent", { type, touchPoints: xs.map((at, id) => ({ x: at, y: 120, id })) });
    await touch("touchStart", 170);
    await touch("touchStart", 170, 220);
    await touch("touchMove", 130, 260);
    await touch("touchMove", 90, 300);
    await touch("touchEnd");
    await settled(page);
    const after = await seen(page);
    // nearer: the tank takes more of the picture
    expect(after.share).toBeGreaterThan(1.2 * before.share);
    expect(await page.evaluate(() => globalThis.demo.moves.length)).toBe(0);
    expect(errors).toEqual([]);
    await close();
  });

  journey("the picture's memory is taken away and given back", { timeout: 120_000 }, async () => {
    const { page, errors, close } = await open();
    await drawn(page);
    await settled(page);
    const before = await seen(page);
    await page.evaluate(() => {
      const context = document.querySelector("canvas")!.getContext("webgl2")!;
      const loss = context.getExtension("WEBGL_lose_context")!;
      Object.assign(globalThis, { giveBack: () => loss.restoreContext() });
      loss.loseContext();
    });
    await page.getByText("The drawings show the same scape meanwhile.").waitFor();
    // changes meanwhile do no harm
    await page.evaluate(() => globalThis.demo.choose({ kind: "piece", index: 0 }));
    await page.evaluate(() => globalThis.demo.choose(null));
    expect(
      await page.evaluate(() =>
        globalThis.demo.view!.picture().then(
          () => "there",
          (fault: Error) => fault.name,
        ),
      ),
    ).toBe("NoPicture");
    await page.evaluate(() => (globalThis as unknown as { giveBack(): void }).giveBack());
    await page.getByRole("status").waitFor({ state: "detached" });
    await settled(page);
    const after = await seen(page);
    expect(after.sum).toBe(before.sum);
    expect(errors.filter((error) => !/Context (Lost|Restored)/i.test(error))).toEqual([]);
    await close();
  });

  journey("without WebGL 2 it says so in a sentence and nothing breaks", { timeout: 60_000 }, async () => {
    const { page, errors, close } = await open({
      before: `const get = HTMLCanvasElement.prototype.getContext;
        HTMLCanvasElement.prototype.getContext = function (kind, ...rest) { return kind === "webgl2" ? null : get.call(this, kind, ...rest); };`,
    });
    await page.getByRole("status").filter({ hasText: "no WebGL 2" }).waitFor();
    expect(await axe(page)).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });
});
