import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import { jsonSchema } from "@lentic/core/plan";
import type { Outcome, Store } from "@lentic/store";
import type { Context } from "hono";
import { bodyLimit } from "hono/body-limit";
import { type GuardOptions, guard, largestBody } from "./guard.ts";
import { problem } from "./problem.ts";
import {
  changesShape,
  createShape,
  exampleShape,
  exampleTextShape,
  idShape,
  problemShape,
  recordShape,
  revisionParamShape,
  revisionShape,
  revisionTextShape,
  stepShape,
  summaryShape,
  textShape,
} from "./shapes.ts";
import { StaticFiles } from "./static.ts";

export interface Example {
  readonly id: string;
  readonly name: string;
  readonly about: string;
  readonly text: string;
}

export interface AppOptions extends GuardOptions {
  readonly store: Store;
  readonly examples: readonly Example[];
  /** Folder of the built web app; null when there is none. */
  readonly webRoot: string | null;
  readonly version: string;
  /** Told of faults of ours, which the asker is not shown. */
  readonly onError?: (error: Error) => void;
}

const json = <T extends z.ZodType>(schema: T, description: string) => ({
  content: { "application/json": { schema } },
  description,
});
const body = <T extends z.ZodType>(schema: T) => ({
  body: { content: { "application/json": { schema } }, required: true },
});
const refusals = {
  400: json(problemShape, "Malformed"),
  404: json(problemShape, "Not here"),
  409: json(problemShape, "The plan has moved on; `tank` says how it stands"),
  422: json(problemShape, "The plan would have faults, each with its place"),
};

const routes = {
  health: createRoute({
    method: "get",
    path: "/api/health",
    responses: { 200: json(z.object({ ok: z.boolean(), version: z.string() }), "Up") },
  }),
  tanks: createRoute({
    method: "get",
    path: "/api/tanks",
    responses: { 200: json(z.array(summaryShape), "Tanks, newest change first") },
  }),
  create: createRoute({
    method: "post",
    path: "/api/tanks",
    request: body(createShape),
    responses: { 201: json(recordShape, "The new tank"), 400: refusals[400], 422: refusals[422] },
  }),
  tank: createRoute({
    method: "get",
    path: "/api/tanks/{id}",
    request: { params: idShape },
    responses: { 200: json(recordShape, "The tank"), 404: refusals[404] },
  }),
  remove: createRoute({
    method: "delete",
    path: "/api/tanks/{id}",
    request: { params: idShape },
    responses: { 200: json(z.object({ ok: z.boolean() }), "Removed; can be restored"), 404: refusals[404] },
  }),
  restore: createRoute({
    method: "post",
    path: "/api/tanks/{id}/restore",
    request: { params: idShape },
    responses: { 200: json(z.object({ ok: z.boolean() }), "Back again"), 404: refusals[404] },
  }),
  changes: createRoute({
    method: "post",
    path: "/api/tanks/{id}/changes",
    request: { params: idShape, ...body(changesShape) },
    responses: { 200: json(recordShape, "Kept"), ...refusals },
  }),
  text: createRoute({
    method: "post",
    path: "/api/tanks/{id}/text",
    request: { params: idShape, ...body(textShape) },
    responses: { 200: json(recordShape, "Kept"), ...refusals },
  }),
  undo: createRoute({
    method: "post",
    path: "/api/tanks/{id}/undo",
    request: { params: idShape, ...body(stepShape) },
    responses: { 200: json(recordShape, "One step back"), ...refusals },
  }),
  redo: createRoute({
    method: "post",
    path: "/api/tanks/{id}/redo",
    request: { params: idShape, ...body(stepShape) },
    responses: { 200: json(recordShape, "One step on"), ...refusals },
  }),
  history: createRoute({
    method: "get",
    path: "/api/tanks/{id}/history",
    request: { params: idShape },
    responses: { 200: json(z.array(revisionShape), "Newest first"), 404: refusals[404] },
  }),
  revision: createRoute({
    method: "get",
    path: "/api/tanks/{id}/revisions/{n}",
    request: { params: revisionParamShape },
    responses: { 200: json(revisionTextShape, "One earlier state"), 400: refusals[400], 404: refusals[404] },
  }),
  file: createRoute({
    method: "get",
    path: "/api/tanks/{id}/plan.yaml",
    request: { params: idShape },
    responses: {
      200: { description: "The plan file", content: { "application/yaml": { schema: z.string() } } },
      404: refusals[404],
    },
  }),
  examples: createRoute({
    method: "get",
    path: "/api/examples",
    responses: { 200: json(z.array(exampleShape), "Plans to begin from") },
  }),
  example: createRoute({
    method: "get",
    path: "/api/examples/{id}",
    request: { params: idShape },
    responses: { 200: json(exampleTextShape, "Its text"), 404: refusals[404] },
  }),
  schema: createRoute({
    method: "get",
    path: "/api/schema.json",
    responses: { 200: json(z.looseObject({}), "JSON Schema of the plan file") },
  }),
} as const;

/** A file name that no system trips over. */
export function fileName(name: string): string {
  const plain = name
    .normalize("NFKD")
    .replace(/[^\w .-]+/g, "")
    .trim()
    .replace(/\s+/g, "-")
    .slice(0, 80);
  return `${plain || "plan"}.yaml`;
}

