/**
 * Skeletons: `npm run new relation gas my-relation`, `npm run new process my-process`, `npm run new screen my-screen`,
 * `npm run new fact substrate "my sand"`. Each writes files that pass `npm run check` once their blanks are filled; until
 * then their tests fail and say what is missing.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { root } from "./run.mjs";

const [kind, ...words] = process.argv.slice(2);
const camel = (name) => name.replace(/-([a-z])/g, (_, c) => c.toUpperCase());
const pascal = (name) => camel(`-${name}`);
const kebab = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;

function stop(text) {
  console.error(text);
  process.exit(2);
}

function name(word, what) {
  if (!word || !kebab.test(word)) stop(`${what} needs a name in lower case with dashes, such as plate-loss`);
  return word;
}

function write(path, text) {
  const file = join(root, path);
  if (existsSync(file)) stop(`${path} is there already`);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  console.log(`wrote ${path}`);
}

const rooms = ["chemistry", "gas", "heat", "light", "plants", "animals", "geometry", "units"];

const kinds = {
  relation() {
    const room = words[0];
    if (!rooms.includes(room)) stop(`a relation belongs to a room: ${rooms.join(", ")}`);
    const id = name(words[1], "a relation");
    write(
      `packages/core/src/${room}/${id}.ts`,
      `import { output, quantity, relation } from "../relation/index.ts";

/**
 * What it is, in one line.
 * @param x unit, range
 * @returns unit. Source: key of sources.ts
 */
export function ${camel(id)}(x: number): number {
  return x;
}

export const ${camel(id)}Relations = [
  relation({
    id: "${id}",
    title: "",
    room: "${room}",
    inputs: { x: quantity("", "1", 0, 1) },
    outputs: { y: output("", "1") },
    equation: "",
    sources: [],
    compute: ({ x }) => ({ y: ${camel(id)}(x) }),
  }),
];
`,
    );
    write(
      `packages/core/src/${room}/${id}.test.ts`,
      `import { expect, test } from "vitest";
import { ${camel(id)}Relations } from "./${id}.ts";

test("${id} has a title, an equation and a source", () => {
  for (const r of ${camel(id)}Relations) {
    expect(r.title).not.toBe("");
    expect(r.equation).not.toBe("");
    expect(r.sources).not.toEqual([]);
  }
});
`,
    );
    console.log(`next: spread ${camel(id)}Relations into the room's relations, cite its source in sources.ts,`);
    console.log(`and put published values into checks/${room}.yaml.`);
  },
  process() {
    const id = name(words[0], "a process");
    write(
      `packages/core/src/tank/processes/${id}.ts`,
      `import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** What it does to the tank, in one line. */
export const ${camel(id)}: Process = {
  id: "${id}",
  title: "",
  about: "",
  sources: [],
  needs: ["temperature"],
  provides: [],
  flows: [],
  start: () => ({
    at(_t, _y, q, _flow, _first) {
      void q[Q.temperature];
    },
  }),
};
`,
    );
    console.log(
      "next: add it to the list in packages/core/src/tank/processes/index.ts (one line); the tests of the tank",
    );
    console.log("room then check its needs, its flows, its sources and that every ledger still closes.");
  },
  screen() {
    const id = name(words[0], "a screen");
    write(
      `packages/web/src/pages/${id}.tsx`,
      `import type { TankRecord } from "../data/api.ts";
import type { TankDoor } from "../data/use-tank.ts";

/** What its reader comes for, in one line. */
export function ${pascal(id)}Page({ tank }: { tank: TankRecord; door: TankDoor }) {
  return (
    <main id="main">
      <h1>{tank.name}</h1>
    </main>
  );
}
`,
    );
    console.log(
      "next: give it a place in packages/web/src/pages/places.ts and a case in app.tsx, and add its address to the",
    );
    console.log(
      "list in packages/web/src/e2e/pages.ts: every page is opened there, at three widths, and checked by axe.",
    );
  },
  fact() {
    const tables = {
      plant: "plants.ts",
      animal: "animals.ts",
      substrate: "substrates.ts",
      stone: "stones.ts",
      wood: "woods.ts",
    };
    const table = tables[words[0]];
    if (!table || !words[1]) stop(`a fact is one of ${Object.keys(tables).join(", ")}, and has a name`);
    const text = readFileSync(join(root, "packages/core/src/facts", table), "utf8");
    const head = text.slice(0, text.indexOf("*/") + 2);
    console.log(
      `Facts are rows of packages/core/src/facts/${table}; its head says units, origin and how each is known:\n`,
    );
    console.log(head);
    console.log(
      `\nAdd the row of "${words[1]}" in the table's order, with its source or "common practice"; facts.test.ts checks it.`,
    );
  },
};

if (!Object.hasOwn(kinds, kind ?? "")) stop(`npm run new <${Object.keys(kinds).join("|")}> ...`);
kinds[kind]();
