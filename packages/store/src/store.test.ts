import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readPlan } from "@lentic/core/plan";
import Sqlite from "better-sqlite3";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { connect, migratorOf, StoreError } from "./open.ts";
import { openStore, type Store, steps } from "./store.ts";

const example = readFileSync(new URL("../../../examples/quarry-bank.yaml", import.meta.url), "utf8");
const folder = mkdtempSync(join(tmpdir(), "lentic store "));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bubbles = (before: string, after: string) => ({ name: `${after}`, path: ["co2", "bubbles"], before, after });
const kept = (outcome: Awaited<ReturnType<Store["create"]>>) => {
  if (!outcome.ok) throw new Error(`not kept: ${JSON.stringify(outcome)}`);
  return outcome.tank;
};

/** Server binaries of PostgreSQL, where they are installed. */
function postgresBinaries(): string | null {
  const base = "/usr/lib/postgresql";
  if (!existsSync(base)) return null;
  const version = readdirSync(base).find((v) => existsSync(join(base, v, "bin/initdb")));
  return version ? join(base, version, "bin") : null;
}

interface Place {
  readonly name: string;
  /** Address of an empty database of its own. */
  fresh(): Promise<string>;
}

const places: Place[] = [
  { name: "SQLite", fresh: async () => join(folder, `${Math.random().toString(36).slice(2)}.sqlite`) },
];

const given = process.env.LENTIC_TEST_POSTGRES;
const binaries = postgresBinaries();
let stopPostgres: (() => Promise<void>) | null = null;
let postgresUrl = given ?? "";

async function startPostgres(bin: string): Promise<string> {
  const data = mkdtempSync(join(tmpdir(), "lentic-pg-"));
  const asUser = process.getuid?.() === 0;
  const run = (command: string, args: string[]): Promise<void> =>
    new Promise((resolve, reject) => {
      const child = asUser
        ? spawn("su", ["postgres", "-c", [command, ...args].map((a) => `'${a}'`).join(" ")], { stdio: "ignore" })
        : spawn(command, args, { stdio: "ignore" });
      child.on("exit", (code) => (code === 0 ? resolve() : reject(new Error(`${command} ended with ${code}`))));
    });
  if (asUser) await new Promise((resolve) => spawn("chown", ["postgres", data]).on("exit", resolve));
  const port = await new Promise<number>((resolve) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port: free } = probe.address() as { port: number };
      probe.close(() => resolve(free));
    });
  });
  await run(join(bin, "initdb"), ["-D", join(data, "db"), "-A", "trust", "-U", "postgres"]);
  await run(join(bin, "pg_ctl"), [
    "-D",
    join(data, "db"),
    "-w",
    "-o",
    `-p ${port} -k ${data} -h 127.0.0.1`,
    "-l",
    join(data, "log"),
    "start",
  ]);
  stopPostgres = async () => {
    await run(join(bin, "pg_ctl"), ["-D", join(data, "db"), "-m", "fast", "stop"]);
    rmSync(data, { recursive: true, force: true });
  };
  return `postgres://postgres@127.0.0.1:${port}/postgres`;
}

if (given || binaries) {
  places.push({
    name: "PostgreSQL",
    fresh: async () => {
      const db = await connect(postgresUrl);
      const name = `t${Math.random().toString(36).slice(2)}`;
      const { sql } = await import("kysely");
      await sql.raw(`create database ${name}`).execute(db);
      await db.destroy();
      return postgresUrl.replace(/\/[^/]*$/, `/${name}`);
    },
  });
} else {
  test.skip("PostgreSQL: no server here; install one or set LENTIC_TEST_POSTGRES to run the same suite over it", () =>
    undefined);
}

beforeAll(async () => {
  if (!given && binaries) postgresUrl = await startPostgres(binaries);
}, 60_000);
afterAll(async () => {
  await stopPostgres?.();
});

