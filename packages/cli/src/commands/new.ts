import { existsSync, writeFileSync } from "node:fs";
import { createInterface } from "node:readline/promises";
import { type Answers, newPlan, readPlan } from "@lentic/core/plan";
import { examples } from "../examples.ts";
import { exit, faultLines, InputError } from "../fault.ts";

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
}

/** Asks what a plan cannot do without, and a little more; an empty answer leaves the default. */
async function asked(): Promise<Answers> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  const ask = async (question: string): Promise<string> => (await lines.question(`${question} `)).trim();
  const must = async (question: string): Promise<string> => {
    for (;;) {
      const answer = await ask(question);
      if (answer) return answer;
      process.stderr.write("This one is needed, with its unit: 90 cm, 36 in.\n");
    }
  };
  try {
    const name = await ask("What is the tank called?");
    const length = await must("Outside length, with unit (90 cm, 36 in)?");
    const width = await must("Outside width, front to back?");
    const height = await must("Outside height?");
    const kh = await ask("KH of the water (4 dKH; empty = not known)?");
    const lightPower = await ask("Power of the lamp (40 W; empty = no lamp)?");
    const gas = /^y/i.test(await ask("Is CO2 added (y/n)?"));
    const heaterPower = await ask("Power of the heater (100 W; empty = none)?");
    const rated = await ask("Flow on the filter's label (600 L/h; empty = no filter)?");
    return {
      ...(name ? { name } : {}),
      length,
      width,
      height,
      ...(kh ? { kh } : {}),
      ...(lightPower ? { lightPower } : {}),
      gas,
      ...(heaterPower ? { heaterPower, heater: true } : {}),
      ...(rated ? { filterRated: rated, filter: true } : {}),
    };
  } finally {
    lines.close();
  }
}

function fromFlags(o: NewOptions): Answers | null {
  if (!(o.length || o.width || o.height)) return null;
  const missing = (["length", "width", "height"] as const).filter((k) => !o[k]);
  if (missing.length > 0)
    throw new InputError(`a tank needs ${missing.map((k) => `--${k}`).join(" and ")} too, with unit: --length "90 cm"`);
  return {
    ...(o.name ? { name: o.name } : {}),
    length: o.length!,
    width: o.width!,
    height: o.height!,
    ...(o.kh ? { kh: o.kh } : {}),
    ...(o.gh ? { gh: o.gh } : {}),
    ...(o.light ? { lightPower: o.light } : {}),
    ...(o.gas === undefined ? {} : { gas: o.gas }),
    ...(o.heater ? { heaterPower: o.heater, heater: true } : {}),
    ...(o.filter ? { filterRated: o.filter, filter: true } : {}),
  };
}

export async function newCommand(file: string | undefined, options: NewOptions): Promise<number> {
  let text: string;
  if (options.example !== undefined) {
    const found = examples.find((e) => e.id === options.example);
    if (!found)
      throw new InputError(
        `there is no example ${options.example}; there are: ${examples.map((e) => e.id).join(", ")}`,
      );
    text = found.text;
  } else {
    const answers = fromFlags(options) ?? (process.stdin.isTTY ? await asked() : null);
    if (!answers)
      throw new InputError(
        'say the size: lentic new plan.yaml --length "90 cm" --width "45 cm" --height "45 cm", or run it in a terminal to be asked',
      );
    text = newPlan(answers);
    const reading = readPlan(text);
    if (!reading.ok) throw new InputError(faultLines("the new plan", reading.faults));
  }
  if (file === undefined || file === "-") {
    process.stdout.write(text);
    return exit.fine;
  }
  if (existsSync(file) && !options.force) throw new InputError(`${file} is there already; --force writes over it`);
  try {
    writeFileSync(file, text, { flag: options.force ? "w" : "wx" });
  } catch (error) {
    throw new InputError(`${file} cannot be written: ${(error as Error).message}`);
  }
  process.stderr.write(`wrote ${file}; next: lentic check ${file}\n`);
  return exit.fine;
}
