import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { connect as socket } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStore, type Store, type TankRecord } from "@lentic/store";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createApp, fileName } from "./app.ts";
import { type Running, ServeError, serve } from "./serve.ts";

const example = readFileSync(new URL("../../../examples/quarry-bank.yaml", import.meta.url), "utf8");
const folder = mkdtempSync(join(tmpdir(), "lentic server "));
const webRoot = join(folder, "web");
mkdirSync(join(webRoot, "assets"), { recursive: true });
writeFileSync(join(webRoot, "index.html"), "<!doctype html><title>Lentic</title>");
writeFileSync(join(webRoot, "assets/app-1234.js"), `console.log("${"x".repeat(4000)}");`);
writeFileSync(join(folder, "secret.txt"), "not for anybody");

let store: Store;
let running: Running;
const ours: Error[] = [];

beforeAll(async () => {
  store = await openStore(join(folder, "store.sqlite"));
  running = await serve({
    host: "127.0.0.1",
    port: 0,
    store,
    webRoot,
    version: "test",
    examples: [{ id: "quarry-bank", name: "Quarry bank", about: "A bank.", text: example }],
    onError: (error) => ours.push(error),
  });
});
afterAll(async () => {
  await running.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly headers: NodeJS.Dict<string | string[]>;
  readonly body: string;
}

/** A request over a real socket, with whatever headers one likes. */
function ask(
  method: string,
  path: string,
  options: { headers?: Record<string, string>; body?: string | Buffer; chunked?: boolean; port?: number } = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const { headers = {}, body, chunked } = options;
    const req = request(
      {
        host: "127.0.0.1",
        port: options.port ?? running.port,
        method,
        agent: false,
        path,
        headers: {
          ...(body !== undefined && !chunked ? { "content-length": String(Buffer.byteLength(body)) } : {}),
          ...(body !== undefined ? { "content-type": "application/json" } : {}),
          ...headers,
        },
      },
      (res) => {
        const parts: Buffer[] = [];
        res.on("data", (c: Buffer) => parts.push(c));
        res.on("end", () =>
          resolve({ status: res.statusCode ?? 0, headers: res.headers, body: Buffer.concat(parts).toString() }),
        );
        res.on("error", reject);
      },
    );
    req.on("error", reject);
    if (body !== undefined) req.write(body);
    req.end();
  });
}

const post = (path: string, value: unknown, headers: Record<string, string> = {}) =>
  ask("POST", path, { body: JSON.stringify(value), headers });
const parsed = <T>(answer: Answer): T => JSON.parse(answer.body) as T;
const begin = async (): Promise<TankRecord> => parsed<TankRecord>(await post("/api/tanks", { text: example }));

