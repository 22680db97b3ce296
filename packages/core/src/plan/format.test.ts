import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { formatPlan } from "./format.ts";

const example = (name: string) => readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), "utf8");

test.each(["quarry-bank", "long-high-light", "small-no-gas", "us-units", "minimal"])(
  "%s is written in the house layout",
  (name) => {
    expect(formatPlan(example(name))).toBe(example(name));
  },
);

test("odd spacing is put straight; comments, order and quantities as typed stay", () => {
  const odd = `# head
name:   Odd     # beside
lentic: 1
tank:
    width:    30 cm
    length:   2 ft
    height:    36 cm


water: {kh: 4 dKH,gh:   "6 dGH"}
plants:
-   species: Vallisneria nana # first
    cover:  12 %
# end
`;
  expect(formatPlan(odd)).toBe(`# head
name: Odd # beside
lentic: 1
tank:
  width: 30 cm
  length: 2 ft
  height: 36 cm

water: { kh: 4 dKH, gh: "6 dGH" }
plants:
  - species: Vallisneria nana # first
    cover: 12 %

# end
`);
});

test("JSON is laid out as JSON; what cannot be read comes back untouched", () => {
  expect(formatPlan('{"lentic":1,"tank":{"length":"60 cm"}}')).toBe(
    '{\n  "lentic": 1,\n  "tank": {\n    "length": "60 cm"\n  }\n}\n',
  );
  for (const text of ["", "a: [", "- 1", "a: 1\na: 2\n"]) expect(formatPlan(text)).toBe(text);
});
