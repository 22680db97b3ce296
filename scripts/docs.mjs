/**
 * `npm run docs`: pages made from the code's own descriptors: relations by room, processes, fields of the plan, rooms.
 * With --check it writes nothing and fails when a page is out of date.
 */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { packages } from "./ensure.mjs";
import { root } from "./run.mjs";

packages();
const check = process.argv.includes("--check");
const esbuild = await import("esbuild");
const out = mkdtempSync(join(root, "node_modules/.docs-"));
const rooms = ["units", "geometry", "chemistry", "gas", "heat", "light", "plants", "animals"];

async function load(room) {
  const file = join(out, `${room}.mjs`);
  await esbuild.build({
    entryPoints: [join(root, `packages/core/src/${room}/index.ts`)],
    outfile: file,
    bundle: true,
    platform: "node",
    format: "esm",
    conditions: ["source"],
    banner: {
      js: "import { createRequire as docsRequire } from 'node:module'; const require = docsRequire(import.meta.url);",
    },
  });
  return import(pathToFileURL(file).href);
}

const cell = (text) => String(text).replaceAll("|", "\\|").replaceAll("\n", " ");
const made = "<!-- Made by `npm run docs` from the code. Do not edit. -->\n\n";
const unit = (u) => (u === "1" ? "" : ` ${u}`);

const outputUnit = (o) =>
  o.yesNo ? "1 yes, 0 no" : o.unitFrom ? `as in \`${o.unitFrom}\`` : o.unit === "1" ? "" : o.unit;

function inputRow(name, i) {
  const range =
    i.kind === "choice"
      ? i.options.join(", ")
      : `${i.min} to ${i.max}${unit(i.unit)}${i.kind === "series" ? `, at least ${i.atLeast} values` : ""}`;
  const preset = "default" in i && i.default !== undefined ? `${i.default}` : "";
  return `| \`${name}\` | ${cell(i.label)} | ${cell(range)} | ${cell(preset)} |`;
}

function relationPage(room, { relations, sources }) {
  const parts = [`# ${room}: ${relations.length} relations\n`];
  parts.push(
    `Each is a pure function; \`lentic calc NAME --help\` tells the same, \`lentic calc NAME input=value\` evaluates it.\n`,
  );
  for (const r of [...relations].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    parts.push(`## ${r.id}\n\n${cell(r.title)}.\n\n\`${r.equation.replaceAll("`", "'")}\`\n`);
    parts.push(
      `| input | what | range | default |\n|---|---|---|---|\n${Object.entries(r.inputs)
        .map(([n, i]) => inputRow(n, i))
        .join("\n")}\n`,
    );
    parts.push(
      `| output | what | unit |\n|---|---|---|\n${Object.entries(r.outputs)
        .map(([n, o]) => `| \`${n}\` | ${cell(o.label)} | ${cell(outputUnit(o))} |`)
        .join("\n")}\n`,
    );
    if (r.validity) parts.push(`Holds for: ${cell(r.validity)}.\n`);
    if (r.caution) parts.push(`Caution: ${cell(r.caution)}\n`);
    parts.push(
      `Source: ${r.sources.map((key) => `${sources[key].cite} (${sources[key].how})`).join("; ") || "definition"}.\n`,
    );
  }
  return made + parts.join("\n");
}

function processPage({ processes, quantities, states }) {
  const parts = [
    `# The tank's processes\n\nA tank is this list. Processes never name each other: they meet in quantities. Every flow moves a conserved quantity from one place to another, so each ledger closes.\n`,
    `## States\n\n| state | unit | counts toward |\n|---|---|---|\n${Object.values(states)
      .map((s) => `| ${s.label} | ${s.unit} | ${s.counts} |`)
      .join("\n")}\n`,
  ];
  for (const p of processes) {
    const list = (ids) => ids.map((id) => quantities[id].label).join(", ") || "nothing";
    parts.push(`## ${p.title}\n\n${p.about}\n\nReads ${list(p.needs)}. Provides ${list(p.provides)}.\n`);
    if (p.flows.length > 0) {
      parts.push(
        `| flow | of | from | to |\n|---|---|---|---|\n${p.flows.map((f) => `| ${f.label} | ${f.of} | ${f.from} | ${f.to} |`).join("\n")}\n`,
      );
    }
  }
  return made + parts.join("\n");
}

function planPage({ fields, groups }) {
  const parts = [
    `# The plan file\n\nOne YAML file a tank. Quantities are written with their unit; an optional mark follows in brackets: \`4 dKH (measured, drop test)\`. What is left out takes the default shown here; \`lentic check --assumed\` lists what was assumed and why.\n`,
  ];
  const table = (rows) =>
    `| field | what | unit or choice | default |\n|---|---|---|---|\n${rows
      .map((f) => {
        const kind = f.choices ? f.choices.join(", ") : (f.metric ?? f.unit ?? f.kind);
        return `| \`${f.path}\` | ${cell(f.help)} | ${cell(kind)} | ${f.fallback ? `${cell(f.fallback.text)}: ${cell(f.fallback.reason)}` : "must be given"} |`;
      })
      .join("\n")}\n`;
  parts.push(table(fields.filter((f) => !f.path.includes(".") && !f.path.includes("[]"))));
  for (const g of groups) {
    const rows = fields.filter((f) => f.path.startsWith(`${g.path}.`) || f.path.startsWith(`${g.path}[]`));
    parts.push(`## ${g.path}\n\n${g.help}${g.absent === "none" ? " Left out, the tank has none." : ""}\n`);
    parts.push(table(rows));
  }
  return made + parts.join("\n");
}

function roomPage() {
  const { rooms: allowed } = JSON.parse(readFileSync(join(root, "scripts/layers.json"), "utf8"));
  const rows = Object.entries(allowed).map(([room, from]) => {
    const file = join(root, "packages/core/src", room, "README.md");
    const text = existsSync(file) ? readFileSync(file, "utf8") : "";
    const first = text.split("\n").find((line) => line.trim() && !line.startsWith("#")) ?? "";
    return `| [${room}](../packages/core/src/${room}/) | ${cell(first)} | ${from.join(", ") || "nothing"} |`;
  });
  return `${made}# Rooms of the core\n\nImports go down only; \`npm run check\` reads this same table.\n\n| room | question answered | may import |\n|---|---|---|\n${rows.join("\n")}\n`;
}

const pages = new Map();
try {
  for (const room of rooms) pages.set(`docs/relations/${room}.md`, relationPage(room, await load(room)));
  pages.set("docs/processes.md", processPage(await load("tank")));
  pages.set("docs/plan-file.md", planPage(await load("plan")));
  pages.set("docs/rooms.md", roomPage());
} finally {
  rmSync(out, { recursive: true, force: true });
}

const stale = [];
for (const [path, text] of pages) {
  const file = join(root, path);
  if (existsSync(file) && readFileSync(file, "utf8") === text) continue;
  stale.push(path);
  if (check) continue;
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}
const extra = existsSync(join(root, "docs/relations"))
  ? readdirSync(join(root, "docs/relations")).filter((f) => !pages.has(`docs/relations/${f}`))
  : [];
if (check && stale.length + extra.length > 0) {
  console.error(`out of date: ${[...stale, ...extra].join(", ")}; npm run docs makes them anew`);
  process.exit(1);
}
if (!check) console.log(stale.length > 0 ? `wrote ${stale.join(", ")}` : "nothing changed");