describe("the API", () => {
  test("a plan's life: begun, changed, undone, redone, replaced, listed, downloaded, removed, restored", async () => {
    const tank = await begin();
    expect(tank.revision).toBe(1);
    const change = {
      name: "1.3 bubbles/s",
      path: ["co2", "bubbles"],
      before: "1.0 bubbles/s (measured, counted 22 Nov)",
      after: "1.3 bubbles/s",
    };
    const changed = await post(`/api/tanks/${tank.id}/changes`, { base: 1, name: "more gas", changes: [change] });
    expect(changed.status).toBe(200);
    expect(parsed<TankRecord>(changed)).toMatchObject({ revision: 2, canUndo: true });
    expect(parsed<TankRecord>(await post(`/api/tanks/${tank.id}/undo`, { base: 2 })).text).toBe(example);
    expect(parsed<TankRecord>(await post(`/api/tanks/${tank.id}/redo`, { base: 3 })).text).toContain("1.3 bubbles/s");
    expect((await post(`/api/tanks/${tank.id}/text`, { base: 4, name: "as before", text: example })).status).toBe(200);
    expect(parsed<unknown[]>(await ask("GET", `/api/tanks/${tank.id}/history`))).toHaveLength(5);
    expect(parsed<{ text: string }>(await ask("GET", `/api/tanks/${tank.id}/revisions/2`)).text).toContain(
      "1.3 bubbles/s",
    );
    const file = await ask("GET", `/api/tanks/${tank.id}/plan.yaml`);
    expect(file.body).toBe(example);
    expect(file.headers["content-disposition"]).toBe('attachment; filename="Quarry-bank.yaml"');
    expect((await ask("DELETE", `/api/tanks/${tank.id}`)).status).toBe(200);
    expect((await ask("GET", `/api/tanks/${tank.id}`)).status).toBe(404);
    expect((await post(`/api/tanks/${tank.id}/restore`, {})).status).toBe(200);
    expect((await ask("GET", `/api/tanks/${tank.id}`)).status).toBe(200);
    expect(parsed<{ id: string }[]>(await ask("GET", "/api/tanks")).map((t) => t.id)).toContain(tank.id);
  });
  test("a stale base is answered with the plan as it stands, a repeated key as before", async () => {
    const tank = await begin();
    const change = {
      base: 1,
      name: "x",
      key: "k1",
      changes: [{ name: "x", path: ["water", "kh"], before: "", after: "5 dKH" }],
    };
    expect((await post(`/api/tanks/${tank.id}/changes`, change)).status).toBe(200);
    expect(parsed<TankRecord>(await post(`/api/tanks/${tank.id}/changes`, change)).revision).toBe(2);
    const stale = await post(`/api/tanks/${tank.id}/changes`, { ...change, key: "k2" });
    expect(stale.status).toBe(409);
    expect(parsed<{ tank: TankRecord }>(stale).tank.revision).toBe(2);
  });
  test("faults of a plan come with line, column and what is allowed", async () => {
    const bad = await post("/api/tanks", {
      text: "lentic: 1\ntank: { length: 90 gallons, width: 40 cm, height: 40 cm }\n",
    });
    expect(bad.status).toBe(422);
    const { faults } = parsed<{ faults: { line: number; path: string; allowed: string }[] }>(bad);
    expect(faults[0]).toMatchObject({ line: 2, path: "tank.length" });
    expect(faults[0]!.allowed.length).toBeGreaterThan(3);
  });
  test("every documented address answers, and the document is OpenAPI 3.1", async () => {
    const document = parsed<{ openapi: string; paths: Record<string, Record<string, unknown>> }>(
      await ask("GET", "/api/openapi.json"),
    );
    expect(document.openapi).toBe("3.1.0");
    const tank = await begin();
    let called = 0;
    for (const [path, methods] of Object.entries(document.paths)) {
      const id = path.startsWith("/api/examples") ? "quarry-bank" : tank.id;
      for (const method of Object.keys(methods)) {
        if (method === "delete") continue;
        const answer = await ask(
          method.toUpperCase(),
          path.replace("{id}", id).replace("{n}", "1"),
          method === "post" ? { body: "{}" } : {},
        );
        expect([200, 201, 400], `${method} ${path}`).toContain(answer.status);
        called += 1;
      }
    }
    expect(called).toBeGreaterThan(13);
    expect(parsed<{ properties: object }>(await ask("GET", "/api/schema.json")).properties).toBeDefined();
  });
});

describe("what is refused", () => {
  test.each([
    ["a foreign host", "GET", { host: "evil.example" }, 421],
    ["our address under another port", "GET", { host: "127.0.0.1:1" }, 421],
    ["a foreign origin", "POST", { origin: "http://evil.example" }, 403],
    ["an opaque origin", "POST", { origin: "null" }, 403],
    ["a request that a page elsewhere made", "GET", { "sec-fetch-site": "cross-site", "sec-fetch-mode": "cors" }, 403],
    ["a body that is not JSON by its type", "POST", { "content-type": "text/plain" }, 415],
    ["a form", "POST", { "content-type": "application/x-www-form-urlencoded" }, 415],
  ])("%s", async (_, method, headers, status) => {
    const before = parsed<unknown[]>(await ask("GET", "/api/tanks")).length;
    const answer = await ask(method, "/api/tanks", {
      headers,
      ...(method === "POST" ? { body: JSON.stringify({ text: example }) } : {}),
    });
    expect(answer.status).toBe(status);
    expect(answer.headers["content-type"]).toMatch(/problem\+json/);
    expect(parsed<unknown[]>(await ask("GET", "/api/tanks"))).toHaveLength(before);
  });
  test("our own origin is let in, and a link from elsewhere may open a page", async () => {
    const host = `127.0.0.1:${running.port}`;
    expect(
      (await post("/api/tanks", { text: example }, { origin: `http://${host}`, "sec-fetch-site": "same-origin" }))
        .status,
    ).toBe(201);
    expect(
      (await ask("GET", "/", { headers: { "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate" } })).status,
    ).toBe(200);
    expect((await ask("GET", "/api/health", { headers: { host: `localhost:${running.port}` } })).status).toBe(200);
  });
  test("an oversized body, with its length told or hidden", async () => {
    const big = JSON.stringify({ text: "x".repeat(1_200_000) });
    const told = await ask("POST", "/api/tanks", { body: big }).then(
      (answer) => String(answer.status),
      (error: Error) => error.message,
    );
    expect(told).toMatch(/^413$|hang up|ECONNRESET|EPIPE/);
    // with the length hidden the door may be shut while the rest is still coming: refused either way
    const before = parsed<unknown[]>(await ask("GET", "/api/tanks")).length;
    const hidden = await ask("POST", "/api/tanks", {
      body: big,
      chunked: true,
      headers: { "transfer-encoding": "chunked" },
    }).then(
      (answer) => String(answer.status),
      (error: Error) => error.message,
    );
    expect(hidden).toMatch(/^413$|hang up|ECONNRESET|EPIPE/);
    expect(parsed<unknown[]>(await ask("GET", "/api/tanks"))).toHaveLength(before);
    expect((await post("/api/tanks", { text: "x".repeat(1_000_001) })).status).toBe(400);
  });
  test.each(["{", "", "null", "[]", '"text"', '{"text":5}', '{"text":"a","more":1}', "\u0000"])(
    "a malformed body: %j",
    async (body) => {
      const answer = await ask("POST", "/api/tanks", { body });
      expect(answer.status).toBe(400);
      expect(answer.body).not.toMatch(/at .*\.ts|node_modules/);
    },
  );
  test("wrong fields are named", async () => {
    const tank = await begin();
    const answer = await post(`/api/tanks/${tank.id}/changes`, {
      base: 0,
      name: "",
      changes: [{ name: "x", path: [] }],
    });
    const { errors } = parsed<{ errors: { path: string }[] }>(answer);
    expect(errors.map((e) => e.path)).toEqual(expect.arrayContaining(["base", "name", "changes.0.path"]));
  });
  test("unknown tanks, revisions, steps, addresses and methods", async () => {
    const tank = await begin();
    expect((await ask("GET", "/api/tanks/none")).status).toBe(404);
    expect((await ask("GET", `/api/tanks/${tank.id}/revisions/99`)).status).toBe(404);
    expect((await ask("GET", `/api/tanks/${tank.id}/revisions/-1`)).status).toBe(400);
    expect((await post(`/api/tanks/${tank.id}/undo`, { base: 1 })).status).toBe(404);
    expect((await ask("GET", "/api/nothing")).status).toBe(404);
    expect((await ask("PUT", "/api/tanks", { body: "{}" })).status).toBe(404);
    expect((await ask("GET", "/api/examples/none")).status).toBe(404);
  });
});

