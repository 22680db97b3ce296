import { randomUUID } from "node:crypto";
import { applyChanges, type Change, type Fault, type Plan, type RawPlan, readPlan } from "@lentic/core/plan";
import type { Kysely, Transaction } from "kysely";
import { sql } from "kysely";
import { connect, kindOf, migrate } from "./open.ts";
import type { Database, RevisionTable, TankTable } from "./schema.ts";

export interface TankSummary {
  readonly id: string;
  readonly name: string;
  readonly place: string | null;
  readonly invented: boolean;
  readonly revision: number;
  readonly updatedAt: string;
}

export interface TankRecord extends TankSummary {
  readonly text: string;
  /** The plan as it reads, so that nobody has to read the text again; null when it does not read. */
  readonly raw: RawPlan | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

export interface RevisionSummary {
  readonly revision: number;
  readonly name: string;
  readonly at: string;
}

export interface RevisionRecord extends RevisionSummary {
  readonly text: string;
  readonly changes: readonly Change[] | null;
}

export type Outcome =
  | { readonly ok: true; readonly tank: TankRecord }
  | { readonly ok: false; readonly why: "missing" | "nothing" }
  | { readonly ok: false; readonly why: "stale"; readonly tank: TankRecord }
  | { readonly ok: false; readonly why: "faults"; readonly faults: readonly Fault[] };

interface Step {
  readonly base: number;
  readonly key?: string | undefined;
}

/** Keeps tanks and every state their plans ever had. Each answer is given only once it is on disk. */
export interface Store {
  tanks(): Promise<readonly TankSummary[]>;
  tank(id: string): Promise<TankRecord | null>;
  create(input: { text: string; key?: string | undefined }): Promise<Outcome>;
  change(id: string, input: Step & { name: string; changes: readonly Change[] }): Promise<Outcome>;
  replace(id: string, input: Step & { name: string; text: string }): Promise<Outcome>;
  undo(id: string, input: Step): Promise<Outcome>;
  redo(id: string, input: Step): Promise<Outcome>;
  history(id: string): Promise<readonly RevisionSummary[] | null>;
  revision(id: string, revision: number): Promise<RevisionRecord | null>;
  remove(id: string): Promise<boolean>;
  restore(id: string): Promise<boolean>;
  /** Copies an SQLite store to another file while it is in use. */
  backup(path: string): Promise<void>;
  close(): Promise<void>;
}

type Db = Kysely<Database> | Transaction<Database>;

/** A change of a hostile shape (a place that is not in the plan, a text it does not fit) becomes a fault, not a crash. */
function changedText(text: string, changes: readonly Change[]): { text: string } | { faults: readonly Fault[] } {
  try {
    return { text: applyChanges(text, changes) };
  } catch (error) {
    const path = changes[0]?.path.join(".") ?? "";
    const message = error instanceof Error ? error.message : "cannot be made";
    return {
      faults: [
        {
          path,
          line: 0,
          column: 0,
          message: `the change cannot be made: ${message}`,
          allowed: "a change of the plan as it stands",
        },
      ],
    };
  }
}

function read(text: string): { plan: Plan } | { faults: readonly Fault[] } {
  const reading = readPlan(text);
  return reading.ok ? { plan: reading.plan } : { faults: reading.faults };
}

/** Where undo and redo lead from a list of revisions, oldest first. */
export function steps(revisions: readonly Pick<RevisionTable, "revision" | "restores" | "kind">[]): {
  undo: number | null;
  redo: number | null;
} {
  // walk the history as an editor would: `past` are states one can step back to, `ahead` those undone
  const past: number[] = [];
  const ahead: number[] = [];
  let current: number | null = null;
  for (const r of revisions) {
    if (r.kind === "undo") {
      if (current !== null) ahead.push(current);
      current = past.pop() ?? r.revision;
    } else if (r.kind === "redo") {
      if (current !== null) past.push(current);
      current = ahead.pop() ?? r.revision;
    } else {
      if (current !== null) past.push(current);
      ahead.length = 0;
      current = r.revision;
    }
  }
  return { undo: past.at(-1) ?? null, redo: ahead.at(-1) ?? null };
}

class SqlStore implements Store {
  private readonly db: Kysely<Database>;
  private readonly now: () => Date;
  private readonly url: string;
  /** One writer at a time in this process; the database guards against others. */
  private turn: Promise<unknown> = Promise.resolve();

  constructor(db: Kysely<Database>, url: string, now: () => Date) {
    this.db = db;
    this.url = url;
    this.now = now;
  }

