import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { otherPages, tankPages } from "./pages.ts";
import { axe, chrome, dayReady, demoAddress, raise, type Stage } from "./stage.ts";

// without a browser these journeys cannot be made: said aloud, and a failure where CI asks for them
const able = chrome !== undefined || process.env.CI === "true";
const journey = able ? test : test.skip;

let stage: Stage;
let demo = "";

beforeAll(async () => {
  if (!able) return;
  stage = await raise();
  const { page, context } = await stage.open();
  demo = await demoAddress(page, stage.url);
  await context.close();
}, 60_000);
afterAll(async () => {
  if (able) await stage.close();
});

const number = (text: string | null): number => Number(/-?[\d.]+/.exec(text ?? "")?.[0] ?? Number.NaN);

describe("every page", () => {
  for (const width of [1440, 768, 360]) {
    journey(`is accessible and fits ${width} px, light and dark`, { timeout: 180_000 }, async () => {
      for (const theme of ["paper", "room"] as const) {
        const { page, context, errors } = await stage.open({ width, height: width === 360 ? 740 : 900, theme });
        const addresses = [...tankPages.map((p) => `${demo}/${p}`), ...otherPages.map((p) => `${stage.url}${p}`)];
        for (const address of addresses) {
          await page.goto(address);
          if (address.endsWith("today") && !address.includes("not-there")) await dayReady(page);
          else await page.locator("h1, main").first().waitFor();
          await page.waitForTimeout(150);
          const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
          expect(overflow, `${address} is wider than ${width} px`).toBeLessThanOrEqual(0);
          expect(await axe(page), `${address} at ${width} px, ${theme}`).toEqual([]);
        }
        expect(errors).toEqual([]);
        await context.close();
      }
    });
  }
});

