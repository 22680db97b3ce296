import type { Kysely, Migration } from "kysely";

/** Named, gap-free and reversible; the same on every database. Released ones are never edited. */
export const migrations: Readonly<Record<string, Migration>> = {
  "0001-tanks": {
    async up(db: Kysely<unknown>) {
      await db.schema
        .createTable("tanks")
        .addColumn("id", "varchar(36)", (c) => c.primaryKey())
        .addColumn("name", "text", (c) => c.notNull())
        .addColumn("invented", "integer", (c) => c.notNull())
        .addColumn("created_at", "varchar(30)", (c) => c.notNull())
        .addColumn("updated_at", "varchar(30)", (c) => c.notNull())
        .addColumn("revision", "integer", (c) => c.notNull())
        .addColumn("key", "varchar(80)", (c) => c.unique())
        .addColumn("removed_at", "varchar(30)")
        .execute();
      await db.schema
        .createTable("revisions")
        .addColumn("tank_id", "varchar(36)", (c) => c.notNull().references("tanks.id"))
        .addColumn("revision", "integer", (c) => c.notNull())
        .addColumn("name", "text", (c) => c.notNull())
        .addColumn("changes", "text")
        .addColumn("text", "text", (c) => c.notNull())
        .addColumn("at", "varchar(30)", (c) => c.notNull())
        .addColumn("key", "varchar(80)")
        .addColumn("restores", "integer")
        .addColumn("kind", "varchar(10)", (c) => c.notNull().defaultTo("kept"))
        .addPrimaryKeyConstraint("revisions_key", ["tank_id", "revision"])
        .addUniqueConstraint("revisions_call", ["tank_id", "key"])
        .execute();
    },
    async down(db: Kysely<unknown>) {
      await db.schema.dropTable("revisions").execute();
      await db.schema.dropTable("tanks").execute();
    },
  },
};