for (const place of places) {
  describe(`a store in ${place.name}`, () => {
    let store: Store;
    beforeAll(async () => {
      store = await openStore(await place.fresh());
    }, 30_000);
    afterAll(() => store.close());

    test("a plan is kept to the letter, listed, and found again", async () => {
      const tank = kept(await store.create({ text: example }));
      expect(tank).toMatchObject({
        name: "Quarry bank",
        invented: true,
        revision: 1,
        place: "reading room",
        canUndo: false,
      });
      expect(tank.text).toBe(example);
      const reading = readPlan(example);
      expect(tank.raw).toEqual(reading.ok ? reading.raw : null);
      expect((await store.tank(tank.id))?.text).toBe(example);
      expect((await store.tanks()).map((t) => t.id)).toContain(tank.id);
    });
    test("a change becomes a revision; undo and redo walk them; a new change ends the redo", async () => {
      const { id } = kept(await store.create({ text: example }));
      const first = "1.0 bubbles/s (measured, counted 22 Nov)";
      const two = kept(await store.change(id, { base: 1, name: "1.3", changes: [bubbles(first, "1.3 bubbles/s")] }));
      expect(two.revision).toBe(2);
      expect(two.text).toContain("1.3 bubbles/s");
      expect(two.text).toContain("# two hours ahead of the lamp");
      const three = kept(
        await store.change(id, { base: 2, name: "1.4", changes: [bubbles("1.3 bubbles/s", "1.4 bubbles/s")] }),
      );
      expect(three).toMatchObject({ canUndo: true, canRedo: false });
      const back = kept(await store.undo(id, { base: 3 }));
      expect(back.text).toBe(two.text);
      expect(back).toMatchObject({ revision: 4, canUndo: true, canRedo: true });
      const start = kept(await store.undo(id, { base: 4 }));
      expect(start.text).toBe(example);
      expect(start).toMatchObject({ canUndo: false, canRedo: true });
      expect(await store.undo(id, { base: 5 })).toEqual({ ok: false, why: "nothing" });
      const on = kept(await store.redo(id, { base: 5 }));
      expect(on.text).toBe(two.text);
      const again = kept(await store.redo(id, { base: 6 }));
      expect(again.text).toBe(three.text);
      expect(again.canRedo).toBe(false);
      kept(await store.undo(id, { base: 7 }));
      const other = kept(
        await store.change(id, { base: 8, name: "1.1", changes: [bubbles("1.3 bubbles/s", "1.1 bubbles/s")] }),
      );
      expect(other).toMatchObject({ canUndo: true, canRedo: false });
      const names = (await store.history(id))!.map((r) => r.revision);
      expect(names).toEqual([9, 8, 7, 6, 5, 4, 3, 2, 1]);
      expect((await store.revision(id, 3))!.text).toBe(three.text);
      expect((await store.revision(id, 3))!.changes).toHaveLength(1);
    });
    test("a plan with faults is refused with them and nothing is written", async () => {
      const bad = await store.create({ text: "lentic: 1\ntank: { length: long }\n" });
      expect(bad).toMatchObject({ ok: false, why: "faults" });
      const { id } = kept(await store.create({ text: example }));
      const broken = await store.change(id, { base: 1, name: "x", changes: [bubbles("", "fast")] });
      expect(broken).toMatchObject({ ok: false, why: "faults" });
      expect(!broken.ok && broken.why === "faults" && broken.faults[0]!.line).toBeGreaterThan(0);
      expect((await store.tank(id))!.revision).toBe(1);
    });
    test("changes of hostile shape are refused or kept as text, never a crash", async () => {
      const { id } = kept(await store.create({ text: example }));
      const attempts: unknown[][] = [
        ["tank", "length", "deep", "er"],
        ["plants", 99, "species"],
        ["__proto__", "x"],
        ["name", 0],
        ["nonsense"],
      ];
      for (const path of attempts) {
        const outcome = await store.change(id, {
          base: 1,
          name: "x",
          changes: [{ name: "x", path: path as string[], before: undefined, after: "y" }],
        });
        expect(outcome.ok, JSON.stringify(path)).toBe(false);
      }
      const name = `"><script>alert(1)</script>'; drop table tanks; --`;
      const odd = kept(
        await store.change(id, {
          base: 1,
          name,
          changes: [{ name, path: ["name"], before: "Quarry bank", after: name }],
        }),
      );
      expect(odd.name).toBe(name);
      expect((await store.tanks()).find((t) => t.id === id)!.name).toBe(name);
    });
    test("a stale base is answered with the plan as it stands; a repeated key with the first answer", async () => {
      const { id } = kept(await store.create({ text: example, key: "once" }));
      expect(kept(await store.create({ text: example, key: "once" })).id).toBe(id);
      const change = { base: 1, name: "1.3", changes: [bubbles("", "1.3 bubbles/s")], key: "call-1" };
      expect(kept(await store.change(id, change)).revision).toBe(2);
      expect(kept(await store.change(id, change)).revision).toBe(2);
      const stale = await store.change(id, { ...change, key: "call-2" });
      expect(stale).toMatchObject({ ok: false, why: "stale" });
      expect(!stale.ok && stale.why === "stale" && stale.tank.revision).toBe(2);
    });
    test("two writers at once: one wins each revision, none is lost", async () => {
      const { id } = kept(await store.create({ text: example }));
      const attempt = async (n: number): Promise<void> => {
        for (let tries = 0; tries < 60; tries += 1) {
          const { revision } = (await store.tank(id))!;
          const outcome = await store.change(id, {
            base: revision,
            name: `w${n}`,
            changes: [bubbles("", `${1 + n / 10} bubbles/s`)],
          });
          if (outcome.ok) return;
        }
        throw new Error("never got through");
      };
      await Promise.all([1, 2, 3, 4, 5, 6].map(attempt));
      const history = (await store.history(id))!;
      expect(history).toHaveLength(7);
      expect(new Set(history.map((r) => r.name)).size).toBe(7);
    });
    test("removal can be taken back", async () => {
      const { id } = kept(await store.create({ text: example }));
      expect(await store.remove(id)).toBe(true);
      expect(await store.tank(id)).toBeNull();
      expect(await store.change(id, { base: 1, name: "x", changes: [bubbles("", "1 bubbles/s")] })).toEqual({
        ok: false,
        why: "missing",
      });
      expect(await store.restore(id)).toBe(true);
      expect((await store.tank(id))!.text).toBe(example);
      expect(await store.remove("not-there")).toBe(false);
    });
    test("migrations run down and up again", async () => {
      const db = await connect(await place.fresh());
      const migrator = migratorOf(db);
      const names = async (): Promise<string[]> => (await db.introspection.getTables()).map((t) => t.name).sort();
      expect((await migrator.migrateToLatest()).error).toBeUndefined();
      expect(await names()).toEqual(["revisions", "tanks"]);
      expect((await migrator.migrateDown()).error).toBeUndefined();
      expect(await names()).toEqual([]);
      expect((await migrator.migrateToLatest()).error).toBeUndefined();
      expect(await names()).toEqual(["revisions", "tanks"]);
      await db.destroy();
    });
  });
}

