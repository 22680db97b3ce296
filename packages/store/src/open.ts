import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { Kysely, Migrator, PostgresDialect, SqliteDialect } from "kysely";
import { migrations } from "./migrations.ts";
import type { Database } from "./schema.ts";

/** Which database an address names. */
export function kindOf(url: string): "sqlite" | "postgres" {
  return /^postgres(ql)?:\/\//.test(url) ? "postgres" : "sqlite";
}

/** A store that cannot be opened: says which and why in plain words. */
export class StoreError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "StoreError";
  }
}

async function sqlite(path: string): Promise<Kysely<Database>> {
  const { default: Sqlite } = await import("better-sqlite3");
  try {
    if (path !== ":memory:") mkdirSync(dirname(path), { recursive: true });
    const file = new Sqlite(path, { timeout: 5000 });
    // an acknowledged change must survive a crash in the next instant
    file.pragma("journal_mode = WAL");
    file.pragma("synchronous = FULL");
    file.pragma("foreign_keys = ON");
    return new Kysely<Database>({ dialect: new SqliteDialect({ database: file }) });
  } catch (error) {
    throw new StoreError(`the store at ${path} cannot be opened: ${(error as Error).message}`);
  }
}

async function postgres(url: string): Promise<Kysely<Database>> {
  const { default: pg } = await import("pg");
  const pool = new pg.Pool({ connectionString: url, max: 4 });
  pool.on("error", () => undefined);
  return new Kysely<Database>({ dialect: new PostgresDialect({ pool }) });
}

/** Connects without touching the schema. */
export async function connect(url: string): Promise<Kysely<Database>> {
  return kindOf(url) === "postgres" ? postgres(url) : sqlite(url.replace(/^sqlite:(\/\/)?/, ""));
}

export function migratorOf(db: Kysely<Database>): Migrator {
  return new Migrator({ db, provider: { getMigrations: async () => ({ ...migrations }) } });
}

/** Brings the schema up to date. */
export async function migrate(db: Kysely<Database>): Promise<void> {
  const { error } = await migratorOf(db).migrateToLatest();
  if (error) throw new StoreError(`the store's schema cannot be brought up to date: ${(error as Error).message}`);
}