/** The HTTP application: a JSON API over a store, and the built web app. */
export function createApp(options: AppOptions): OpenAPIHono {
  const { store, examples, version } = options;
  const files = new StaticFiles(options.webRoot);
  const app = new OpenAPIHono({
    defaultHook: (result, c) => {
      if (result.success) return;
      const errors = result.error.issues.map((i) => ({ path: i.path.join("."), message: i.message }));
      return problem(c, { status: 400, title: "The request is not of the right shape", errors });
    },
  });

  app.use(guard(options));
  app.use(
    bodyLimit({
      maxSize: largestBody,
      onError: (c) => problem(c, { status: 413, title: "The body is too large; 1 MiB is allowed" }),
    }),
  );
  app.onError((error, c) => {
    if ("status" in error && typeof error.status === "number" && error.status >= 400 && error.status < 500) {
      return problem(c, { status: 400, title: "The body is not JSON" });
    }
    options.onError?.(error);
    return problem(c, { status: 500, title: "Something went wrong here; nothing of yours was changed" });
  });

  const missing = (c: Context): Response => problem(c, { status: 404, title: "There is no such tank" });
  const answer = (c: Context, outcome: Outcome, status: 200 | 201 = 200): Response => {
    if (outcome.ok) return c.json(outcome.tank, status);
    if (outcome.why === "missing") return missing(c);
    if (outcome.why === "stale") return problem(c, { status: 409, title: "The plan has moved on", tank: outcome.tank });
    if (outcome.why === "faults") {
      return problem(c, { status: 422, title: "The plan would have faults", faults: outcome.faults });
    }
    return problem(c, { status: 404, title: "There is no such step" });
  };
  // routes answer problems as application/problem+json, which their typed shapes do not name
  type Any = never;

  app.openapi(routes.health, (c) => c.json({ ok: true, version }));
  app.openapi(routes.tanks, async (c) => c.json([...(await store.tanks())]));
  app.openapi(routes.create, async (c) => answer(c, await store.create(c.req.valid("json")), 201) as Any);
  app.openapi(routes.file, async (c) => {
    const tank = await store.tank(c.req.valid("param").id);
    if (!tank) return missing(c) as Any;
    return c.body(tank.text, 200, {
      "content-type": "application/yaml; charset=utf-8",
      "content-disposition": `attachment; filename="${fileName(tank.name)}"`,
      "cache-control": "no-store",
    }) as Any;
  });
  app.openapi(routes.tank, async (c) => {
    const tank = await store.tank(c.req.valid("param").id);
    return (tank ? c.json(tank, 200) : missing(c)) as Any;
  });
  app.openapi(
    routes.remove,
    async (c) => ((await store.remove(c.req.valid("param").id)) ? c.json({ ok: true }) : missing(c)) as Any,
  );
  app.openapi(
    routes.restore,
    async (c) => ((await store.restore(c.req.valid("param").id)) ? c.json({ ok: true }) : missing(c)) as Any,
  );
  app.openapi(routes.changes, async (c) => {
    const input = c.req.valid("json");
    const changes = input.changes.map((change) => ({
      name: change.name,
      path: change.path,
      before: change.before,
      after: change.after,
    }));
    return answer(c, await store.change(c.req.valid("param").id, { ...input, changes })) as Any;
  });
  app.openapi(
    routes.text,
    async (c) => answer(c, await store.replace(c.req.valid("param").id, c.req.valid("json"))) as Any,
  );
  app.openapi(
    routes.undo,
    async (c) => answer(c, await store.undo(c.req.valid("param").id, c.req.valid("json"))) as Any,
  );
  app.openapi(
    routes.redo,
    async (c) => answer(c, await store.redo(c.req.valid("param").id, c.req.valid("json"))) as Any,
  );
  app.openapi(routes.history, async (c) => {
    const history = await store.history(c.req.valid("param").id);
    return (history ? c.json([...history], 200) : missing(c)) as Any;
  });
  app.openapi(routes.revision, async (c) => {
    const { id, n } = c.req.valid("param");
    const revision = await store.revision(id, n);
    return (revision ? c.json(revision, 200) : problem(c, { status: 404, title: "There is no such revision" })) as Any;
  });
  app.openapi(routes.examples, (c) => c.json(examples.map(({ id, name, about }) => ({ id, name, about }))));
  app.openapi(routes.example, (c) => {
    const found = examples.find((e) => e.id === c.req.valid("param").id);
    return (
      found ? c.json({ text: found.text }, 200) : problem(c, { status: 404, title: "There is no such example" })
    ) as Any;
  });
  app.openapi(routes.schema, (c) => c.json(jsonSchema() as Record<string, unknown>));
  app.doc31("/api/openapi.json", {
    openapi: "3.1.0",
    info: { title: "Lentic", version, description: "Tanks, their plans and every state that these ever had." },
  });

  app.all("/api/*", (c) => problem(c, { status: 404, title: "There is nothing at this address" }));
  app.get("*", async (c) => {
    const { pathname } = new URL(c.req.url);
    let path = pathname;
    try {
      path = decodeURIComponent(pathname);
    } catch {
      return problem(c, { status: 400, title: "The address is malformed" });
    }
    const accepts = c.req.header("accept-encoding") ?? "";
    const file = await files.respond(path, accepts);
    if (file) return merged(c, file);
    // addresses of the app's own pages have no ending; anything else that is not there is not there
    if (/\.[a-z0-9]+$/i.test(path)) return problem(c, { status: 404, title: "There is nothing at this address" });
    const page = await files.respond("/index.html", accepts);
    return page ? merged(c, page) : c.text("The web app has not been built: npm start builds it.\n", 503);
  });
  return app;
}

/** Keeps the headers that the guard has set. */
function merged(c: Context, response: Response): Response {
  const headers: Record<string, string> = {};
  response.headers.forEach((value, name) => {
    headers[name] = value;
  });
  return c.body(response.body as ReadableStream, 200, headers);
}
