import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { goodTexts } from "./arbitrary.ts";
import { applyToRaw, type Change, changeAt, invert, sameJson } from "./changes.ts";
import { applyChanges } from "./edit-text.ts";
import { isMap, type Json, type Path, type RawPlan } from "./plan.ts";
import { readText } from "./plan-text.ts";

const example = (name: string) => readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), "utf8");

function rawOf(text: string): RawPlan {
  const read = readText(text);
  if (!read.ok) throw new Error(read.faults[0]?.message);
  return read.raw;
}

function edit(text: string, path: Path, after: unknown): string {
  return applyChanges(text, [changeAt(rawOf(text), path, after, "edit")]);
}

/** Paths of every single value. */
function leavesOf(value: Json | undefined, path: Path = []): Path[] {
  if (Array.isArray(value)) return (value as readonly Json[]).flatMap((v, i) => leavesOf(v, [...path, i]));
  if (isMap(value)) return Object.keys(value).flatMap((key) => leavesOf(value[key], [...path, key]));
  return [path];
}

/** Lines of `after` that differ from those of `before`, when both have the same number of lines. */
function changedLines(before: string, after: string): number[] | null {
  const [a, b] = [before.split("\n"), after.split("\n")];
  if (a.length !== b.length) return null;
  return a.flatMap((line, i) => (line === b[i] ? [] : [i + 1]));
}

const odd = `# head comment, kept

lentic:   1
name:     "Odd: spacing"     # two spaces before
tank:
    length:    60 cm           # aligned
    width:     30 cm           # aligned
    height:    36 cm           # aligned


plants:
- species: Vallisneria nana
  cover:   12 %
# between the plants
-   { species: Bolbitis heudelotii,    cover: 8 % }   # a fern

co2: { bubbles: 1 bubbles/s,  opens: "08:00" }
# the end
`;

describe("one value", () => {
  test("only its own words change; spacing, comments and blank lines stay", () => {
    const text = edit(odd, ["plants", 1, "cover"], "9.5 %");
    expect(text).toBe(odd.replace("cover: 8 % }", "cover: 9.5 % }"));
    expect(edit(odd, ["co2", "opens"], "07:20")).toBe(odd.replace('"08:00"', '"07:20"'));
    expect(edit(odd, ["name"], "Plain")).toBe(odd.replace('"Odd: spacing"     #', '"Plain"            #'));
  });

  test("a comment behind it keeps its column", () => {
    expect(edit(odd, ["tank", "length"], "1200 mm")).toBe(odd.replace("60 cm           #", "1200 mm         #"));
    const long = edit(odd, ["tank", "width"], "300 mm (measured, steel rule)");
    expect(long).toBe(odd.replace("width:     30 cm           #", "width:     300 mm (measured, steel rule) #"));
  });

  test.each(["quarry-bank", "long-high-light", "small-no-gas", "us-units", "minimal"])(
    "every value of %s in turn changes one line",
    (name) => {
      const text = example(name);
      const raw = rawOf(text);
      for (const path of leavesOf(raw)) {
        if (path[0] === "about") continue;
        const edited = edit(text, path, "changed (label, by a test)");
        expect(changedLines(text, edited), path.join(".")).toHaveLength(1);
        const before = raw;
        const undone = applyChanges(edited, [invert(changeAt(before, path, "changed (label, by a test)", "edit"))]);
        expect(rawOf(undone)).toEqual(raw);
      }
    },
  );
});

describe("keys", () => {
  test("a new key takes its place in the order of the table", () => {
    expect(edit(odd, ["tank", "glass"], "6 mm")).toBe(
      odd.replace("36 cm           # aligned\n", "36 cm           # aligned\n    glass: 6 mm\n"),
    );
    expect(edit(odd, ["co2", "bubble"], "0.2 mg")).toBe(odd.replace("1 bubbles/s,", "1 bubbles/s, bubble: 0.2 mg,"));
    const lit = edit(odd, ["light", "power"], "20 W");
    expect(lit).toBe(
      odd
        .replace("# aligned\n\n\nplants:", "# aligned\n\nlight:\n    power: 20 W\n\n\nplants:")
        .replace("    power", "  power"),
    );
  });

  test("a key before all others goes to the top", () => {
    const text = "tank:\n  length: 60 cm\n  width: 30 cm\n";
    expect(edit(text, ["lentic"], 1)).toBe(`lentic: 1\n${text}`);
  });

  test("taking a key out takes its line", () => {
    expect(edit(odd, ["tank", "width"], undefined)).toBe(odd.replace("    width:     30 cm           # aligned\n", ""));
    expect(edit(odd, ["co2", "bubbles"], undefined)).toBe(odd.replace("bubbles: 1 bubbles/s,  ", ""));
    expect(edit(odd, ["co2"], undefined)).toBe(odd.replace(/co2: .*\n/, ""));
  });

  test("the last key of a group leaves an empty group, not none", () => {
    const text = "lentic: 1\nheater: # by the outlet\n  set: 24 °C\nroom: { day: 20 °C }\n";
    expect(edit(text, ["heater", "set"], undefined)).toBe(
      "lentic: 1\nheater: {} # by the outlet\nroom: { day: 20 °C }\n",
    );
    expect(edit(text, ["room", "day"], undefined)).toBe(text.replace("{ day: 20 °C }", "{}"));
    expect(edit("heater: {}\n", ["heater", "set"], "24 °C")).toBe("heater: { set: 24 °C }\n");
  });

  test("free text over several lines comes and goes", () => {
    const told = edit(odd, ["about"], "First line.\nSecond line.\n");
    expect(told).toContain("about: |\n  First line.\n  Second line.\n");
    expect(rawOf(edit(told, ["about"], "One line.")).about).toBe("One line.");
    expect(edit(told, ["about"], undefined)).toBe(odd);
  });
});

