import { stringify } from "yaml";
import { printing } from "./edit-text.ts";
import { currentVersion } from "./migrate.ts";

/** What a new plan asks for. Quantities as one would type them, with unit: `60 cm`, `24 in`, `4 dKH`. */
export interface Answers {
  readonly name?: string;
  readonly place?: string;
  readonly length: string;
  readonly width: string;
  readonly height: string;
  readonly kh?: string;
  readonly gh?: string;
  /** Power of the lamp; left out, the plan has no lamp unless `light` is true. */
  readonly lightPower?: string;
  readonly light?: boolean;
  /** Times of day, `HH:MM`. */
  readonly lightOn?: string;
  readonly lightOff?: string;
  /** Whether carbon dioxide is added. */
  readonly gas?: boolean;
  readonly bubbles?: string;
  readonly filter?: boolean;
  /** Flow on the filter's label. */
  readonly filterRated?: string;
  readonly heater?: boolean;
  readonly heaterPower?: string;
  /** Botanical names. */
  readonly plants?: readonly string[];
  readonly animals?: readonly { readonly species: string; readonly count: number }[];
}

type Lines = Readonly<Record<string, string | number | undefined>>;

function line(key: string, value: string | number): string {
  return stringify({ [key]: value }, printing).trimEnd();
}

/** A map with a comment; `{}` where nothing is known, so that every value in it is a default on view. */
function group(key: string, comment: string, values: Lines): string {
  const known = Object.entries(values).filter((entry): entry is [string, string | number] => entry[1] !== undefined);
  if (known.length === 0) return `# ${comment}\n${key}: {}\n`;
  return `# ${comment}\n${key}:\n${known.map(([k, v]) => `  ${line(k, v)}\n`).join("")}`;
}

function list(key: string, comment: string, items: readonly Lines[]): string {
  const item = (values: Lines) => {
    const [first, ...rest] = Object.entries(values).filter((e): e is [string, string | number] => e[1] !== undefined);
    return first ? [`  - ${line(...first)}\n`, ...rest.map((e) => `    ${line(...e)}\n`)].join("") : "";
  };
  return `# ${comment}\n${key}:\n${items.map(item).join("")}`;
}

/**
 * The text of a new plan from few answers. What was not asked is left out, so that its default shows as assumed. The
 * answers are not judged here: read the text with readPlan, which tells what is wrong with them.
 */
export function newPlan(answers: Answers): string {
  const { length, width, height, kh, gh, plants = [], animals = [] } = answers;
  const parts: string[] = [];
  const head = [line("lentic", currentVersion), line("name", answers.name ?? "New tank")];
  if (answers.place !== undefined) head.push(line("place", answers.place));
  parts.push(`${head.join("\n")}\n`);
  parts.push(
    group("tank", "Measured outside. Glass and water line are assumed until they stand here.", {
      length,
      width,
      height,
    }),
  );
  if (kh !== undefined || gh !== undefined) {
    parts.push(group("water", "From a test kit or the water company's report.", { kh, gh }));
  }
  if (answers.light || answers.lightPower !== undefined) {
    const values = { power: answers.lightPower, on: answers.lightOn, off: answers.lightOff };
    parts.push(group("light", "Lamp. Height over the rim and strength are worth measuring first.", values));
  }
  if (answers.gas || answers.bubbles !== undefined) {
    parts.push(
      group("co2", "Added carbon dioxide. Count the bubbles; weigh the cylinder over a week.", {
        bubbles: answers.bubbles,
      }),
    );
  }
  if (answers.filter || answers.filterRated !== undefined) {
    parts.push(group("filter", "Filter. A bucket and a stopwatch give the real flow.", { rated: answers.filterRated }));
  }
  if (answers.heater || answers.heaterPower !== undefined) {
    parts.push(group("heater", "Heater, power as on its label.", { power: answers.heaterPower }));
  }
  if (plants.length > 0) {
    parts.push(
      list(
        "plants",
        "One entry a patch; cover and height are assumed.",
        plants.map((species) => ({ species })),
      ),
    );
  }
  if (animals.length > 0) {
    parts.push(
      list(
        "animals",
        "One entry a species; length is taken as full-grown.",
        animals.map(({ species, count }) => ({ species, count })),
      ),
    );
  }
  return parts.join("\n");
}
