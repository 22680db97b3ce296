import { Command, CommanderError, Option } from "commander";
import type { CalcOptions } from "./commands/calc.ts";
import type { CheckOptions } from "./commands/check.ts";
import type { CompareOptions, DayOptions } from "./commands/day.ts";
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

/** Runs one verb and sets the exit code; the verb's code is loaded only when it is asked for. */
function program(done: (code: number) => void): Command {
  const lentic = new Command("lentic")
    .description("Works out a planted aquarium: its water, its day, what to change, and why.")
    .version(__VERSION__)
    .showHelpAfterError("(lentic --help tells more)")
    .exitOverride();

  lentic
    .command("new")
    .argument("[file]", "where to write the plan; standard output when left out")
    .description(
      'start a plan, by questions in a terminal or from flags: lentic new plan.yaml --length "90 cm" --width "45 cm" --height "45 cm"',
    )
    .option("--example <id>", "write an example instead, such as quarry-bank")
    .option("--name <name>")
    .option("--length <quantity>", "outside, with unit")
    .option("--width <quantity>")
    .option("--height <quantity>")
    .option("--kh <quantity>", "such as 4 dKH")
    .option("--gh <quantity>")
    .option("--light <power>", "power of the lamp, such as 40 W")
    .option("--gas", "CO2 is added")
    .option("--no-gas", "no CO2 is added")
    .option("--heater <power>")
    .option("--filter <flow>", "flow on the label, such as 600 L/h")
    .option("--force", "write over a file that is there")
    .action(async (file: string | undefined, o: NewOptions) =>
      done(await (await import("./commands/new.ts")).newCommand(file, o)),
    );

  lentic
    .command("check")
    .argument("<file>", "plan file, - for standard input")
    .description(
      "read a plan: its faults with their places, what was assumed, what its day shows: lentic check plan.yaml --assumed",
    )
    .option("--assumed", "list every assumed value with its reason")
    .option("--fix-format", "rewrite the file in the stable layout")
    .option("--json")
    .addOption(units())
    .addOption(failOn())
    .action(async (file: string, o: CheckOptions) => done((await import("./commands/check.ts")).checkCommand(file, o)));

  lentic
    .command("day")
    .argument("<file>", "plan file, - for standard input")
    .description("the day: CO2, oxygen, pH and temperature over 24 hours, findings and remedies: lentic day plan.yaml")
    .option("--alternative <name>", "the day of a named alternative")
    .option("--working <figure>", "how a figure came about, such as co2-at-lights-on")
    .option("--ascii", "draw with plain characters")
    .option("--json")
    .option("--csv", "the curves, a row for every five minutes")
    .addOption(units())
    .addOption(failOn())
    .action(async (file: string, o: DayOptions) => done((await import("./commands/day.ts")).dayCommand(file, o)));

  lentic
    .command("compare")
    .argument("<file>", "plan file, - for standard input")
    .argument("[names...]", "alternatives of the plan; all when left out")
    .description('a plan beside its alternatives: lentic compare plan.yaml "earlier valve"')
    .option("--json")
    .addOption(units())
    .action(async (file: string, names: string[], o: CompareOptions) =>
      done((await import("./commands/day.ts")).compareCommand(file, names, o)),
    );

  lentic
    .command("volumes")
    .argument("<file>", "plan file, - for standard input")
    .description("how much water is really in it, and how heavy it is: lentic volumes plan.yaml")
    .option("--json")
    .addOption(units())
    .action(async (file: string, o: VolumesOptions) =>
      done((await import("./commands/volumes.ts")).volumesCommand(file, o)),
    );

  lentic
    .command("calc")
    .argument("[name]", "a relation; --list names them all")
    .argument("[inputs...]", 'name=value, with unit if you like: temperature="77 °F"')
    .description('one relation by itself: lentic calc oxygen-saturation temperature="25 °C"')
    .helpOption(false)
    .option("-h, --help", "inputs, units, ranges and source of the relation")
    .option("--list", "name every relation")
    .option("--room <room>", "with --list: of one room")
    .option("--input <file>", "inputs as JSON, - for standard input")
    .option("--json")
    .action(async (name: string | undefined, words: string[], o: CalcOptions, command: Command) => {
      if (name === undefined && o.help) return command.outputHelp();
      done((await import("./commands/calc.ts")).calcCommand(name, words, o));
    });

  lentic
    .command("serve")
    .description("the web app at an address of this machine: lentic serve --demo")
    .option("--port <number>", "default 4710, or the next that is free")
    .option("--host <address>", "beyond this machine only with LENTIC_TOKEN set", "127.0.0.1")
    .option("--data <folder>", "where tanks are kept")
    .option("--demo", "with the demo tank")
    .option("--open", "open it in the browser")
    .action(async (o: ServeCommandOptions) => done(await (await import("./commands/serve.ts")).serveCommand(o)));

  lentic
    .command("schema")
    .description("the JSON Schema of the plan file, for editors")
    .action(async () => {
      const { jsonSchema } = await import("@lentic/core/plan");
      process.stdout.write(`${JSON.stringify(jsonSchema(), null, 2)}\n`);
      done(exit.fine);
    });

  for (const command of lentic.commands) command.exitOverride();
  return lentic;
}

async function main(): Promise<number> {
  let code: number = exit.fine;
  try {
    await program((c) => {
      code = c;
    }).parseAsync();
  } catch (error) {
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
    process.stderr.write(
      `A fault of ours: ${process.env.LENTIC_DEBUG && error instanceof Error ? error.stack : words}\nPlease report it with the plan; LENTIC_DEBUG=1 shows where.\n`,
    );
    return exit.ourFault;
  }
  return code;
}

// a reader that has seen enough, such as `head`, is no fault
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(exit.fine);
  throw error;
});

process.exitCode = await main();
