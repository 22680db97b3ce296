import { Command, CommanderError, Option } from "commander";
import type { BillOptions } from "./commands/bill.ts";
import type { CalcOptions } from "./commands/calc.ts";
import type { CheckOptions } from "./commands/check.ts";
import type { CompareOptions } from "./commands/compare.ts";
import type { DayOptions } from "./commands/day.ts";
import type { DrawOptions } from "./commands/draw.ts";
import type { GrowOptions } from "./commands/grow.ts";
import type { LayOptions } from "./commands/lay.ts";
import type { LightOptions } from "./commands/light.ts";
import type { NewOptions } from "./commands/new.ts";
import type { ServeCommandOptions } from "./commands/serve.ts";
import type { VolumesOptions } from "./commands/volumes.ts";
import { exit, InputError } from "./fault.ts";

const units = () =>
  new Option("--units <system>", "units of what is shown").choices(["metric", "us"]).default("metric");
const failOn = () =>
  new Option("--fail-on <severity>", "exit with 1 when a finding is at least this grave")
    .choices(["note", "caution", "stop", "never"])
    .default("stop");
const json = (what: string) => new Option("--json", what);
const planFile = "plan file, - for standard input";

/** Runs one verb and sets the exit code; the verb's code is loaded only when it is asked for. */
function program(done: (code: number) => void): Command {
  const lentic = new Command("lentic")
    .description("Works out a planted aquarium: its water, its day, what to change, and why.")
    .version(__VERSION__)
    .showHelpAfterError("(--help tells more)")
    .addHelpText(
      "after",
      "\nExit codes: 0 fine, 1 findings as grave as asked, 2 bad input, 3 a fault of ours.\n\nlentic new plan.yaml --example quarry-bank && lentic day plan.yaml",
    );

  const verb = (name: string, what: string, example: string): Command =>
    lentic.command(name).description(what).addHelpText("after", `\n${example}`);

  verb(
    "new",
    "begin a plan: by questions in a terminal, or from flags",
    'lentic new plan.yaml --length "90 cm" --width "45 cm" --height "45 cm" --kh "4 dKH" --light "40 W"',
  )
    .argument("[file]", "where to write it; standard output when left out")
    .option("--example <id>", "write an example instead, such as quarry-bank")
    .option("--name <name>", "what the tank is called")
    .option("--length <quantity>", "outside, with its unit")
    .option("--width <quantity>", "outside, front to back")
    .option("--height <quantity>", "outside")
    .option("--kh <quantity>", "such as 4 dKH")
    .option("--gh <quantity>", "such as 7 dGH")
    .option("--light <power>", "power of the lamp, such as 40 W")
    .option("--gas", "CO2 is added")
    .option("--no-gas", "no CO2 is added")
    .option("--heater <power>", "such as 100 W")
    .option("--filter <flow>", "flow on the label, such as 600 L/h")
    .option("--force", "write over a file that is there")
    .addOption(json("file and plan as JSON"))
    .action(async (file: string | undefined, o: NewOptions) =>
      done(await (await import("./commands/new.ts")).newCommand(file, o)),
    );

  verb(
    "check",
    "read a plan: its faults with their places, or what was assumed and what its day shows",
    "lentic check plan.yaml --assumed",
  )
    .argument("<file>", planFile)
    .option("--assumed", "list every assumed value with its reason")
    .option("--fix-format", "rewrite the file in the stable layout, comments kept")
    .addOption(json("faults, or notes, assumptions and findings, as JSON"))
    .addOption(units())
    .addOption(failOn())
    .action(async (file: string, o: CheckOptions) => done((await import("./commands/check.ts")).checkCommand(file, o)));

  verb(
    "day",
    "the repeating day: CO2, oxygen, pH and temperature over 24 hours, findings and remedies",
    'lentic day plan.yaml --alternative "earlier valve"',
  )
    .argument("<file>", planFile)
    .option("--alternative <name>", "the day of a named alternative")
    .option("--working <figure>", "how a figure came about, such as co2-at-lights-on")
    .option("--at <time>", "time of day of the figures that are told for now, such as 13:00")
    .option("--grid <minutes>", "minutes between the points of the curves, 5 when left out")
    .option("--ascii", "plain characters only")
    .addOption(json("the whole report as JSON").conflicts("csv"))
    .option("--csv", "the curves as CSV")
    .option("--rough-light", "light by a rule of thumb instead of following it through the scape: quicker, coarser")
    .addOption(units())
    .addOption(failOn())
    .action(async (file: string, o: DayOptions) => done((await import("./commands/day.ts")).dayCommand(file, o)));

  verb(
    "compare",
    "a plan beside its alternatives: what each day comes to, and what was changed",
    'lentic compare plan.yaml "earlier valve"',
  )
    .argument("<file>", planFile)
    .argument("[names...]", "alternatives of the plan; all when left out")
    .addOption(json("figures and changes as JSON"))
    .addOption(units())
    .action(async (file: string, names: string[], o: CompareOptions) =>
      done((await import("./commands/compare.ts")).compareCommand(file, names, o)),
    );

  verb("volumes", "how much water is really in it, and how heavy it is", "lentic volumes plan.yaml --units us")
    .argument("<file>", planFile)
    .addOption(json("volumes and masses as JSON"))
    .addOption(units())
    .action(async (file: string, o: VolumesOptions) =>
      done((await import("./commands/volumes.ts")).volumesCommand(file, o)),
    );

  verb(
    "lay",
    "begin the scape from a form: bed, stones, wood and plants for this tank",
    "lentic lay plan.yaml --form valley --seed 3 --write",
  )
    .argument("<file>", planFile)
    .option("--form <name>", "island, mound, valley, triangle, street or bank")
    .option("--seed <number>", "another number gives another layout of the form", "1")
    .option("--stone <material>", "rock to use")
    .option("--wood <material>", "wood to use")
    .option("--write", "into the file; on standard output when left out")
    .addOption(json("changes and what to buy as JSON"))
    .action(async (file: string, o: LayOptions) => done((await import("./commands/lay.ts")).layCommand(file, o)));

  verb(
    "bill",
    "what to buy for the scape, with amounts and prices, and what in it does not hold",
    "lentic bill plan.yaml --csv > bill.csv",
  )
    .argument("<file>", planFile)
    .option("--alternative <name>", "of a named alternative")
    .addOption(json("items, total and findings as JSON").conflicts("csv"))
    .option("--csv", "the items as CSV")
    .addOption(units())
    .action(async (file: string, o: BillOptions) => done((await import("./commands/bill.ts")).billCommand(file, o)));

  verb(
    "light",
    "where the lamps' light goes: on the ground, on each planting, and the rest",
    "lentic light plan.yaml --svg map.svg",
  )
    .argument("<file>", planFile)
    .option("--alternative <name>", "of a named alternative")
    .option("--photons <number>", "paths followed for each lamp", "100000")
    .option("--seed <number>", "the same seed gives the same figures", "1")
    .option("--no-leaves", "without the plants' shade")
    .option("--svg <file>", "writes the plan with lines of equal light")
    .addOption(json("everything as JSON").conflicts("csv"))
    .option("--csv", "the map on the ground as CSV")
    .addOption(units())
    .action(async (file: string, o: LightOptions) => done((await import("./commands/light.ts")).lightCommand(file, o)));

  verb(
    "grow",
    "the planted scape week by week: mass, height, cover and light of each planting, cuts, what holds it back",
    "lentic grow plan.yaml --weeks 16",
  )
    .argument("<file>", planFile)
    .option("--weeks <number>", "how far ahead, 1 to 52", "16")
    .addOption(
      new Option("--from <day>", "planting day with portions as bought, or the plan as it stands")
        .choices(["planting", "plan"])
        .default("planting"),
    )
    .option("--alternative <name>", "of a named alternative")
    .option("--seed <number>", "the same seed gives the same figures", "1")
    .addOption(json("everything as JSON").conflicts("csv"))
    .option("--csv", "a line for each week and planting")
    .addOption(units())
    .action(async (file: string, o: GrowOptions) => done((await import("./commands/grow.ts")).growCommand(file, o)));

  verb(
    "draw",
    "the scape to scale, from above or from the front; or all of it as a model",
    "lentic draw plan.yaml --view front --out front.svg",
  )
    .argument("<file>", planFile)
    .addOption(new Option("--view <view>", "from where").choices(["plan", "front"]).default("plan"))
    .option("--out <file>", "SVG file; on standard output when left out")
    .option("--width <px>", "width of the drawing", "900")
    .option("--dark", "for a dark room")
    .option("--gltf <file>", "writes the whole scape as glTF 2.0 (.glb)")
    .option("--sheet <file>", "writes the sheets to build by, to scale, each an SVG: file-1.svg, file-2.svg ...")
    .addOption(new Option("--paper <paper>", "of the sheets; letter with --units us").choices(["a4", "letter"]))
    .addOption(units())
    .option("--week <number>", "as grown in this week, from planting day")
    .addOption(
      new Option("--from <day>", "where the weeks begin: planting day, or the plan as it stands")
        .choices(["planting", "plan"])
        .default("planting"),
    )
    .option("--alternative <name>", "of a named alternative")
    .action(async (file: string, o: DrawOptions) => done((await import("./commands/draw.ts")).drawCommand(file, o)));

  verb("calc", "one relation by itself", 'lentic calc oxygen-saturation temperature="77 °F"')
    .argument("[name]", "a relation; --list names them all, or those that hold these words")
    .argument("[inputs...]", 'name=value, with its unit if you like; lists as "0, 30, 60 min"')
    .helpOption(false)
    .option("-h, --help", "inputs, units, ranges and source of the relation")
    .option("--list", "name every relation")
    .option("--room <room>", "with --list: of one room")
    .option("--input <file>", "inputs as a JSON object, - for standard input")
    .addOption(json("value, unit and source as JSON"))
    .addOption(units())
    .action(async (name: string | undefined, words: string[], o: CalcOptions, command: Command) => {
      if (name === undefined && o.help) return command.outputHelp();
      done(await (await import("./commands/calc.ts")).calcCommand(name, words, o));
    });

  verb("serve", "the web app at an address of this machine", "lentic serve --demo --open")
    .option("--port <number>", "4710 when left out, or the next that is free")
    .option("--host <address>", "beyond this machine only with LENTIC_TOKEN set", "127.0.0.1")
    .option("--data <folder>", "where tanks are kept; LENTIC_DATA when left out, or the usual place of the system")
    .option("--demo", "with the demo tank")
    .option("--open", "open it in the browser")
    .addOption(json("the address as JSON"))
    .action(async (o: ServeCommandOptions) => done(await (await import("./commands/serve.ts")).serveCommand(o)));

  verb("schema", "the JSON Schema of the plan file, for editors", "lentic schema > plan.schema.json")
    .addOption(json("as it is anyway"))
    .action(async () => done((await import("./commands/schema.ts")).schemaCommand()));

  // every verb's errors come to us
  for (const command of [lentic, ...lentic.commands]) command.exitOverride();
  return lentic;
}

/** Words for whatever went wrong, and its exit code. */
function told(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exit.fine : exit.badInput;
  if (error instanceof InputError) {
    process.stderr.write(`${error.message}\n`);
    return exit.badInput;
  }
  const words = error instanceof Error ? error.message : String(error);
  if (error instanceof Error && error.name === "RunError") {
    process.stderr.write(`The model could not be run: ${words}\n`);
    return exit.badInput;
  }
  const trace = process.env.LENTIC_DEBUG && error instanceof Error ? error.stack : words;
  process.stderr.write(`A fault of ours: ${trace}\nPlease report it with the plan; LENTIC_DEBUG=1 shows where.\n`);
  return exit.ourFault;
}

async function main(): Promise<number> {
  let code: number = exit.fine;
  try {
    await program((c) => {
      code = c;
    }).parseAsync();
  } catch (error) {
    return told(error);
  }
  return code;
}

// a reader that has seen enough, such as `head`, is no fault
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exit(error.code === "EPIPE" ? exit.fine : told(error));
});
process.stderr.on("error", () => undefined);
process.on("uncaughtException", (error) => process.exit(told(error)));

process.exitCode = await main();
