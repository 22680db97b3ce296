import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";

/** The built app on a server of its own, and a browser to open it in. */
export interface App {
  readonly url: string;
  readonly browser: Browser;
  close(): Promise<void>;
}

/** Where the built `lentic` stands: another build can be measured beside this one. */
const built = process.env.LENTIC_BUILT ?? "packages/cli/dist/lentic.js";

export async function openApp(executablePath: string): Promise<App> {
  const data = mkdtempSync(join(tmpdir(), "lentic-bench-"));
  const server = spawn(process.execPath, [built, "serve", "--demo", "--port", "0", "--data", data], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const url = await new Promise<string>((resolve, reject) => {
    let said = "";
    server.stdout.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said);
      if (found) resolve(found[0]);
    });
    server.on("exit", () => reject(new Error(`the server ended: ${said}`)));
  });
  const browser = await chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-background-networking", "--disable-quic"],
  });
  return {
    url,
    browser,
    async close() {
      await browser.close();
      server.removeAllListeners("exit");
      server.kill("SIGTERM");
      rmSync(data, { recursive: true, force: true });
    },
  };
}
