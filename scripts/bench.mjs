/** `npm run bench`: every file of bench/ in one run on one core; each prints its figures and ratios side by side. */
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { browser, built, packages } from "./ensure.mjs";
import { root } from "./run.mjs";

packages();
await built();
const chrome = browser();
if (chrome) process.env.LENTIC_CHROME = chrome;
const esbuild = await import("esbuild");
const out = mkdtempSync(join(root, "node_modules/.bench-"));
const only = process.argv.slice(2);
/** Parts that several share. */
const shared = ["timing.ts", "python.ts", "app.ts", "board-frames.ts", "crowded.ts", "frame-work.ts"];
try {
  const files = readdirSync(join(root, "bench")).filter(
    (f) => f.endsWith(".ts") && !shared.includes(f) && (only.length === 0 || only.includes(f.slice(0, -3))),
  );
  await esbuild.build({
    entryPoints: files.map((f) => join(root, "bench", f)),
    outdir: out,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    external: ["playwright-core", "better-sqlite3", "pg"],
    banner: {
      js: "import { createRequire as benchRequire } from 'node:module'; const require = benchRequire(import.meta.url);",
    },
    conditions: ["source"],
    outExtension: { ".js": ".mjs" },
  });
  for (const file of files) {
    const { run } = await import(pathToFileURL(join(out, file.replace(/\.ts$/, ".mjs"))).href);
    const { name, lines } = await run();
    console.log(`\n${name}`);
    for (const line of lines) console.log(`  ${line}`);
  }
} finally {
  rmSync(out, { recursive: true, force: true });
}
