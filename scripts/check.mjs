/** `npm run check`: types, lint and format, import directions (with a canary that a planted bad import is caught), dead code. */
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { nodeVersion, packages } from "./ensure.mjs";
import { root, run, tool } from "./run.mjs";

nodeVersion();
packages();
const { floor } = JSON.parse(readFileSync(join(root, "scripts/layers.json"), "utf8"));
const failed = [];

function step(name, check) {
  process.stdout.write(`${name} ...\n`);
  if (!check()) failed.push(name);
}

function cruise() {
  const result = spawnSync(
    process.execPath,
    [
      "node_modules/dependency-cruiser/bin/dependency-cruise.mjs",
      "--config",
      ".dependency-cruiser.cjs",
      "--output-type",
      "err",
      "packages",
    ],
    { cwd: root, encoding: "utf8" },
  );
  const seen = Number(/(\d+) modules/.exec(result.stdout)?.[1] ?? 0);
  return { ok: result.status === 0, output: result.stdout + result.stderr, seen };
}

for (const name of ["core", "store", "server", "cli", "web"]) {
  step(`types of ${name}`, () => tool("typescript/bin/tsc", ["-p", `packages/${name}`]) === 0);
}
step("lint and format", () => tool("@biomejs/biome/bin/biome", ["ci", "."]) === 0);
step("import directions", () => {
  const { ok, output, seen } = cruise();
  if (!ok) process.stdout.write(output);
  if (seen < floor) process.stdout.write(`only ${seen} modules were read; at least ${floor} are expected\n`);
  return ok && seen >= floor;
});
step("import directions, canary", () => {
  const planted = {
    "packages/core/src/chemistry/planted-canary.ts": 'export * from "../tank/index.ts";\n',
    "packages/core/src/gas/planted-canary.ts": 'export * from "@lentic/server";\n',
    "packages/web/src/planted-canary.ts": 'export * from "@lentic/store";\n',
  };
  try {
    for (const [file, text] of Object.entries(planted)) writeFileSync(join(root, file), text);
    const { ok, output } = cruise();
    const missed = Object.keys(planted).filter((file) => !output.includes(file));
    if (missed.length > 0) process.stdout.write(`planted bad imports went unseen: ${missed.join(", ")}\n`);
    return !ok && missed.length === 0;
  } finally {
    for (const file of Object.keys(planted)) rmSync(join(root, file), { force: true });
  }
});
step("dead code", () => tool("knip/bin/knip.js", ["--no-progress"]) === 0);

step("pages made from the code", () => run(process.execPath, ["scripts/docs.mjs", "--check"]) === 0);

if (failed.length > 0) {
  console.log(`\nnot in order: ${failed.join(", ")}`);
  process.exit(1);
}
console.log("\nall in order");
