import { gzipSync } from "node:zlib";
import { openApp } from "./app.ts";
import { quantilesOf } from "./timing.ts";

interface Watched {
  events: number;
  redraws: number[];
  /** From the newest pointer event to the frame that shows its curve, ms. */
  waits: number[];
}

/** The app in a browser: from a move of the finger to the redrawn curve, and what the first page weighs. */
export async function run(): Promise<{ name: string; lines: string[] }> {
  const name = "The day in the browser (bars: drag to redrawn curves p95 <= 50 ms; first page <= 350 KiB gzip)";
  const executablePath = process.env.LENTIC_CHROME;
  if (!executablePath) return { name, lines: ["no browser here; set LENTIC_CHROME to one"] };
  const app = await openApp(executablePath);
  const { url, browser } = app;
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    const weights = new Map<string, number>();
    page.on("response", async (response) => {
      const path = new URL(response.url()).pathname;
      if (path.startsWith("/api/")) return;
      const body = await response.body().catch(() => Buffer.alloc(0));
      weights.set(path, /\.woff2?$/.test(path) ? body.length : gzipSync(body).length);
    });
    const tanks = (await (await page.request.get(`${url}/api/tanks`)).json()) as { id: string }[];
    const began = performance.now();
    await page.goto(`${url}/tank/${tanks[0]?.id}/today`);
    await page.locator(".strip .curve").first().waitFor();
    const drawn = performance.now() - began;
    await page.locator(".findings li").first().waitFor();
    const whole = performance.now() - began;

    await page.evaluate(() => {
      const watched: Watched = { events: 0, redraws: [], waits: [] };
      (window as unknown as { watched: Watched }).watched = watched;
      let moved = 0;
      window.addEventListener(
        "pointermove",
        (event) => {
          watched.events += 1;
          moved = event.timeStamp;
        },
        true,
      );
      const curve = document.querySelector(".strip .curve");
      if (!curve) return;
      let waiting = false;
      new MutationObserver(() => {
        const of = moved;
        if (waiting) return;
        waiting = true;
        requestAnimationFrame(() => {
          const channel = new MessageChannel();
          // the message comes after the frame has been handed on
          channel.port1.onmessage = () => {
            waiting = false;
            watched.redraws.push(performance.now());
            watched.waits.push(performance.now() - of);
          };
          channel.port2.postMessage(null);
        });
      }).observe(curve, { attributes: true, attributeFilter: ["d"] });
    });
    const redraws = (): Promise<number> =>
      page.evaluate(() => (window as unknown as { watched: Watched }).watched.redraws.length);

    const drag = async (handle: string, moves: number, wait: boolean): Promise<Watched> => {
      await page.evaluate(() => {
        Object.assign((window as unknown as { watched: Watched }).watched, { events: 0, redraws: [], waits: [] });
      });
      const box = await page.getByRole("slider", { name: handle }).first().boundingBox();
      if (!box) throw new Error(`no handle ${handle}`);
      const y = box.y + box.height / 2;
      const from = box.x + box.width / 2;
      await page.mouse.move(from, y);
      await page.mouse.down();
      for (let i = 1; i <= moves; i += 1) {
        const seen = await redraws();
        // there and back again, two pixels at a time
        const away = i % 40 < 20 ? i % 40 : 40 - (i % 40);
        await page.mouse.move(from - 2 * away, y);
        if (!wait) await page.waitForTimeout(16);
        else for (let k = 0; k < 40 && (await redraws()) === seen; k += 1) await page.waitForTimeout(4);
      }
      await page.waitForTimeout(300);
      const watched = await page.evaluate(() => (window as unknown as { watched: Watched }).watched);
      await page.mouse.up();
      return watched;
    };
    await drag("valve opens", 40, true);
    const single = await drag("valve opens", 160, true);
    const lamp = await drag("lamp off", 160, true);
    const rolling = await drag("valve opens", 240, false);
    const span = ((rolling.redraws.at(-1) ?? 0) - (rolling.redraws[0] ?? 0)) / 1000;
    const line = (what: string, times: readonly number[]): string => {
      const { median, p95, max } = quantilesOf(times);
      return `${what.padEnd(46)} median ${median.toFixed(1).padStart(6)} ms   p95 ${p95.toFixed(1).padStart(6)} ms   max ${max.toFixed(1)} ms (${times.length})`;
    };
    const sum = (ends: RegExp): number =>
      [...weights].filter(([path]) => ends.test(path)).reduce((all, [, bytes]) => all + bytes, 0) / 1024;
    /** The light is followed beside the page, once it stands. */
    const after = /\/light-work/;
    const kib = (value: number): string => `${value.toFixed(0)} KiB`;
    return {
      name,
      lines: [
        line("valve moved, curve in its frame", single.waits),
        line("lamp moved, curve in its frame", lamp.waits),
        line("a steady drag: newest move to its frame", rolling.waits),
        `a steady drag: ${(rolling.redraws.length / Math.max(span, 1e-3)).toFixed(0)} curves a second from ${rolling.events} moves`,
        `first page: ${kib(sum(/./) - sum(after))} (scripts ${kib(sum(/\.js$/) - sum(after))}, styles ${kib(sum(/\.css$/))}, faces ${kib(sum(/\.woff2?$/))}); after the curves stand, on the first visit, the light solver: ${kib(sum(after))}`,
        `curves after ${drawn.toFixed(0)} ms, ranges and findings after ${whole.toFixed(0)} ms`,
      ],
    };
  } finally {
    await app.close();
  }
}
