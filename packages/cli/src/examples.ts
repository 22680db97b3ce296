import longHighLight from "../../../examples/long-high-light.yaml";
import minimal from "../../../examples/minimal.yaml";
import quarryBank from "../../../examples/quarry-bank.yaml";
import smallNoGas from "../../../examples/small-no-gas.yaml";
import usUnits from "../../../examples/us-units.yaml";

export interface ExamplePlan {
  readonly id: string;
  readonly name: string;
  readonly about: string;
  readonly text: string;
}

/** Name and first comment line of a plan's text. */
function described(id: string, text: string): ExamplePlan {
  const name = /^name:\s*(.+?)\s*(#.*)?$/m.exec(text)?.[1] ?? id;
  const about = /^#\s*(.+)$/m.exec(text)?.[1] ?? "";
  return { id, name: name.replace(/^["']|["']$/g, ""), about, text };
}

/** Plans to begin from, part of the program itself. */
export const examples: readonly ExamplePlan[] = [
  described("quarry-bank", quarryBank),
  described("small-no-gas", smallNoGas),
  described("long-high-light", longHighLight),
  described("us-units", usUnits),
  described("minimal", minimal),
];