  private write<T>(work: (db: Transaction<Database>) => Promise<T>): Promise<T> {
    const next = this.turn.then(() => this.db.transaction().execute(work));
    this.turn = next.catch(() => undefined);
    return next;
  }

  private async record(db: Db, tank: TankTable): Promise<TankRecord> {
    const revisions = await db
      .selectFrom("revisions")
      .select(["revision", "restores", "kind"])
      .where("tank_id", "=", tank.id)
      .orderBy("revision")
      .execute();
    const { text } = await db
      .selectFrom("revisions")
      .select("text")
      .where("tank_id", "=", tank.id)
      .where("revision", "=", tank.revision)
      .executeTakeFirstOrThrow();
    const { undo, redo } = steps(revisions);
    const reading = readPlan(text);
    return {
      ...summary(tank),
      place: placeOf(text),
      text,
      raw: reading.ok ? reading.raw : null,
      canUndo: undo !== null,
      canRedo: redo !== null,
    };
  }

  private found(db: Db, id: string): Promise<TankTable | undefined> {
    return db.selectFrom("tanks").selectAll().where("id", "=", id).where("removed_at", "is", null).executeTakeFirst();
  }

  async tanks(): Promise<readonly TankSummary[]> {
    const rows = await this.db
      .selectFrom("tanks")
      .innerJoin("revisions", (join) =>
        join.onRef("revisions.tank_id", "=", "tanks.id").onRef("revisions.revision", "=", "tanks.revision"),
      )
      .selectAll("tanks")
      .select("revisions.text")
      .where("removed_at", "is", null)
      .orderBy("updated_at", "desc")
      .execute();
    return rows.map((row) => ({ ...summary(row), place: placeOf(row.text) }));
  }

  async tank(id: string): Promise<TankRecord | null> {
    const row = await this.found(this.db, id);
    return row ? this.record(this.db, row) : null;
  }

  create({ text, key }: { text: string; key?: string | undefined }): Promise<Outcome> {
    return this.write(async (db) => {
      if (key !== undefined) {
        const known = await db.selectFrom("tanks").selectAll().where("key", "=", key).executeTakeFirst();
        if (known) return { ok: true, tank: await this.record(db, known) };
      }
      const reading = read(text);
      if ("faults" in reading) return { ok: false, why: "faults", faults: reading.faults };
      const at = this.now().toISOString();
      const tank: TankTable = {
        id: randomUUID(),
        name: reading.plan.name,
        invented: reading.plan.invented ? 1 : 0,
        created_at: at,
        updated_at: at,
        revision: 1,
        key: key ?? null,
        removed_at: null,
      };
      await db.insertInto("tanks").values(tank).execute();
      await db
        .insertInto("revisions")
        .values({
          tank_id: tank.id,
          revision: 1,
          name: "begun",
          changes: null,
          text,
          at,
          key: key ?? null,
          restores: null,
          kind: "kept",
        })
        .execute();
      return { ok: true, tank: await this.record(db, tank) };
    });
  }

  change(id: string, input: Step & { name: string; changes: readonly Change[] }): Promise<Outcome> {
    return this.next(id, input, async (_db, text) => {
      const changed = changedText(text, input.changes);
      return "faults" in changed
        ? changed
        : { name: input.name, changes: input.changes, text: changed.text, restores: null, kind: "kept" };
    });
  }

  replace(id: string, input: Step & { name: string; text: string }): Promise<Outcome> {
    return this.next(id, input, async () => ({
      name: input.name,
      changes: null,
      text: input.text,
      restores: null,
      kind: "kept",
    }));
  }

  undo(id: string, input: Step): Promise<Outcome> {
    return this.goTo(id, input, "undo");
  }

  redo(id: string, input: Step): Promise<Outcome> {
    return this.goTo(id, input, "redo");
  }

  private goTo(id: string, input: Step, kind: "undo" | "redo"): Promise<Outcome> {
    return this.next(id, input, async (db) => {
      const revisions = await db
        .selectFrom("revisions")
        .select(["revision", "restores", "kind"])
        .where("tank_id", "=", id)
        .orderBy("revision")
        .execute();
      const target = steps(revisions)[kind];
      if (target === null) return null;
      const { text, name } = await db
        .selectFrom("revisions")
        .select(["text", "name"])
        .where("tank_id", "=", id)
        .where("revision", "=", target)
        .executeTakeFirstOrThrow();
      return {
        name: kind === "undo" ? `back to: ${name}` : `again: ${name}`,
        changes: null,
        text,
        restores: target,
        kind,
      };
    });
  }

