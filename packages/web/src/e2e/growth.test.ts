import { afterAll, beforeAll, expect, test } from "vitest";
import { axe, chrome, raise, type Stage } from "./stage.ts";

const able = chrome !== undefined || process.env.CI === "true";
const journey = able ? test : test.skip;

let stage: Stage;

beforeAll(async () => {
  if (able) stage = await raise();
}, 60_000);
afterAll(async () => {
  if (able) await stage.close();
});

const lawn = `lentic: 1
name: Lawn and stems
tank: { length: 600 mm, width: 300 mm, height: 360 mm }
light: { kind: bar, power: 30 W }
co2: {}
heater: {}
filter: {}
plants:
  - { species: Eleocharis acicularis, outline: "2 % 2 %, 98 % 2 %, 98 % 50 %, 2 % 50 %" }
  - { species: Rotala rotundifolia, outline: "55 % 60 %, 98 % 60 %, 98 % 98 %, 55 % 98 %" }
`;

journey(
  "the scape grows: the week is moved by keys, figures and drawing follow, an edit goes back to planting day",
  { timeout: 180_000 },
  async () => {
    const { page, context, errors } = await stage.open({ width: 1440, height: 1300 });
    const made = await page.request.post(`${stage.url}/api/tanks`, {
      data: { text: lawn },
      headers: { origin: stage.url },
    });
    const { id } = (await made.json()) as { id: string };
    await page.goto(`${stage.url}/tank/${id}/scape`);
    await page.getByText("Growth, week by week").click();
    await page.getByRole("button", { name: /^grow it for/ }).click();
    const cover = page.getByTestId("growth-cover");
    await cover.waitFor({ timeout: 120_000 });
    const front = page.getByRole("group", { name: /^The scape from the front/ });
    const first = { cover: await cover.innerText(), drawn: await front.innerHTML() };
    const week = page.getByRole("slider", { name: /^week/ });
    await week.focus();
    for (let i = 0; i < 8; i++) await page.keyboard.press("ArrowRight");
    await page.getByText(/^By week 8/).waitFor();
    expect(Number.parseInt(await cover.innerText(), 10)).toBeGreaterThan(Number.parseInt(first.cover, 10));
    await expect.poll(async () => (await front.innerHTML()) === first.drawn).toBe(false);
    await page.getByText("Food is taken as enough").waitFor();
    expect(await axe(page)).toEqual([]);
    await page.keyboard.press("Home");
    await page.getByText(/^On planting day/).waitFor();
    await expect.poll(async () => (await front.innerHTML()) === first.drawn).toBe(true);
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
    await page.getByRole("button", { name: "add a stone" }).click();
    // another plan is grown anew
    await page.getByRole("button", { name: /^grow it for/ }).waitFor();
    expect(errors).toEqual([]);
    await context.close();
  },
);