test("a backup taken in use opens and holds everything", async () => {
  const store = await openStore(join(folder, "live.sqlite"));
  const { id } = kept(await store.create({ text: example }));
  const copy = join(folder, "copy.sqlite");
  await store.backup(copy);
  await store.close();
  const opened = await openStore(copy);
  expect((await opened.tank(id))!.text).toBe(example);
  await opened.close();
});

test("a file that is no store is refused in plain words and left alone", async () => {
  const path = join(folder, "not-a-store.sqlite");
  writeFileSync(
    path,
    "some notes of mine, longer than a header of one hundred bytes would be, so that it is surely read as text.",
  );
  await expect(openStore(path)).rejects.toThrow(StoreError);
  expect(readFileSync(path, "utf8")).toContain("some notes of mine");
});

test("undo and redo are found from any history", () => {
  const r = (kind: string, revision: number) => ({ kind, revision, restores: null });
  expect(steps([])).toEqual({ undo: null, redo: null });
  expect(steps([r("kept", 1), r("kept", 2)])).toEqual({ undo: 1, redo: null });
  expect(steps([r("kept", 1), r("kept", 2), r("undo", 3)])).toEqual({ undo: null, redo: 2 });
});

describe("killed in the middle of a write", () => {
  const kills = process.env.LENTIC_SOAK ? 200 : 20;
  test(`${kills} kills lose no acknowledged change`, { timeout: 600_000 }, async () => {
    // beside the installed packages, so that the database driver is found
    const child = fileURLToPath(new URL(`../../../node_modules/.lentic-writer-${process.pid}.mjs`, import.meta.url));
    await build({
      stdin: {
        contents: `
          import { openStore } from "./store.ts";
          const [path, id] = process.argv.slice(2);
          const store = await openStore(path);
          let { revision } = await store.tank(id);
          for (;;) {
            const value = (0.5 + ((revision * 37) % 200) / 100).toFixed(2) + " bubbles/s";
            const outcome = await store.change(id, { base: revision, name: value, changes: [{ name: value, path: ["co2", "bubbles"], before: "", after: value }] });
            if (!outcome.ok) throw new Error(JSON.stringify(outcome));
            revision = outcome.tank.revision;
            process.stdout.write(revision + " " + value + "\\n");
          }`,
        resolveDir: fileURLToPath(new URL(".", import.meta.url)),
        loader: "ts",
      },
      outfile: child,
      bundle: true,
      platform: "node",
      format: "esm",
      conditions: ["source"],
      external: ["better-sqlite3", "pg", "pg-native"],
      banner: { js: `import { createRequire } from "node:module"; const require = createRequire(import.meta.url);` },
    });
    const path = join(folder, "killed.sqlite");
    const first = await openStore(path);
    const { id } = kept(await first.create({ text: example }));
    await first.close();
    let acknowledged = 1;
    let seed = 20261125;
    const random = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    let writes = 0;
    for (let k = 0; k < kills; k += 1) {
      const worker = spawn(process.execPath, [child, path, id], { stdio: ["ignore", "pipe", "pipe"] });
      const said: string[] = [];
      let complaint = "";
      worker.stderr.on("data", (chunk: Buffer) => {
        complaint += chunk.toString();
      });
      let tail = "";
      const began = new Promise<void>((resolve, reject) => {
        worker.stdout.on("data", (chunk: Buffer) => {
          const lines = (tail + chunk.toString()).split("\n");
          tail = lines.pop() ?? "";
          said.push(...lines);
          resolve();
        });
        worker.on("exit", () => reject(new Error(`the writer ended by itself: ${complaint}`)));
      });
      await began;
      await new Promise((resolve) => setTimeout(resolve, random() * 120));
      const gone = new Promise((resolve) => worker.on("exit", resolve));
      worker.kill("SIGKILL");
      await gone;
      writes += said.length;
      const last = said.at(-1)!.split(" ");
      acknowledged = Number(last[0]);
      const db = new Sqlite(path, { readonly: true });
      expect(db.pragma("integrity_check", { simple: true })).toBe("ok");
      db.close();
      const store = await openStore(path);
      const tank = (await store.tank(id))!;
      expect(tank.revision).toBeGreaterThanOrEqual(acknowledged);
      for (const line of said) {
        const [revision, ...value] = line.split(" ");
        const row = (await store.revision(id, Number(revision)))!;
        expect(row.text).toContain(`bubbles: ${value.join(" ")}`);
      }
      await store.close();
    }
    rmSync(child);
    console.log(`${kills} kills, ${writes} acknowledged changes, none lost`);
    expect(writes).toBeGreaterThan(kills);
  });
});
