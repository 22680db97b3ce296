/**
 * Checks that need more than one field. Comparisons are written so that a value that could not be read (NaN) raises no
 * second complaint.
 */
import { fieldRange } from "../geometry/index.ts";
import type { Issue } from "./issue.ts";
import { pieceNames } from "./pieces.ts";
import type { DaylightPlan, LampPlan, Path, Plan } from "./plan.ts";
import { openCharge, timed, waterDepth } from "./rules.ts";
import { bedTops, tankVolumes } from "./volumes.ts";

type Say = (path: Path, message: string, allowed: string) => void;

function millimetres(metres: number): string {
  return `${Number((metres * 1000).toPrecision(4))} mm`;
}

function clock(hours: number): string {
  const minutes = Math.round(hours * 60);
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

function checkTank({ tank }: Plan, say: Say): void {
  const narrow = Math.min(tank.length.value, tank.width.value);
  if (2 * tank.glass.value >= narrow) {
    say(
      ["tank", "glass"],
      "the walls leave no room inside",
      `less than ${millimetres(narrow / 2)}, half the tank's narrow side`,
    );
  }
  if (tank.base.value >= tank.height.value) {
    say(
      ["tank", "base"],
      "the bottom pane is as thick as the tank is high",
      `less than ${millimetres(tank.height.value)}`,
    );
  } else if (waterDepth({ tank }) <= 0) {
    const most = tank.height.value - tank.base.value;
    say(["tank", "below_rim"], "the water line lies under the bottom pane", `less than ${millimetres(most)}`);
  }
}

const cornerNames = [
  ["frontLeft", "front left"],
  ["frontRight", "front right"],
  ["backLeft", "back left"],
  ["backRight", "back right"],
] as const;

function checkSubstrate(plan: Plan, say: Say): void {
  const depth = waterDepth(plan);
  if (!(depth > 0)) return;
  const everywhere = `less than ${millimetres(depth)} everywhere, the water line above the bottom pane`;
  const whole = plan.substrate.filter((layer) => !layer.within);
  for (const [corner, name] of cornerNames) {
    let sum = 0;
    for (const layer of whole) sum += layer[corner].value;
    if (sum >= depth) {
      const message = `${name} the substrate reaches ${millimetres(sum)}, to the water line or above`;
      say(
        ["substrate"],
        message,
        `less than ${millimetres(depth)} at every corner, the water line above the bottom pane`,
      );
      return;
    }
  }
  // only a layer drawn over the floor can be highest elsewhere than in a corner
  if (!plan.substrate.some((layer) => layer.within || layer.heights)) return;
  let highest = 0;
  try {
    const top = bedTops(plan).at(-1);
    highest = top ? fieldRange(top).max : 0;
  } catch {
    return; // a depth that could not be read has its own fault
  }
  if (highest >= depth)
    say(["substrate"], `the substrate reaches ${millimetres(highest)}, to the water line or above`, everywhere);
}

function checkPlanting(plan: Plan, say: Say): void {
  const names = pieceNames(plan);
  const known = names.map((own) => own[0]!);
  names.forEach(([name], i) => {
    const first = known.indexOf(name!);
    if (first < i)
      say(["hardscape", i, "name"], `another piece is called ${name} too`, "a name of its own for each piece");
  });
  plan.plants.forEach((planting, i) => {
    if (planting.outline && planting.cover.text !== undefined) {
      say(["plants", i, "cover"], "the area of this planting is given in two ways", "outline, or cover");
    }
    if (planting.cutAt && planting.cutTo && planting.cutTo.value >= planting.cutAt.value) {
      say(["plants", i, "cut_to"], "a cut must leave less than it finds", "a height below that at which it is cut");
    }
    if (planting.on !== null && !names.some((own) => own.includes(planting.on!))) {
      const allowed = known.length > 0 ? known.join(", ") : "a piece of stone or wood in the plan";
      say(["plants", i, "on"], `no piece is called ${planting.on}`, allowed);
    }
  });
}

function checkHours(lamp: LampPlan, at: Path, say: Say): void {
  const hours = lamp.off.value - lamp.on.value;
  if (hours <= 0) {
    say([...at, "off"], "lights-off comes before lights-on", `later than ${clock(lamp.on.value)}, up to 24:00`);
  } else if (2 * lamp.ramp.value > hours) {
    const most = Math.floor(hours * 30);
    say([...at, "ramp"], "the ramps up and down are longer than the lit hours", `at most ${most} min, half of them`);
  }
}

/** Hours of a lamp, and outputs of its channels: every one by itself, or shares that make a whole. */
function checkLamp(lamp: LampPlan, at: Path, say: Say): void {
  checkHours(lamp, at, say);
  const { channels } = lamp;
  const outputs = channels.map(({ photons, lumens, power }) => Boolean(photons ?? lumens ?? power));
  const some = outputs.indexOf(true);
  if (some >= 0 && outputs.includes(false)) {
    const without = outputs.indexOf(false);
    say(
      [...at, "channels", without],
      `channel ${some + 1} has an output of its own and this one has none`,
      "photons, lumens or power of every channel, or of none and their shares of the lamp",
    );
  }
  channels.forEach(({ share }, i) => {
    if (share && some >= 0) {
      say(
        [...at, "channels", i, "share"],
        "the outputs of the channels are given in two ways",
        "shares, or outputs of their own",
      );
    }
  });
  const shares = channels.reduce((sum, { share }) => sum + (share?.value ?? 0), 0);
  const open = channels.some(({ share }) => !share);
  if (some < 0 && channels.length > 0 && (shares > 1.005 || (!open && shares < 0.995))) {
    say(
      [...at, "channels"],
      `the channels' shares add up to ${Number((100 * shares).toPrecision(3))} %`,
      open ? "at most 100 %; what is left is shared by those without one" : "100 % together",
    );
  }
}

function checkDaylight({ rise, set, at, lux, ppfd }: DaylightPlan, say: Say): void {
  if (set.value <= rise.value) {
    say(["daylight", "set"], "daylight ends before it begins", `later than ${clock(rise.value)}, up to 24:00`);
    return;
  }
  // a reading taken at the very edge of the day says nothing of its middle
  const [from, to] = [0.1, 0.9].map((part) => rise.value + part * (set.value - rise.value)) as [number, number];
  if ((lux || ppfd) && (at.value < from || at.value > to)) {
    say(
      ["daylight", "at"],
      "the reading was taken at dusk or at night, which says nothing of the day",
      `${clock(from)} to ${clock(to)}`,
    );
  }
}

function checkTimes({ light, lamps, daylight, co2, air }: Plan, say: Say): void {
  if (daylight) checkDaylight(daylight, say);
  if (light) checkLamp(light, ["light"], say);
  else if (lamps.length > 0) say(["lamps"], "there are further lamps but no first one", "the first lamp under light");
  if (light) {
    lamps.forEach((lamp, i) => {
      checkLamp(lamp, ["lamps", i], say);
    });
  }
  if (co2 && co2.closes.value <= co2.opens.value) {
    say(
      ["co2", "closes"],
      "the valve closes before it opens",
      `later than ${clock(co2.opens.value)}, up to 24:00; 00:00 to 24:00 for a valve open all day`,
    );
  }
  if (air && air.on.value === air.off.value) {
    say(["air", "off"], "the air stops when it starts", "another time than on; 00:00 to 24:00 for all day");
  }
}

function checkIons({ water }: Plan, say: Say): void {
  const { gh, calcium, magnesium } = water;
  if (calcium.value > gh.value * 1.0001 && magnesium.text === undefined) {
    say(
      ["water", "calcium"],
      "there is more calcium than the general hardness holds",
      "calcium within gh, or gh left out",
    );
  }
  if (magnesium.value > gh.value * 1.0001 && calcium.text === undefined) {
    say(
      ["water", "magnesium"],
      "there is more magnesium than the general hardness holds",
      "magnesium within gh, or gh left out",
    );
  }
}

/** Least water that can be reckoned with, m3. */
const leastWater = 0.0002;
/** Electricity over the floor, W/m2, beyond which the water would near boiling: several times the strongest tanks. */
const mostPower = 2500;

/** Whether there is room for water, and whether the equipment could be that of a tank this size. */
function checkWater(plan: Plan, say: Say): void {
  let net: number;
  let floor: number;
  try {
    ({ net, planArea: floor } = tankVolumes(plan));
  } catch {
    net = 0;
    floor = 0;
  }
  if (net < leastWater) {
    const path = plan.hardscape.length > 0 ? ["hardscape"] : ["substrate"];
    say(path, "substrate, stones and wood leave no water in the tank", "at least 0.2 L of water to the water line");
    return;
  }
  const watts = (path: Path, power: number, most: number): void => {
    if (power > most) say(path, `${power} W would boil a tank of this size`, `at most ${Math.floor(most)} W here`);
  };
  if (plan.light) watts(["light", "power"], plan.light.power.value, mostPower * floor);
  plan.lamps.forEach((lamp, i) => {
    watts(["lamps", i, "power"], lamp.power.value, mostPower * floor);
  });
  if (plan.filter) watts(["filter", "power"], plan.filter.power.value, mostPower * floor);
}

/**
 * Problems that stop a plan.
 * @param sound whether every single value could be read
 */
export function crossIssues(plan: Plan, sound: boolean): readonly Issue[] {
  const issues: Issue[] = [];
  const say: Say = (path, message, allowed) => {
    issues.push({ path, at: "value", message, allowed });
  };
  checkTank(plan, say);
  checkSubstrate(plan, say);
  checkPlanting(plan, say);
  checkTimes(plan, say);
  checkIons(plan, say);
  // materials are known and sizes sound only when nothing else is wrong
  if (issues.length === 0 && sound) checkWater(plan, say);
  return issues;
}

/** Things worth a second look that stop nothing. */
export function notes(plan: Plan): readonly Issue[] {
  const issues: Issue[] = [];
  const say: Say = (path, message, allowed) => {
    issues.push({ path, at: "value", message, allowed });
  };
  const { water, filter, light, lamps, daylight, tank, plants, animals, feeding } = plan;
  [...(light ? [light] : []), ...lamps].forEach((lamp, k) => {
    const at: Path = k === 0 ? ["light"] : ["lamps", k - 1];
    if (!timed(lamp)) return;
    const typed = (["on", "off"] as const).filter((key) => lamp[key].text !== undefined);
    if (typed.length > 0) {
      const until = typed.includes("off") ? ` and to end at ${clock(lamp.off.value)}` : "";
      say(
        [...at, typed[0]!],
        `hours stand beside a programme: it is moved to begin at ${clock(lamp.on.value)}${until}`,
        "the programme alone, or hours that are to move it",
      );
    }
    if (lamp.ramp.text !== undefined) {
      say([...at, "ramp"], "a ramp stands beside a programme, which says how the lamp rises and falls", "one of both");
    }
  });
  if (daylight?.side.value === "back" && tank.background.value !== "none") {
    say(["daylight", "side"], "the back pane is covered, so no daylight comes through it", "another side, or no cover");
  }
  if (!light && plants.length > 0) {
    say(["plants"], "the plan has plants but no lamp", "a light group; `light: {}` takes a usual lamp");
  }
  if (filter && filter.flow.value > filter.rated.value) {
    say(
      ["filter", "flow"],
      "more comes out of the filter than its label says",
      "a real flow below the rated one, as a rule",
    );
  }
  if (animals.length === 0 && feeding.food.value > 0) {
    say(["feeding", "food"], "food is given but no animals are listed", "animals, or no food");
  }
  const hardness = water.calcium.value + water.magnesium.value;
  if (Math.abs(hardness - water.gh.value) > Math.max(0.15 * water.gh.value, 0.09)) {
    say(
      ["water", "gh"],
      "calcium and magnesium together differ from the general hardness",
      "tests of the same water agree within 15 %",
    );
  }
  const open = openCharge(plan) - water.sodium.value + water.chloride.value;
  const charge = water.kh.value + water.chloride.value + water.nitrate.value + 2 * water.sulfate.value;
  if (Math.abs(open) > Math.max(0.1 * charge, 0.2)) {
    say(
      ["water"],
      `the ions given leave ${Number(Math.abs(open).toPrecision(2))} meq/L of charge open`,
      "sodium or chloride left out, which then closes the balance",
    );
  }
  return issues;
}
