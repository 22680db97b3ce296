import { z } from "@hono/zod-openapi";

/** The shapes of what is asked and answered; the OpenAPI document is made from them. */

const key = z
  .string()
  .min(1)
  .max(80)
  .optional()
  .openapi({ description: "A name for this call: repeated, it is answered as before" });
const base = z.int().min(1).openapi({ description: "Revision that the change builds on" });
const name = z.string().min(1).max(400).openapi({ description: "What the undo list calls it" });
const text = z.string().max(1_000_000).openapi({ description: "The whole plan file" });

const faultShape = z
  .object({ path: z.string(), line: z.int(), column: z.int(), message: z.string(), allowed: z.string() })
  .openapi("Fault");

const changeShape = z
  .object({
    name: z.string().max(400),
    path: z
      .array(z.union([z.string().max(200), z.int().min(0).max(10_000)]))
      .min(1)
      .max(12),
    before: z.unknown().optional(),
    after: z.unknown().optional(),
  })
  .openapi("Change");

export const summaryShape = z
  .object({
    id: z.string(),
    name: z.string(),
    place: z.string().nullable(),
    invented: z.boolean(),
    revision: z.int(),
    updatedAt: z.string(),
  })
  .openapi("TankSummary");

export const recordShape = summaryShape
  .extend({
    text: z.string(),
    raw: z
      .record(z.string(), z.unknown())
      .nullable()
      .openapi({ description: "The plan as it reads; null when it does not" }),
    canUndo: z.boolean(),
    canRedo: z.boolean(),
  })
  .openapi("Tank");

export const revisionShape = z
  .object({ revision: z.int(), name: z.string(), at: z.string() })
  .openapi("RevisionSummary");
export const revisionTextShape = revisionShape
  .extend({ text: z.string(), changes: z.array(changeShape).nullable() })
  .openapi("Revision");

export const exampleShape = z.object({ id: z.string(), name: z.string(), about: z.string() }).openapi("Example");
export const exampleTextShape = z.object({ text: z.string() }).openapi("ExampleText");

export const problemShape = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string().optional(),
    faults: z.array(faultShape).optional(),
    tank: recordShape.optional(),
    errors: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
  })
  .openapi("Problem");

export const createShape = z.strictObject({ text, key }).openapi("NewTank");
export const changesShape = z
  .strictObject({ base, name, changes: z.array(changeShape).min(1).max(500), key })
  .openapi("Changes");
export const textShape = z.strictObject({ base, name, text, key }).openapi("NewText");
export const stepShape = z.strictObject({ base, key }).openapi("Step");
export const idShape = z.object({
  id: z
    .string()
    .min(1)
    .max(64)
    .openapi({ param: { name: "id", in: "path" } }),
});
export const revisionParamShape = idShape.extend({
  n: z.coerce
    .number()
    .int()
    .min(1)
    .max(1_000_000_000)
    .openapi({ param: { name: "n", in: "path" }, type: "integer" }),
});