describe("the day under the finger", () => {
  journey("a remedy of the sentence is tried at once, told, kept, and undone", { timeout: 90_000 }, async () => {
    const { page, context, errors } = await stage.open();
    await page.goto(`${demo}/today`);
    await dayReady(page);
    expect(await page.locator("h1").innerText()).toMatch(/after lights/);
    await page.locator("h1 .try").first().click();
    await page.getByText(/^Trying: valve opens/).waitFor();
    await page.locator("h1", { hasText: "in time" }).waitFor({ timeout: 15_000 });
    await page.getByRole("button", { name: "keep as plan" }).click();
    await page.getByText(/^Trying/).waitFor({ state: "detached" });
    await page.reload();
    await dayReady(page);
    expect(await page.locator("h1").innerText()).toMatch(/in time/);
    await page.getByRole("button", { name: "undo" }).click();
    await page.locator("h1", { hasText: /after lights/ }).waitFor({ timeout: 15_000 });
    await page.getByRole("button", { name: "redo" }).click();
    await page.locator("h1", { hasText: "in time" }).waitFor({ timeout: 15_000 });
    await page.getByRole("button", { name: "undo" }).click();
    await page.locator("h1", { hasText: /after lights/ }).waitFor({ timeout: 15_000 });
    expect(errors).toEqual([]);
    await context.close();
  });

  journey("dragging a handle moves the curves; reload and back lose nothing", { timeout: 90_000 }, async () => {
    const { page, context, errors } = await stage.open();
    await page.goto(`${demo}/today`);
    await dayReady(page);
    const curve = page.locator(".strip .curve").first();
    const before = await curve.getAttribute("d");
    const handle = page.getByRole("slider", { name: "valve opens" }).first();
    const box = (await handle.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 - 60, box.y + box.height / 2, { steps: 12 });
    await page.mouse.up();
    await page.waitForFunction((d) => document.querySelector(".strip .curve")?.getAttribute("d") !== d, before);
    await page.getByText(/^Trying: valve opens at/).waitFor();
    const tried = await page.locator(".trying").innerText();
    await page.reload();
    await page.getByText(tried).waitFor();
    await page.getByRole("link", { name: "Water" }).click();
    await page.locator("main").waitFor();
    await page.goBack();
    await page.getByText(tried).waitFor();
    await page.getByRole("button", { name: "undo" }).click();
    await page.locator(".trying").waitFor({ state: "detached" });
    expect(errors).toEqual([]);
    await context.close();
  });

  journey("by keyboard alone: reach a knob, turn it, pin, keep, open a working", { timeout: 90_000 }, async () => {
    const { page, context, errors } = await stage.open();
    await page.goto(`${demo}/today`);
    await dayReady(page);
    const reach = async (name: RegExp, presses = 80): Promise<void> => {
      for (let i = 0; i < presses; i += 1) {
        await page.keyboard.press("Tab");
        const label = await page.evaluate(() => {
          const at = document.activeElement;
          return `${at?.getAttribute("aria-label") ?? ""} ${at?.textContent ?? ""}`.trim();
        });
        if (name.test(label)) return;
      }
      throw new Error(`${name} was not reached by Tab`);
    };
    await reach(/^bubble rate/);
    const rate = page.locator(".knob", { hasText: "bubble rate" }).locator("output");
    const first = number(await rate.innerText());
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    await page.waitForFunction((v) => Number(document.querySelector(".knob output")?.textContent) > v, first);
    await page.getByText(/^Trying: .*bubbles/).waitFor();
    await reach(/^pin$/);
    await page.keyboard.press("Enter");
    await page.locator(".strip .pinned").first().waitFor();
    await page.keyboard.press("Enter");
    await page.locator(".strip .pinned").first().waitFor({ state: "detached" });
    await page.locator("body").press("Home");
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.locator(".top a").first().focus();
    await reach(/O2 at dawn|O₂ at dawn/);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: /Working: O/ }).waitFor();
    await reach(/^undo$/, 200);
    await page.keyboard.press("Enter");
    await page
      .locator(".trying")
      .waitFor({ state: "detached", timeout: 10_000 })
      .catch(async () => {
        // two presses of the arrow key may count as two steps back
        await page.keyboard.press("Enter");
        await page.locator(".trying").waitFor({ state: "detached" });
      });
    expect(errors).toEqual([]);
    await context.close();
  });

  journey("the unit switch shows the same day in the other units, and stays", { timeout: 60_000 }, async () => {
    const { page, context, errors } = await stage.open();
    await page.goto(`${demo}/today`);
    await dayReady(page);
    await page.getByRole("button", { name: "US", exact: true }).click();
    await page.locator(".strip .title", { hasText: "°F" }).waitFor();
    await page.reload();
    await page.locator(".strip .title", { hasText: "°F" }).waitFor();
    await page.getByRole("button", { name: "metric" }).click();
    await page.locator(".strip .title", { hasText: "°C" }).waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });

  journey("every figure opens its working and its source", { timeout: 60_000 }, async () => {
    const { page, context, errors } = await stage.open();
    await page.goto(`${demo}/today`);
    await dayReady(page);
    const figures = page.locator("[data-figure], .more-figures button");
    const count = await figures.count();
    expect(count).toBeGreaterThan(8);
    for (let i = 0; i < count; i += 1) {
      const figure = figures.nth(i);
      // the middle of a drawn figure may lie between its words and its mark
      const words = figure.locator("text");
      await ((await words.count()) > 0 ? words.first() : figure).click();
      await page.locator(".working h2").waitFor();
      await page.locator(".working .cite").first().waitFor();
      expect(await page.locator(".working details li").count()).toBeGreaterThan(0);
    }
    expect(errors).toEqual([]);
    await context.close();
  });

  journey("a server that goes away loses nothing that was kept", { timeout: 90_000 }, async () => {
    const { page, context } = await stage.open();
    await page.goto(`${demo}/today`);
    await dayReady(page);
    const before = await (await page.request.get(`${stage.url}/api/tanks`)).json();
    await context.route("**/api/**", (route) => route.abort());
    await page.getByRole("slider", { name: "lamp strength" }).first().focus();
    await page.keyboard.press("ArrowUp");
    await page.getByText(/^Trying: lamp at/).waitFor();
    await page.getByRole("button", { name: "keep as plan" }).click();
    await page.getByText(/not reached/).waitFor();
    await context.unroute("**/api/**");
    await page.getByText(/not reached/).waitFor({ state: "detached", timeout: 15_000 });
    const after = await (await page.request.get(`${stage.url}/api/tanks`)).json();
    expect(after[0].revision).toBeGreaterThan(before[0].revision);
    await page.getByRole("button", { name: "undo" }).click();
    await page.waitForTimeout(500);
    await context.close();
  });
});
