import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { load, store, texts } from "../data/stored.ts";
import { draftOf, draftsOf, moveDrafts, refusedOf, setDraft } from "./drafts.ts";
import { loadFileDraft, saveFileDraft } from "./file-draft.ts";

class Memory {
  readonly map = new Map<string, string>();
  getItem(key: string): string | null {
    return this.map.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.map.set(key, value);
  }
  removeItem(key: string): void {
    this.map.delete(key);
  }
}

let memory: Memory;
beforeEach(() => {
  memory = new Memory();
  vi.stubGlobal("localStorage", memory);
});
afterEach(() => vi.unstubAllGlobals());

describe("drafts of fields", () => {
  test("stay until they are kept or left, tank by tank", () => {
    setDraft("a", "water.kh", "7 apples");
    setDraft("b", "water.kh", "4");
    expect(draftOf("a", "water.kh")).toBe("7 apples");
    expect(draftOf("a", "water.gh")).toBeNull();
    setDraft("a", "water.kh", null);
    expect(draftOf("a", "water.kh")).toBeNull();
    expect(draftOf("b", "water.kh")).toBe("4");
    expect(memory.map.size).toBe(1);
  });

  test("an empty text is a draft too: a value taken out that cannot be", () => {
    setDraft("a", "tank.length", "");
    expect(draftOf("a", "tank.length")).toBe("");
  });

  test("those entered and refused are told from those whose typing was broken off", () => {
    setDraft("a", "light.on", "19:00", true);
    setDraft("a", "light.off", "2");
    expect(refusedOf("a")).toEqual({ "light.on": "19:00" });
    setDraft("a", "light.on", "19:3");
    expect(refusedOf("a")).toEqual({});
  });

  test("follow their item when it moves, and go with it", () => {
    setDraft("a", "plants[0].cover", "x");
    setDraft("a", "plants[2].height", "y");
    setDraft("a", "plants[+].species", "Anub");
    setDraft("a", "animals[2].count", "z");
    moveDrafts("a", "plants", (from) => (from === 0 ? null : from - 1));
    expect(draftsOf("a")).toEqual({ "plants[1].height": "y", "plants[+].species": "Anub", "animals[2].count": "z" });
  });

  test("damage in the store is no draft", () => {
    for (const damage of ["{", "null", "7", '["x"]', '{"water.kh":{"x":1}}']) {
      memory.map.set("lentic.drafts.a", damage);
      expect(draftsOf("a"), damage).toEqual({});
    }
  });
});

describe("a browser that refuses to store", () => {
  test("keeps what was typed as long as the page, and lets it go", () => {
    vi.stubGlobal("localStorage", {
      getItem: () => {
        throw new Error("refused");
      },
      setItem: () => {
        throw new Error("full");
      },
      removeItem: () => {
        throw new Error("refused");
      },
    });
    setDraft("c", "water.kh", "7 apples");
    expect(draftOf("c", "water.kh")).toBe("7 apples");
    setDraft("c", "water.kh", null);
    expect(draftOf("c", "water.kh")).toBeNull();
  });

  test("a store that is full only now does not bring back what stood there before", () => {
    store("k", { a: "old" });
    vi.stubGlobal("localStorage", {
      getItem: (key: string) => memory.getItem(key),
      setItem: () => {
        throw new Error("full");
      },
      removeItem: (key: string) => memory.removeItem(key),
    });
    store("k", { a: "new" });
    expect(load("k", texts)).toEqual({ a: "new" });
  });
});

describe("the draft of a file", () => {
  test("keeps its text and the revision it began from; damage is none", () => {
    saveFileDraft("a", { base: 3, text: "lentic: 1\n" });
    expect(loadFileDraft("a")).toEqual({ base: 3, text: "lentic: 1\n" });
    saveFileDraft("a", null);
    expect(loadFileDraft("a")).toBeNull();
    memory.map.set("lentic.file.a", '{"text":7}');
    expect(loadFileDraft("a")).toBeNull();
  });
});
