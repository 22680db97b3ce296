import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sameJson } from "./changes.ts";
import { mergePatch } from "./merge-patch.ts";
import type { Json } from "./plan.ts";

/** RFC 7396 (2014), appendix A: target, patch, result. */
const appendixA: readonly (readonly [target: Json, patch: Json, result: Json])[] = [
  [{ a: "b" }, { a: "c" }, { a: "c" }],
  [{ a: "b" }, { b: "c" }, { a: "b", b: "c" }],
  [{ a: "b" }, { a: null }, {}],
  [{ a: "b", b: "c" }, { a: null }, { b: "c" }],
  [{ a: ["b"] }, { a: "c" }, { a: "c" }],
  [{ a: "c" }, { a: ["b"] }, { a: ["b"] }],
  [{ a: { b: "c" } }, { a: { b: "d", c: null } }, { a: { b: "d" } }],
  [{ a: [{ b: "c" }] }, { a: [1] }, { a: [1] }],
  [
    ["a", "b"],
    ["c", "d"],
    ["c", "d"],
  ],
  [{ a: "b" }, ["c"], ["c"]],
  [{ a: "foo" }, null, null],
  [{ a: "foo" }, "bar", "bar"],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: "b", c: null }, { a: "b" }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
];

describe("RFC 7396, appendix A", () => {
  test.each(appendixA)("%j with %j gives %j", (target, patch, result) => {
    expect(mergePatch(target, patch)).toEqual(result);
  });
});

/** The example of RFC 7396, section 3. */
test("RFC 7396, section 3: the worked example", () => {
  const target = {
    title: "Goodbye!",
    author: { givenName: "John", familyName: "Doe" },
    tags: ["example", "sample"],
    content: "This will be unchanged",
  };
  const patch = { title: "Hello!", phoneNumber: "+01-123-456-7890", author: { familyName: null }, tags: ["example"] };
  expect(mergePatch(target, patch)).toEqual({
    title: "Hello!",
    author: { givenName: "John" },
    tags: ["example"],
    content: "This will be unchanged",
    phoneNumber: "+01-123-456-7890",
  });
});

test("a patch twice is a patch once, and neither argument is touched", () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 3 }), fc.jsonValue({ maxDepth: 3 }), (target, patch) => {
      const [t, p] = [target as Json, patch as Json];
      const before = JSON.stringify([t, p]);
      const once = mergePatch(t, p);
      expect(sameJson(mergePatch(once, p), once)).toBe(true);
      expect(JSON.stringify([t, p])).toBe(before);
    }),
  );
});

test("a key named __proto__ stays an ordinary key", () => {
  const patch = JSON.parse('{"__proto__": {"spoiled": true}}') as Json;
  const merged = mergePatch({ a: 1 }, patch);
  expect(Object.keys(merged as object)).toEqual(["a", "__proto__"]);
  expect(({} as Record<string, unknown>).spoiled).toBeUndefined();
});
