/** Builds everything: the library (one file set per room with declarations), the command with the server, the web app. */
import { readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { root, tool } from "./run.mjs";

const at = (path) => join(root, path);

async function library(esbuild) {
  const rooms = readdirSync(at("packages/core/src"), { withFileTypes: true }).filter((e) => e.isDirectory());
  await esbuild.build({
    entryPoints: Object.fromEntries(rooms.map((r) => [`${r.name}/index`, at(`packages/core/src/${r.name}/index.ts`)])),
    outdir: at("packages/core/dist"),
    bundle: true,
    splitting: true,
    format: "esm",
    target: "es2023",
    packages: "external",
    conditions: ["source"],
  });
}

async function command(esbuild) {
  await esbuild.build({
    entryPoints: { lentic: at("packages/cli/src/main.ts") },
    outdir: at("packages/cli/dist"),
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    conditions: ["source"],
    external: ["better-sqlite3", "pg", "pg-native"],
    banner: {
      js: "#!/usr/bin/env node\nimport { createRequire as lenticRequire } from 'node:module'; const require = lenticRequire(import.meta.url);",
    },
    loader: { ".yaml": "text" },
    define: { __VERSION__: JSON.stringify(JSON.parse(readFileSync(at("package.json"), "utf8")).version) },
    // each verb's code is loaded only when it is asked for
    splitting: true,
  });
}

export async function build() {
  const esbuild = await import("esbuild");
  for (const name of ["core", "cli", "web"]) rmSync(at(`packages/${name}/dist`), { recursive: true, force: true });
  await library(esbuild);
  await command(esbuild);
  const { build: vite } = await import("vite");
  await vite({ root: at("packages/web"), configFile: at("packages/web/vite.config.ts"), logLevel: "warn" });
}

/** Declarations are for those who publish or link the library; starting and testing need none. */
export function declarations() {
  return tool("typescript/bin/tsc", [
    "-p",
    "packages/core",
    "--noEmit",
    "false",
    "--emitDeclarationOnly",
    "--declaration",
    "--outDir",
    "packages/core/dist/types",
    "--rootDir",
    "packages/core/src",
  ]);
}

if (process.argv[1] === new URL(import.meta.url).pathname || process.argv[1]?.endsWith("build.mjs")) {
  await build();
  process.exit(declarations());
}
