import { existsSync, writeFileSync } from "node:fs";
import { createInterface } from "node:readline/promises";
import { type Answers, newPlan, readPlan } from "@lentic/core/plan";
import { examples } from "../examples.ts";
import { exit, InputError } from "../fault.ts";
import { toJson } from "../paper.ts";

export interface NewOptions {
  readonly example?: string;
  readonly name?: string;
  readonly length?: string;
  readonly width?: string;
  readonly height?: string;
  readonly kh?: string;
  readonly gh?: string;
  readonly light?: string;
  readonly gas?: boolean;
  readonly heater?: string;
  readonly filter?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

interface Question {
  readonly key: "length" | "width" | "height" | "kh" | "gh" | "lightPower" | "heaterPower" | "filterRated";
  /** Field of the plan that the answer becomes. */
  readonly path: string;
  readonly flag: keyof NewOptions;
  readonly text: string;
  readonly needed?: true;
}

const questions: readonly Question[] = [
  {
    key: "length",
    path: "tank.length",
    flag: "length",
    text: "Outside length, with its unit (90 cm, 36 in)?",
    needed: true,
  },
  { key: "width", path: "tank.width", flag: "width", text: "Outside width, front to back?", needed: true },
  { key: "height", path: "tank.height", flag: "height", text: "Outside height?", needed: true },
  { key: "kh", path: "water.kh", flag: "kh", text: "KH of the water (4 dKH; empty = not known)?" },
  { key: "gh", path: "water.gh", flag: "gh", text: "GH of the water (7 dGH; empty = not known)?" },
  { key: "lightPower", path: "light.power", flag: "light", text: "Power of the lamp (40 W; empty = no lamp)?" },
  { key: "heaterPower", path: "heater.power", flag: "heater", text: "Power of the heater (100 W; empty = none)?" },
  {
    key: "filterRated",
    path: "filter.rated",
    flag: "filter",
    text: "Flow on the filter's label (600 L/h; empty = no filter)?",
  },
];

const size = { length: "60 cm", width: "30 cm", height: "36 cm" };

/** What is wrong with one answer by itself, or null. */
function fault(question: Question, answer: string): string | null {
  const reading = readPlan(newPlan({ ...size, [question.key]: answer }));
  const found = reading.ok ? undefined : reading.faults.find((f) => f.path === question.path);
  return found ? `${found.message}; allowed: ${found.allowed}` : null;
}

/**
 * Asks what a plan cannot do without, and a little more; an empty answer leaves the default, a wrong one is asked again.
 * @throws InputError when the one who answers leaves off
 */
export async function asked(
  input: NodeJS.ReadableStream = process.stdin,
  output: NodeJS.WritableStream = process.stderr,
): Promise<Answers> {
  const lines = createInterface({ input, output });
  const left = new Promise<never>((_, reject) => {
    lines.once("close", () => reject(new InputError("\nleft off; nothing was written")));
  });
  // closing after the last answer is no one's concern
  left.catch(() => undefined);
  const ask = async (text: string): Promise<string> => (await Promise.race([lines.question(`${text} `), left])).trim();
  try {
    const answers: { -readonly [K in keyof Answers]?: Answers[K] } = {};
    const name = await ask("What is the tank called (empty = New tank)?");
    if (name) answers.name = name;
    for (const question of questions) {
      for (;;) {
        const answer = await ask(question.text);
        const wrong = answer ? fault(question, answer) : question.needed ? "this one is needed" : null;
        if (wrong === null) {
          if (answer) answers[question.key] = answer;
          break;
        }
        output.write(`  ${wrong}\n`);
      }
    }
    answers.gas = /^\s*y/i.test(await ask("Is CO2 added (y/n)?"));
    return { ...answers, ...sizeOf(answers) };
  } finally {
    lines.close();
  }
}

function sizeOf({ length, width, height }: Partial<Answers>): Pick<Answers, "length" | "width" | "height"> {
  const all = { length, width, height };
  const missing = (["length", "width", "height"] as const).filter((k) => !all[k]);
  if (missing.length > 0) {
    throw new InputError(`a tank needs ${missing.map((k) => `--${k}`).join(" and ")} too, with unit: --length "90 cm"`);
  }
  return { length: length!, width: width!, height: height! };
}

/** Answers from flags; null when none is given. */
function fromFlags(o: NewOptions): Answers | null {
  const answers: { -readonly [K in keyof Answers]?: Answers[K] } = {};
  if (o.name !== undefined) answers.name = o.name;
  if (o.gas !== undefined) answers.gas = o.gas;
  for (const { key, flag } of questions) {
    const value = o[flag];
    if (typeof value === "string") answers[key] = value;
  }
  return Object.keys(answers).length === 0 ? null : { ...answers, ...sizeOf(answers) };
}

/** Faults of a plan made from flags, told by the flag that brought each. */
function flagFaults(text: string): string | null {
  const reading = readPlan(text);
  if (reading.ok) return null;
  return reading.faults
    .map((f) => {
      const flag = questions.find((q) => q.path === f.path)?.flag;
      return `${flag ? `--${flag}` : f.path || "the plan"}: ${f.message}; allowed: ${f.allowed}`;
    })
    .join("\n");
}

async function textOf(options: NewOptions): Promise<string> {
  if (options.example !== undefined) {
    const found = examples.find((e) => e.id === options.example);
    if (found) return found.text;
    throw new InputError(`there is no example ${options.example}; there are: ${examples.map((e) => e.id).join(", ")}`);
  }
  const answers = fromFlags(options) ?? (process.stdin.isTTY ? await asked() : null);
  if (!answers) {
    throw new InputError(
      'say the size: lentic new plan.yaml --length "90 cm" --width "45 cm" --height "45 cm", or run it in a terminal to be asked',
    );
  }
  const text = newPlan(answers);
  const faults = flagFaults(text);
  if (faults !== null) throw new InputError(faults);
  return text;
}

function written(file: string, text: string, force: boolean): void {
  try {
    writeFileSync(file, text, { flag: force ? "w" : "wx" });
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    const words: Readonly<Record<string, string>> = {
      EEXIST: "is there already; --force writes over it",
      ENOENT: "cannot be written: its folder is not there",
      ENOTDIR: "cannot be written: a part of its path is a file",
      EISDIR: "is a folder; a plan is a file",
      EACCES: "may not be written",
      EROFS: "may not be written: the disk is read-only",
    };
    throw new InputError(`${file} ${words[code ?? ""] ?? `cannot be written: ${message}`}`);
  }
}

/** A plan begun from an example, from flags or by questions. */
export async function newCommand(file: string | undefined, options: NewOptions): Promise<number> {
  const path = file === undefined || file === "-" ? null : file;
  // asked before any question is
  if (path !== null && existsSync(path) && !options.force) {
    throw new InputError(`${path} is there already; --force writes over it`);
  }
  const text = await textOf(options);
  if (path !== null) written(path, text, options.force === true);
  if (options.json) process.stdout.write(`${toJson({ file: path, plan: text })}\n`);
  else if (path === null) process.stdout.write(text);
  if (path !== null) process.stderr.write(`wrote ${path}; next: lentic check ${path}\n`);
  return exit.fine;
}
