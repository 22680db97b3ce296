import type { Locator } from "playwright-core";
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
    // the last answers of the drag may still be on their way: what is told must have come to rest
    let tried = "";
    await expect
      .poll(
        async () => {
          const told = await page.locator(".trying").innerText();
          const rests = told === tried;
          tried = told;
          return rests;
        },
        { interval: 600, timeout: 20_000 },
      )
      .toBe(true);
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

describe("from nothing to a plan", () => {
  journey(
    "a new tank from answers: faults are told, answers stay, the day opens; removed and brought back",
    { timeout: 90_000 },
    async () => {
      const { page, context, errors } = await stage.open();
      await page.goto(`${stage.url}/`);
      await page.getByLabel("Name").fill("Hall <b>corner</b>");
      await page.getByLabel("Length outside").fill("90 cm");
      await page.getByLabel("Width, front to back").fill("45 potatoes");
      await page.getByLabel("Height of the glass").fill("45 cm");
      await page.getByRole("button", { name: "Work it out" }).click();
      await page.getByRole("heading", { name: "These answers do not make a tank yet" }).waitFor();
      expect(await page.locator(".faults").innerText()).toContain("tank.width");
      expect(await page.getByLabel("Length outside").inputValue()).toBe("90 cm");
      await page.getByLabel("Width, front to back").fill("45 cm");
      await page.getByLabel("is added").check();
      await page.getByLabel("Power of the lamp").fill("40 W");
      await page.getByRole("button", { name: "Work it out" }).click();
      await dayReady(page);
      expect(await page.locator(".tank-name").innerText()).toContain("Hall <b>corner</b>");
      await page.getByRole("link", { name: "Lentic" }).click();
      await page.getByRole("button", { name: /^remove Hall/ }).click();
      await page.getByText("was removed").waitFor();
      expect(await page.locator(".tanks a", { hasText: "Hall" }).count()).toBe(0);
      await page.getByRole("button", { name: "bring it back" }).click();
      await page.locator(".tanks a", { hasText: "Hall" }).waitFor();
      await page.getByRole("button", { name: /^remove Hall/ }).click();
      await page.getByText("was removed").waitFor();
      expect(errors).toEqual([]);
      await context.close();
    },
  );

  journey("a plan file is opened, an unreadable one is refused with line and reason", { timeout: 90_000 }, async () => {
    const { page, context, errors } = await stage.open();
    await page.goto(`${stage.url}/`);
    const open = page.locator('input[type="file"]');
    await open.setInputFiles({
      name: "torn.yaml",
      mimeType: "text/yaml",
      buffer: Buffer.from("lentic: 1\ntank: { length: 60 cm, widht: 30 cm }\n"),
    });
    await page.getByRole("heading", { name: "torn.yaml cannot be opened" }).waitFor();
    expect(await page.locator(".faults").innerText()).toMatch(/line 2, column \d+[\s\S]*width/);
    await open.setInputFiles({ name: "huge.yaml", mimeType: "text/yaml", buffer: Buffer.alloc(1_200_000, "# \n") });
    await page.getByRole("heading", { name: "huge.yaml cannot be opened" }).waitFor();
    await open.setInputFiles({
      name: "ours.yaml",
      mimeType: "text/yaml",
      buffer: Buffer.from("lentic: 1\nname: Ours\ntank: { length: 60 cm, width: 30 cm, height: 36 cm }\n"),
    });
    await dayReady(page);
    await page.getByRole("link", { name: "Lentic" }).click();
    await page.getByRole("button", { name: "remove Ours" }).click();
    await page.getByText("was removed").waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });

  journey(
    "a field of a form: a fault stays beside it over a reload, a good value is kept and undone",
    { timeout: 90_000 },
    async () => {
      const { page, context, errors } = await stage.open();
      await page.goto(`${demo}/scape`);
      const length = page.locator('[data-path="tank.length"]');
      await length.fill("7 apples");
      await length.press("Enter");
      await page.locator(".field-fault").first().waitFor();
      await page.reload();
      expect(await length.inputValue()).toBe("7 apples");
      await length.press("Escape");
      expect(await length.inputValue()).toBe("760 mm");
      const before = await page.locator(".form-figures").innerText();
      await length.fill("90 cm");
      await length.press("Enter");
      await page.waitForFunction(
        (was) => (document.querySelector(".form-figures") as HTMLElement).innerText !== was,
        before,
      );
      await page.reload();
      expect(await length.inputValue()).toBe("90 cm");
      await page.getByRole("button", { name: "undo" }).click();
      await page.waitForFunction(
        () => document.querySelector<HTMLInputElement>('[data-path="tank.length"]')?.value === "760 mm",
      );
      const species = page.getByLabel("Add: species").first();
      await species.fill("Anubias barteri");
      await page.locator("form.add-item", { has: species }).getByRole("button", { name: "Add" }).click();
      await page.locator(".items summary", { hasText: "Anubias barteri" }).waitFor();
      await page.getByRole("button", { name: "undo" }).click();
      await page.locator(".items summary", { hasText: "Anubias barteri" }).waitFor({ state: "detached" });
      expect(errors).toEqual([]);
      await context.close();
    },
  );

  journey(
    "the plan file: what is wrong is told as it is typed, survives a reload, and a good text is kept",
    { timeout: 90_000 },
    async () => {
      const { page, context, errors } = await stage.open();
      await page.goto(`${demo}/file`);
      const area = page.getByLabel("Plan file", { exact: true });
      const text = await area.inputValue();
      await area.fill(text.replace("name: Quarry bank", "name: Quarry bank\nnmae: x"));
      await page.locator(".file-faults li").first().waitFor();
      expect(await page.getByRole("button", { name: "Keep this text" }).isDisabled()).toBe(true);
      await page.reload();
      await page.locator(".file-faults li").first().waitFor();
      await page.getByRole("button", { name: "back to the plan as kept" }).click();
      expect(await area.inputValue()).toBe(text);
      await area.fill(text.replace("place: reading room", "place: back room # moved"));
      await page.getByRole("button", { name: "Keep this text" }).click();
      await page.locator(".history li", { hasText: "plan file edited" }).waitFor();
      const download = await page.request.get(`${demo.replace("/tank/", "/api/tanks/")}/plan.yaml`);
      expect(await download.text()).toContain("place: back room # moved");
      await page.getByRole("button", { name: "undo" }).click();
      await page.waitForFunction(() => document.querySelector("textarea")?.value.includes("place: reading room"));
      expect(errors).toEqual([]);
      await context.close();
    },
  );

  journey(
    "undo pressed before the server has answered takes back what was just done",
    { timeout: 60_000 },
    async () => {
      const { page, context, errors } = await stage.open();
      await page.goto(`${demo}/scape`);
      const [length, width, height] = ["length", "width", "height"].map((side) =>
        page.locator(`[data-path="tank.${side}"]`),
      ) as [Locator, Locator, Locator];
      const undo = page.getByRole("button", { name: "undo" });
      const put = async (field: Locator, value: string): Promise<void> => {
        await field.fill(value);
        await field.press("Enter");
      };
      const kept = async (): Promise<{ revision: number; text: string }> =>
        (await page.request.get(demo.replace("/tank/", "/api/tanks/"))).json();
      await length.waitFor();
      // one step that is kept, so that undo can be pressed at once and has a step that it must leave alone
      await put(height, "41 cm");
      await expect.poll(async () => (await kept()).text).toContain("41 cm");
      await expect.poll(() => undo.isEnabled()).toBe(true);
      const { revision } = await kept();
      await context.route("**/api/tanks/*/*", async (route) => {
        await new Promise((resolve) => setTimeout(resolve, 400));
        await route.continue();
      });
      await put(length, "90 cm");
      await put(width, "50 cm");
      await undo.click();
      await undo.click();
      await expect.poll(async () => (await kept()).revision, { timeout: 10_000 }).toBe(revision + 4);
      await page.reload();
      await length.waitFor();
      const shown = await Promise.all([length, width, height].map((field) => field.inputValue()));
      expect(shown).toEqual(["760 mm", "380 mm", "41 cm"]);
      await undo.click();
      await expect.poll(async () => (await kept()).text, { timeout: 10_000 }).not.toContain("41 cm");
      expect(errors).toEqual([]);
      await context.close();
    },
  );

  journey(
    "a text that cannot be sent stays, is told so, and is kept when it is sent again",
    { timeout: 60_000 },
    async () => {
      const { page, context } = await stage.open();
      await page.goto(`${demo}/file`);
      const area = page.getByLabel("Plan file", { exact: true });
      const text = await area.inputValue();
      await area.fill(text.replace("place: reading room", "place: attic"));
      await context.route("**/api/**", (route) => route.abort());
      await page.getByRole("button", { name: "Keep this text" }).click();
      await page.getByText("could not be reached; the plan is as it was").waitFor();
      expect(await page.getByText("trying again").count()).toBe(0);
      await context.unroute("**/api/**");
      await page.reload();
      expect(await area.inputValue()).toContain("place: attic");
      await page.getByRole("button", { name: "Keep this text" }).click();
      await page.locator(".history li", { hasText: "plan file edited" }).first().waitFor();
      await page.getByRole("button", { name: "undo" }).click();
      await page.waitForFunction(() => document.querySelector("textarea")?.value.includes("place: reading room"));
      await context.close();
    },
  );

  for (const refused of [false, true]) {
    const where = refused ? "in a browser that refuses storage" : "after a reload";
    journey(`a trial is kept ${where}, and is then no longer on trial`, { timeout: 60_000 }, async () => {
      const { page, context, errors } = await stage.open();
      if (refused)
        await context.addInitScript(() => {
          Storage.prototype.setItem = () => {
            throw new DOMException("full", "QuotaExceededError");
          };
        });
      await page.goto(`${demo}/today`);
      await dayReady(page);
      await page.getByRole("slider", { name: "lamp strength" }).first().focus();
      await page.keyboard.press("ArrowUp");
      const trying = page.getByText(/^Trying: lamp at/);
      await trying.waitFor();
      if (!refused) {
        await page.reload();
        await trying.waitFor();
      }
      const before = await (await page.request.get(demo.replace("/tank/", "/api/tanks/"))).json();
      await page.getByRole("button", { name: "keep as plan" }).click();
      await trying.waitFor({ state: "detached" });
      const after = await (await page.request.get(demo.replace("/tank/", "/api/tanks/"))).json();
      expect(after.revision).toBeGreaterThan(before.revision);
      await page.getByRole("button", { name: "undo" }).click();
      await expect
        .poll(async () => (await (await page.request.get(demo.replace("/tank/", "/api/tanks/"))).json()).text)
        .toBe(before.text);
      expect(await trying.count()).toBe(0);
      expect(errors).toEqual([]);
      await context.close();
    });
  }
});