describe("script in every text field", () => {
  const script = `<script>alert(1)</script><img src=x onerror=alert(2)>" ' \` \${7*7} {{7*7}} '); drop table tanks; --`;
  test("is kept and told as text", async () => {
    const text = example
      .replace("name: Quarry bank", `name: ${JSON.stringify(script)}`)
      .replace("place: reading room", `place: ${JSON.stringify(script)}`)
      .replace("note: colour cell", `note: ${JSON.stringify(script)}`);
    const created = await post("/api/tanks", { text, key: script.slice(0, 80) });
    expect(created.status).toBe(201);
    const tank = parsed<TankRecord>(created);
    expect(tank.name).toBe(script);
    const change = { name: script, path: ["about"], before: undefined, after: script };
    const changed = await post(`/api/tanks/${tank.id}/changes`, { base: 1, name: script, changes: [change] });
    expect(changed.status).toBe(200);
    expect(changed.headers["content-type"]).toMatch(/^application\/json/);
    const history = parsed<{ name: string }[]>(await ask("GET", `/api/tanks/${tank.id}/history`));
    expect(history[0]!.name).toBe(script);
    const file = await ask("GET", `/api/tanks/${tank.id}/plan.yaml`);
    expect(file.headers["content-type"]).toMatch(/^application\/yaml/);
    expect(file.headers["content-disposition"]).toMatch(/^attachment; filename="[\w.-]+"$/);
  });
  test("file names are plain whatever the tank is called", () => {
    expect(fileName(script)).toMatch(/^[\w.-]+\.yaml$/);
    expect(fileName("../../etc/passwd")).not.toContain("/");
    expect(fileName("水槽")).toBe("plan.yaml");
  });
});

describe("files", () => {
  test("the app's own pages fall back to its one page; assets are kept for ever and packed", async () => {
    expect((await ask("GET", "/tank/x/today")).body).toContain("<title>Lentic");
    const asset = await ask("GET", "/assets/app-1234.js", { headers: { "accept-encoding": "gzip" } });
    expect(asset.headers["content-encoding"]).toBe("gzip");
    expect(asset.headers["cache-control"]).toContain("immutable");
    expect((await ask("GET", "/assets/none.js")).status).toBe(404);
    expect((await ask("HEAD", "/")).status).toBe(200);
  });
  test.each([
    "/../secret.txt",
    "/..%2fsecret.txt",
    "/%2e%2e/secret.txt",
    "/assets/..%5c..%5csecret.txt",
    "/assets//../../secret.txt",
    "/%00",
    "/%c0%ae%c0%ae/secret.txt",
    "/%",
  ])("%s does not climb out", async (path) => {
    const answer = await ask("GET", path);
    expect(answer.body).not.toContain("not for anybody");
    expect(answer.status).toBeLessThan(500);
  });
  test("headers that keep a page to itself stand on every answer, errors too", async () => {
    for (const path of ["/", "/assets/app-1234.js", "/api/tanks", "/api/none", "/api/tanks/none"]) {
      const { headers } = await ask("GET", path);
      expect(headers["content-security-policy"], path).toContain("default-src 'none'");
      expect(headers["content-security-policy"]).not.toContain("unsafe");
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["referrer-policy"]).toBe("no-referrer");
      expect(headers["cross-origin-resource-policy"]).toBe("same-origin");
    }
  });
});