  /** Appends a revision, unless the call was answered before, the plan has moved on, or the new text has faults. */
  private next(
    id: string,
    { base, key }: Step,
    make: (
      db: Transaction<Database>,
      text: string,
    ) => Promise<
      | { name: string; changes: readonly Change[] | null; text: string; restores: number | null; kind: string }
      | { faults: readonly Fault[] }
      | null
    >,
  ): Promise<Outcome> {
    return this.write(async (db) => {
      const tank = await this.found(db, id);
      if (!tank) return { ok: false, why: "missing" };
      if (key !== undefined) {
        const known = await db
          .selectFrom("revisions")
          .select("revision")
          .where("tank_id", "=", id)
          .where("key", "=", key)
          .executeTakeFirst();
        if (known) return { ok: true, tank: await this.record(db, tank) };
      }
      if (base !== tank.revision) return { ok: false, why: "stale", tank: await this.record(db, tank) };
      const { text } = await db
        .selectFrom("revisions")
        .select("text")
        .where("tank_id", "=", id)
        .where("revision", "=", tank.revision)
        .executeTakeFirstOrThrow();
      const made = await make(db, text);
      if (made === null) return { ok: false, why: "nothing" };
      if ("faults" in made) return { ok: false, why: "faults", faults: made.faults };
      const reading = read(made.text);
      if ("faults" in reading) return { ok: false, why: "faults", faults: reading.faults };
      const at = this.now().toISOString();
      const revision = tank.revision + 1;
      await db
        .insertInto("revisions")
        .values({
          tank_id: id,
          revision,
          name: made.name,
          changes: made.changes === null ? null : JSON.stringify(made.changes),
          text: made.text,
          at,
          key: key ?? null,
          restores: made.restores,
          kind: made.kind,
        })
        .execute();
      const newer = { name: reading.plan.name, invented: reading.plan.invented ? 1 : 0, updated_at: at, revision };
      const { numUpdatedRows } = await db
        .updateTable("tanks")
        .set(newer)
        .where("id", "=", id)
        .where("revision", "=", tank.revision)
        .executeTakeFirstOrThrow();
      if (numUpdatedRows !== 1n) throw new Error("another writer was faster");
      return { ok: true, tank: await this.record(db, { ...tank, ...newer }) };
    });
  }

  async history(id: string): Promise<readonly RevisionSummary[] | null> {
    if (!(await this.found(this.db, id))) return null;
    return this.db
      .selectFrom("revisions")
      .select(["revision", "name", "at"])
      .where("tank_id", "=", id)
      .orderBy("revision", "desc")
      .execute();
  }

  async revision(id: string, revision: number): Promise<RevisionRecord | null> {
    if (!(await this.found(this.db, id))) return null;
    const row = await this.db
      .selectFrom("revisions")
      .select(["revision", "name", "at", "text", "changes"])
      .where("tank_id", "=", id)
      .where("revision", "=", revision)
      .executeTakeFirst();
    return row ? { ...row, changes: row.changes === null ? null : (JSON.parse(row.changes) as Change[]) } : null;
  }

  remove(id: string): Promise<boolean> {
    return this.mark(id, this.now().toISOString());
  }

  restore(id: string): Promise<boolean> {
    return this.mark(id, null);
  }

  private mark(id: string, removedAt: string | null): Promise<boolean> {
    return this.write(async (db) => {
      const { numUpdatedRows } = await db
        .updateTable("tanks")
        .set({ removed_at: removedAt })
        .where("id", "=", id)
        .executeTakeFirstOrThrow();
      return numUpdatedRows === 1n;
    });
  }

  async backup(path: string): Promise<void> {
    if (kindOf(this.url) === "postgres") throw new Error("a PostgreSQL store is backed up with pg_dump");
    await sql`vacuum into ${path}`.execute(this.db);
  }

  async close(): Promise<void> {
    await this.turn;
    await this.db.destroy();
  }
}

const summary = (row: TankTable): Omit<TankSummary, "place"> => ({
  id: row.id,
  name: row.name,
  invented: row.invented === 1,
  revision: row.revision,
  updatedAt: row.updated_at,
});

/** The place named in a plan's text, read without running the whole plan. */
function placeOf(text: string): string | null {
  return /^place:[ \t]*(.+?)[ \t]*(#.*)?$/m.exec(text)?.[1]?.replace(/^["']|["']$/g, "") ?? null;
}

/**
 * Opens a store, bringing its schema up to date.
 * @param url a file path, `sqlite:<path>`, `:memory:`, or `postgres://...`
 * @throws StoreError when it cannot be opened or migrated
 */
export async function openStore(url: string, options: { now?: () => Date } = {}): Promise<Store> {
  const db = await connect(url);
  await migrate(db);
  return new SqlStore(db, url, options.now ?? (() => new Date()));
}
