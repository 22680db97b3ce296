/** A real server with a store of its own and a real browser, for journeys. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";

const root = fileURLToPath(new URL("../../../..", import.meta.url));
export const chrome = process.env.LENTIC_CHROME;

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export interface Stage {
  readonly url: string;
  readonly browser: Browser;
  /** A fresh browser profile; errors on its pages fail the test that closes it. */
  open(options?: {
    width?: number;
    height?: number;
    theme?: "paper" | "room";
    units?: "metric" | "us";
    reducedMotion?: boolean;
  }): Promise<Visit>;
  close(): Promise<void>;
}

interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly errors: string[];
}

async function serve(data: string): Promise<{ child: ChildProcess; url: string }> {
  const child = spawn(
    process.execPath,
    [join(root, "packages/cli/dist/lentic.js"), "serve", "--demo", "--port", "0", "--data", data],
    {
      stdio: ["ignore", "pipe", "pipe"],
    },
  );
  let said = "";
  const url = await new Promise<string>((resolve, reject) => {
    const read = (chunk: Buffer): void => {
      said += chunk.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said);
      if (found) resolve(found[0]);
    };
    child.stdout.on("data", read);
    child.stderr.on("data", read);
    child.on("exit", (code) => reject(new Error(`the server ended with ${code}: ${said}`)));
    setTimeout(() => reject(new Error(`the server did not say its address: ${said}`)), 20_000).unref();
  });
  return { child, url };
}

export async function raise(): Promise<Stage> {
  const data = mkdtempSync(join(tmpdir(), "lentic e2e "));
  const { child, url } = await serve(data);
  const browser = await chromium.launch({
    ...(chrome ? { executablePath: chrome } : {}),
    args: [
      "--no-sandbox",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--disable-quic",
    ],
  });
  return {
    url,
    browser,
    async open({ width = 1440, height = 900, theme = "paper", units = "metric", reducedMotion = false } = {}) {
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme: theme === "room" ? "dark" : "light",
        reducedMotion: reducedMotion ? "reduce" : "no-preference",
        hasTouch: width < 600,
        locale: units === "us" ? "en-US" : "en-GB",
      });
      const page = await context.newPage();
      const errors: string[] = [];
      page.on("pageerror", (error) => errors.push(error.message));
      page.on("console", (message) => {
        if (message.type() === "error" && !/ERR_CONNECTION|Failed to load resource/.test(message.text()))
          errors.push(message.text());
      });
      // nothing may ever be asked for outside this machine
      await context.route("**/*", (route) => {
        const asked = new URL(route.request().url());
        if (asked.origin === url || asked.protocol === "blob:" || asked.protocol === "data:") return route.continue();
        errors.push(`asked for ${asked.href}`);
        return route.abort();
      });
      return { page, context, errors };
    },
    async close() {
      await browser.close();
      const ended = new Promise((resolve) => child.on("exit", resolve));
      child.kill("SIGTERM");
      await ended;
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** Address of the demo tank's page. */
export async function demoAddress(page: Page, url: string): Promise<string> {
  const response = await page.request.get(`${url}/api/tanks`);
  const tanks = (await response.json()) as { id: string; name: string }[];
  const demo = tanks.find((t) => t.name === "Quarry bank");
  if (!demo) throw new Error("the demo tank is not there");
  return `${url}/tank/${demo.id}`;
}

/** Waits until the day has its ranges and findings. */
export async function dayReady(page: Page): Promise<void> {
  await page.locator(".strip .doubt").first().waitFor({ timeout: 30_000 });
  await page.locator(".findings li").first().waitFor({ timeout: 30_000 });
}

interface AxeViolation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** Accessibility faults of the page as it stands, in words. */
export async function axe(page: Page): Promise<readonly string[]> {
  await page.evaluate(axeSource);
  const violations = await page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run(options: unknown): Promise<{ violations: unknown[] }> } }).axe;
    return (await run.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }))
      .violations;
  });
  return (violations as AxeViolation[]).map(
    (v) =>
      `${v.id}: ${v.help}: ${v.nodes
        .slice(0, 3)
        .map((n) => `${n.html.slice(0, 140)} ${n.failureSummary ?? ""}`)
        .join(" | ")}`,
  );
}