describe("where it listens", () => {
  const base = { webRoot: null, version: "test", examples: [] } as const;
  test("beyond this machine only with a token, and then every request needs it", async () => {
    await expect(serve({ ...base, store, host: "0.0.0.0", port: 0 })).rejects.toThrow(/LENTIC_TOKEN/);
    const open = await serve({ ...base, store, host: "0.0.0.0", port: 0, token: "a long secret" });
    const port = open.port;
    expect((await ask("GET", "/api/tanks", { port })).status).toBe(401);
    expect((await ask("GET", "/", { port })).status).toBe(401);
    expect((await ask("GET", "/api/tanks", { port, headers: { authorization: "Bearer wrong" } })).status).toBe(401);
    expect((await ask("GET", "/api/tanks", { port, headers: { authorization: "Bearer a long secret" } })).status).toBe(
      200,
    );
    expect((await ask("GET", "/login?token=wrong", { port })).status).toBe(401);
    const login = await ask("GET", "/login?token=a%20long%20secret", { port });
    expect(login.status).toBe(302);
    const cookie = String(login.headers["set-cookie"]);
    expect(cookie).toMatch(/HttpOnly; SameSite=Strict/);
    expect(cookie).not.toContain("secret");
    expect((await ask("GET", "/api/tanks", { port, headers: { cookie: cookie.split(";")[0]! } })).status).toBe(200);
    await open.close();
  });
  test("a port that is taken is told as such", async () => {
    await expect(serve({ ...base, store, host: "127.0.0.1", port: running.port })).rejects.toThrow(ServeError);
  });
  test("a client that never finishes its request does not hold others up", async () => {
    const slow = socket(running.port, "127.0.0.1");
    slow.write("POST /api/tanks HTTP/1.1\r\nHost: x\r\nContent-Le");
    expect((await ask("GET", "/api/health")).status).toBe(200);
    slow.destroy();
  });
  test("without a built web app it says so", async () => {
    const app = createApp({ ...base, store, hosts: new Set(["localhost"]) });
    const answer = await app.request("/", { headers: { host: "localhost" } });
    expect(answer.status).toBe(503);
    expect(await answer.text()).toContain("npm start");
  });
});

test("random requests are never a fault of ours", { timeout: 120_000 }, async () => {
  const app = createApp({
    store,
    webRoot,
    version: "test",
    examples: [],
    hosts: new Set(["localhost"]),
    onError: (e) => ours.push(e),
  });
  const tank = await begin();
  const paths = [
    "/api/tanks",
    `/api/tanks/${tank.id}/changes`,
    `/api/tanks/${tank.id}/text`,
    `/api/tanks/${tank.id}/undo`,
  ];
  const change = fc.record(
    {
      name: fc.string(),
      path: fc.array(
        fc.oneof(
          fc.string(),
          fc.nat(20),
          fc.constantFrom("co2", "tank", "plants", "length", "__proto__", "constructor"),
        ),
      ),
      after: fc.jsonValue(),
    },
    { requiredKeys: [] },
  );
  const input = fc.oneof(
    fc.jsonValue(),
    fc.record(
      {
        base: fc.oneof(fc.integer(), fc.constant(1)),
        name: fc.string(),
        changes: fc.array(change, { maxLength: 3 }),
        text: fc.string(),
      },
      { requiredKeys: [] },
    ),
    fc.record({
      base: fc.constant(1),
      name: fc.string({ minLength: 1 }),
      changes: fc.array(change, { minLength: 1, maxLength: 3 }),
    }),
  );
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...paths), input, async (path, value) => {
      const answer = await app.request(path, {
        method: "POST",
        headers: { host: "localhost", "content-type": "application/json" },
        body: JSON.stringify(value),
      });
      expect(answer.status).toBeLessThan(500);
    }),
    { numRuns: process.env.LENTIC_SOAK ? 5000 : 300 },
  );
  await fc.assert(
    fc.asyncProperty(fc.webPath(), async (path) => {
      const answer = await app.request(path || "/", { headers: { host: "localhost" } });
      expect(answer.status).toBeLessThan(500);
    }),
    { numRuns: 300 },
  );
  expect(ours).toEqual([]);
});
