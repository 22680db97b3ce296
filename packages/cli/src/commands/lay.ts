import { applyChanges, readPlan } from "@lentic/core/plan";
import { billOf, type FormName, formChanges, forms, scapeOf } from "@lentic/core/scape";
import { exit, faultLines, InputError } from "../fault.ts";
import { fileWord, readText } from "../input.ts";
import { paperOf, table, toJson } from "../paper.ts";
import { rewrite } from "../rewrite.ts";

export interface LayOptions {
  readonly form?: string;
  readonly seed: string;
  readonly stone?: string;
  readonly wood?: string;
  readonly write?: boolean;
  readonly json?: boolean;
}

function isForm(name: string): name is FormName {
  return forms.some((f) => f.name === name);
}

/** Lays a scape out from a form: a plan's text with bed, stones, wood and plants in the place of its own. */
export function layCommand(file: string, options: LayOptions): number {
  const { form } = options;
  if (form === undefined || !isForm(form)) {
    const { width } = paperOf();
    const names = table(
      forms.map((f) => [f.name, f.says]),
      { width },
    );
    throw new InputError(`${form === undefined ? "name a form" : `no form is called ${form}`}; allowed:\n${names}`);
  }
  const seed = Number(options.seed);
  if (!(Number.isInteger(seed) && seed >= 0 && seed < 2 ** 31)) {
    throw new InputError(`seed ${options.seed} will not do; allowed: a whole number from 0 to 2147483647`);
  }
  const text = readText(file);
  const reading = readPlan(text);
  if (!reading.ok) throw new InputError(faultLines(fileWord(file), reading.faults));
  const { stone, wood } = options;
  const changes = formChanges(reading.raw, {
    plan: reading.plan,
    form,
    seed,
    ...(stone === undefined ? {} : { stone }),
    ...(wood === undefined ? {} : { wood }),
  });
  const laid = applyChanges(text, changes);
  const again = readPlan(laid);
  if (!again.ok) throw new Error(`the form ${form} does not read: ${faultLines("it", again.faults)}`);
  if (options.json) {
    process.stdout.write(`${toJson({ form, seed, changes, items: billOf(scapeOf(again.plan)).items })}\n`);
    return exit.fine;
  }
  if (options.write && file !== "-") {
    rewrite(file, laid);
    const { pieces, zones, volumes } = scapeOf(again.plan);
    process.stdout.write(
      `${fileWord(file)}: ${form} laid with ${pieces.length} pieces and ${zones.length} plantings; ${(volumes.net * 1000).toFixed(0)} L of water are left. lentic bill ${file} tells what to buy.\n`,
    );
    return exit.fine;
  }
  process.stdout.write(laid);
  return exit.fine;
}