describe("lists", () => {
  test("a new item is written as its neighbours are", () => {
    const item = { species: "Cryptocoryne wendtii", cover: "5 %" };
    expect(edit(odd, ["plants", 2], item)).toBe(
      odd.replace("# a fern\n", "# a fern\n- { species: Cryptocoryne wendtii, cover: 5 % }\n"),
    );
    const first: Change = { name: "first", path: ["plants", 0], before: undefined, after: item };
    expect(applyChanges(odd, [first])).toBe(
      odd.replace("plants:\n", "plants:\n- species: Cryptocoryne wendtii\n  cover: 5 %\n"),
    );
  });

  test("taking an item out leaves the others and their comments", () => {
    expect(edit(odd, ["plants", 0], undefined)).toBe(odd.replace("- species: Vallisneria nana\n  cover:   12 %\n", ""));
    const none = edit(edit(odd, ["plants", 0], undefined), ["plants", 0], undefined);
    expect(rawOf(none).plants).toEqual([]);
    expect(none).toContain("# head comment, kept");
  });

  test("an empty list takes its first item", () => {
    expect(edit("lentic: 1\nplants: []\n", ["plants", 0], { species: "a" })).toBe(
      "lentic: 1\nplants:\n  - { species: a }\n",
    );
  });
});

describe("texts of other makes", () => {
  test("line ends of one kind and a byte order mark stay", () => {
    const crlf = odd.replaceAll("\n", "\r\n");
    expect(edit(crlf, ["tank", "glass"], "6 mm")).toBe(edit(odd, ["tank", "glass"], "6 mm").replaceAll("\n", "\r\n"));
    expect(edit(`\uFEFF${odd}`, ["co2", "opens"], "07:20").startsWith("\uFEFF# head")).toBe(true);
  });

  test("JSON stays JSON, with its indent", () => {
    const json = '{\n\t"lentic": 1,\n\t"tank": {\n\t\t"length": "60 cm"\n\t}\n}\n';
    expect(edit(json, ["tank", "length"], "80 cm")).toBe(json.replace("60", "80"));
    expect(edit('{"lentic":1}', ["name"], "x")).toBe('{"lentic":1,"name":"x"}');
  });

  test("a file without a last line feed", () => {
    expect(edit("lentic: 1\ntank:\n  length: 60 cm", ["tank", "width"], "30 cm")).toBe(
      "lentic: 1\ntank:\n  length: 60 cm\n  width: 30 cm\n",
    );
  });

  test("an alias is written out before one of its places changes", () => {
    const text = "lentic: 1\nplants:\n  - &a { species: x, cover: 5 % } # kept\n  - *a\n";
    const edited = edit(text, ["plants", 0, "cover"], "6 %");
    expect(rawOf(edited).plants).toEqual([
      { species: "x", cover: "6 %" },
      { species: "x", cover: "5 %" },
    ]);
    expect(edited).toContain("# kept");
  });

  test("a text that cannot be read is refused", () => {
    expect(() => applyChanges("a: [", [{ name: "n", path: ["a"], before: undefined, after: 1 }])).toThrow(/line 1/);
  });
});

const newValue: fc.Arbitrary<Json | undefined> = fc.constantFrom<(Json | undefined)[]>(
  undefined,
  "12 cm",
  'a "quoted": text, with # signs',
  "two\nlines",
  "- dash",
  "",
  "10:30",
  true,
  7,
  { set: "24 °C", nested: { deep: ["x"] } },
  ["a", { b: "c" }],
  [],
  {},
);

test("whatever is changed in whatever layout, the text then holds the changed plan", () => {
  const texts = fc.oneof(
    goodTexts,
    fc.constantFrom(odd, ...["quarry-bank", "long-high-light", "small-no-gas", "us-units"].map(example)),
  );
  fc.assert(
    fc.property(
      texts,
      fc.array(fc.tuple(fc.nat(), newValue, fc.boolean()), { minLength: 1, maxLength: 3 }),
      (text, edits) => {
        let current = text;
        for (const [pick, after, parent] of edits) {
          const raw = rawOf(current);
          const all = leavesOf(raw).filter((p) => p.length > 0);
          const leaf = all[pick % Math.max(1, all.length)];
          if (!leaf) return;
          const path = parent && leaf.length > 1 ? leaf.slice(0, -1) : leaf;
          const change = changeAt(raw, path, after, "any");
          current = applyChanges(current, [change]);
          expect(sameJson(rawOf(current), applyToRaw(raw, [change])), `${path.join(".")} in\n${current}`).toBe(true);
        }
      },
    ),
    { numRuns: Number(process.env.PLAN_RUNS ?? 150) },
  );
});
