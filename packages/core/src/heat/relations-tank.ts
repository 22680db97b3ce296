import { relation, yesNo } from "../relation/index.ts";
import { tankHeatLoss } from "./balance.ts";
import { animalsCaution, mainsCaution, stuckCaution } from "./cautions.ts";
import { chillerDuty, chillerPower, fanCooling, summerTemperature } from "./cooling.ts";
import {
  daysPerMonth,
  heaterAdvice,
  heaterEnergyPerDay,
  heaterReading,
  heaterStanding,
  stuckHeaterTemperature,
} from "./heater.ts";
import {
  humidity,
  number,
  output,
  roomTemperature,
  secondsPerDay,
  secondsPerHour,
  tankInputs,
  tankOf,
  waterTemperature,
} from "./inputs.ts";
import { vapourPressure, wetBulb } from "./moist-air.ts";
import { steadyTemperature, tankHeatCapacity, timeToTemperature } from "./steady.ts";
import { wettedShape } from "./tank.ts";
import { simpleWarmUp, warmingRate } from "./warm-up.ts";
import { heatCapacityOfVolume, waterDensity } from "./water-properties.ts";

const { cover: _cover, air_speed: _speed, ...openTankInputs } = tankInputs;
const room = { room_temperature: roomTemperature, humidity };
const gains = number("steady heat of pumps and light that reaches the water", "W", 0, 5000, 0);
const netVolume = number("water in the tank; 0 = the whole box to the water line", "L", 0, 20_000, 0);
const tariff = number("price of 1 kWh, in your money", "1", 0, 100, 0);

/** Litres per day of a rate in kg/s at a water temperature in °C. */
function litresPerDay(rate: number, water: number): number {
  return (rate * secondsPerDay * 1000) / waterDensity(water);
}

function volumeOf(litres: number): number | undefined {
  return litres > 0 ? litres / 1000 : undefined;
}

const balanceSources = ["churchill-chu-1975", "mcadams", "shah-2014", "carrier-1918", "design", "energy-balance"];

export const tankLoss = relation({
  id: "tank-heat-loss",
  title: "Where a tank's heat goes",
  room: "heat",
  inputs: { ...tankInputs, water_temperature: waterTemperature, ...room },
  outputs: {
    volume: output("water to the line, nothing else inside", "L"),
    panes: output("through the panes", "W"),
    base: output("through the bottom", "W"),
    convection: output("convection from the surface (with a lid: through the lid)", "W"),
    radiation: output("radiation from the surface", "W"),
    evaporation: output("by evaporation", "W"),
    total: output("whole loss", "W"),
    per_litre: output("loss per litre", "W/L"),
    evaporation_per_day: output("water lost", "L/d"),
    with_lid: output("whole loss under a lid", "W"),
  },
  equation:
    "sum of U A (T - T_a) over panes and bottom + h_c A (T - T_a) + e s A (T^4 - T_r^4) + E A h_fg; lid: 4.5 A (T - T_a) instead of the surface",
  sources: balanceSources,
  validity:
    "inside wetted areas, room walls at air temperature; other sound formulas differ by up to 20 %, a lid by 30 %",
  compute: (i) => {
    const tank = tankOf("tank-heat-loss", i);
    const loss = tankHeatLoss(tank, i.water_temperature, i.room_temperature, i.humidity / 100);
    const covered = tankHeatLoss({ ...tank, cover: "lid" }, i.water_temperature, i.room_temperature, i.humidity / 100);
    const volume = wettedShape(tank).volume * 1000;
    return {
      volume,
      panes: loss.panes,
      base: loss.base,
      convection: loss.convection,
      radiation: loss.radiation,
      evaporation: loss.evaporation,
      total: loss.total,
      per_litre: loss.total / volume,
      evaporation_per_day: litresPerDay(loss.evaporationRate, i.water_temperature),
      with_lid: covered.total,
    };
  },
});

export const evaporation = relation({
  id: "evaporation",
  title: "Water lost by evaporation",
  room: "heat",
  inputs: { ...tankInputs, water_temperature: waterTemperature, ...room },
  outputs: {
    per_day: output("water lost", "L/d"),
    level_drop: output("fall of the water line", "mm/d"),
    share: output("of the tank's water per day", "%"),
    moisture: output("moisture given to the room", "g/h"),
    heat: output("heat taken", "W"),
  },
  equation:
    "still room: max(natural-convection analogy, 5e-5 dp); with a fan: dp (0.089 + 0.0782 V)/Y; under a lid 5 % of the still rate",
  sources: ["mcadams", "shah-2014", "carrier-1918", "trade-practice", "design"],
  validity: "formulas differ by a factor of 2: compare with one measured top-up and set the evaporation factor",
  compute: (i) => {
    const tank = tankOf("evaporation", i);
    const loss = tankHeatLoss(tank, i.water_temperature, i.room_temperature, i.humidity / 100);
    const shape = wettedShape(tank);
    const perDay = litresPerDay(loss.evaporationRate, i.water_temperature);
    return {
      per_day: perDay,
      level_drop: perDay / shape.planArea,
      share: (100 * perDay) / (shape.volume * 1000),
      moisture: loss.evaporationRate * 1000 * secondsPerHour,
      heat: loss.evaporation,
    };
  },
});

export const heaterNeed = relation({
  id: "heater-need",
  title: "What heater?",
  room: "heat",
  inputs: {
    ...tankInputs,
    water_temperature: number("temperature to hold", "°C", 1, 45),
    room_temperature: number("coldest room temperature", "°C", 0, 45),
    humidity,
    gains,
  },
  outputs: {
    loss: output("loss at the coldest state", "W"),
    need: output("heat the heater must give", "W"),
    rating_low: output("rating, at least", "W"),
    rating_high: output("rating, usual upper end", "W"),
    each_of_two_low: output("or two heaters, each at least", "W"),
    each_of_two_high: output("or two heaters, each at most", "W"),
    watt_per_litre_rule: output("the trade's 1 W per litre, for comparison", "W"),
  },
  equation:
    "need = loss at the coldest state - gains; rating = 1.3 to 1.5 times the need; each of two = 60-75 % of one",
  sources: [...balanceSources, "trade-practice"],
  validity: "need within about 25 %; take the night temperature of the room and no heat of the light",
  caution: mainsCaution,
  compute: (i) => {
    const tank = tankOf("heater-need", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    const advice = heaterAdvice(tank, i.water_temperature, air, i.gains);
    return {
      loss: tankHeatLoss(tank, i.water_temperature, air.temperature, air.humidity).total,
      need: advice.need,
      rating_low: advice.rating.low,
      rating_high: advice.rating.high,
      each_of_two_low: advice.eachOfTwo.low,
      each_of_two_high: advice.eachOfTwo.high,
      watt_per_litre_rule: advice.wattPerLitre,
    };
  },
});

export const heaterDuty = relation({
  id: "heater-duty",
  title: "How long a heater runs, and what it costs",
  room: "heat",
  inputs: {
    ...tankInputs,
    water_temperature: number("temperature to hold", "°C", 1, 45),
    ...room,
    gains,
    rating: number("rating of all heaters together", "W", 1, 10_000),
    tariff,
  },
  outputs: {
    need: output("heat the heater must give", "W"),
    duty: output("share of the time on", "%"),
    undersized: yesNo("whether the rating is below 1.3 times the need"),
    shortfall: output("heat missing when always on", "W"),
    energy_per_day: output("energy", "kWh/d"),
    cost_per_month: output("cost in 30.4 days, in your money", "1"),
  },
  equation: "duty = need/rating, at most 1; energy = duty x rating x 24 h",
  sources: [...balanceSources, "trade-practice"],
  caution: mainsCaution,
  compute: (i) => {
    const tank = tankOf("heater-duty", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    const { need } = heaterAdvice(tank, i.water_temperature, air, i.gains);
    const standing = heaterStanding(i.rating, need);
    const energy = heaterEnergyPerDay(standing.duty * i.rating);
    return {
      need,
      duty: 100 * standing.duty,
      undersized: standing.undersized ? 1 : 0,
      shortfall: standing.shortfall,
      energy_per_day: energy,
      cost_per_month: energy * daysPerMonth * i.tariff,
    };
  },
});

export const heaterReadingRelation = relation({
  id: "heater-reading",
  title: "What a watched heater tells",
  room: "heat",
  inputs: {
    rating: number("rating of the heater", "W", 1, 10_000),
    duty: number("share of the time seen on", "%", 0, 100),
    difference: number("water less room", "K", 0.1, 40),
    tariff,
  },
  outputs: {
    mean_heat: output("mean heat (a least value at 100 %)", "W"),
    per_kelvin: output("heat per kelvin above the room", "W/K"),
    undersized: yesNo("whether the rating is below 1.3 times the heat seen"),
    energy_per_day: output("energy", "kWh/d"),
    energy_per_year: output("energy in 365 days", "kWh"),
    cost_per_month: output("cost in 30.4 days, in your money", "1"),
  },
  equation: "mean heat = rating x duty; per kelvin = mean heat / (water - room)",
  sources: ["energy-balance", "trade-practice"],
  validity: "heat of pumps and light comes on top of what is seen",
  caution: mainsCaution,
  compute: (i) => {
    const reading = heaterReading(i.rating, i.duty / 100, i.difference);
    const energy = heaterEnergyPerDay(reading.meanHeat);
    return {
      mean_heat: reading.meanHeat,
      per_kelvin: reading.perKelvin,
      undersized: reading.undersized ? 1 : 0,
      energy_per_day: energy,
      energy_per_year: energy * 365,
      cost_per_month: energy * daysPerMonth * i.tariff,
    };
  },
});

export const stuckHeater = relation({
  id: "stuck-heater",
  title: "If the heater sticks on: how hot, how soon?",
  room: "heat",
  inputs: {
    ...tankInputs,
    ...room,
    rating: number("rating of the heater that sticks", "W", 1, 10_000),
    gains,
    start: number("water temperature at the start", "°C", 1, 40, 25),
    alarm: number("temperature that harms", "°C", 20, 60, 32),
    net_volume: netVolume,
  },
  outputs: {
    steady_temperature: output("temperature it ends at (100 = boiling)", "°C"),
    first_rate: output("rise at the start", "K/h"),
    hours_to_alarm: output("time to the harmful temperature", "h"),
  },
  equation: "loss(T) = rating + gains; time = integral of heat capacity over net power",
  sources: balanceSources,
  validity: "within about 2 °C for an open tank; a lid is uncertain by 30 % of its part",
  caution: stuckCaution,
  compute: (i) => {
    const tank = tankOf("stuck-heater", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    const heat = i.rating + i.gains;
    const volume = volumeOf(i.net_volume);
    const net = heat - tankHeatLoss(tank, i.start, air.temperature, air.humidity).total;
    return {
      steady_temperature: stuckHeaterTemperature(tank, i.rating, air, i.gains),
      first_rate: warmingRate(tankHeatCapacity(tank, volume), net) * secondsPerHour,
      hours_to_alarm:
        i.start >= i.alarm ? 0 : timeToTemperature(tank, heat, air, i.start, i.alarm, volume) / secondsPerHour,
    };
  },
});

export const warmUp = relation({
  id: "warm-up",
  title: "How long to warm a tank",
  room: "heat",
  inputs: {
    ...tankInputs,
    ...room,
    heat: number("heater and other steady heat", "W", 0, 10_000),
    start: number("water temperature at the start", "°C", 1, 45),
    target: number("temperature wanted", "°C", 1, 45),
    net_volume: netVolume,
  },
  outputs: {
    time: output("time to the target", "h"),
    steady_temperature: output("temperature it would end at", "°C"),
  },
  equation: "time = integral of heat capacity over (heat - loss(T)), with the whole balance",
  sources: balanceSources,
  validity: "glass, gravel and stones hold a little heat more; 5-10 %",
  caution: mainsCaution,
  compute: (i) => {
    const tank = tankOf("warm-up", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    return {
      time: timeToTemperature(tank, i.heat, air, i.start, i.target, volumeOf(i.net_volume)) / secondsPerHour,
      steady_temperature: steadyTemperature(tank, i.heat, air),
    };
  },
});

const volumeInput = number("water", "L", 0.1, 20_000);

export const warmUpSimple = relation({
  id: "warm-up-simple",
  title: "Warming or cooling with a known loss per kelvin",
  room: "heat",
  inputs: {
    volume: volumeInput,
    conductance: number("loss per kelvin above the room", "W/K", 0.01, 5000),
    heat: number("heater and other steady heat; 0 for a power cut", "W", 0, 20_000),
    room_temperature: roomTemperature,
    start: number("water temperature at the start", "°C", 0, 60),
    target: number("temperature asked for", "°C", 0, 60),
  },
  outputs: {
    time_constant: output("time constant", "h"),
    limit: output("temperature it tends to", "°C"),
    time: output("time to the temperature asked for", "h"),
  },
  equation: "t = -(M c/UA) ln[(T_end - T)/(T_end - T_0)], T_end = T_room + P/UA",
  sources: ["energy-balance", "kell-1975", "popiel-1998"],
  caution: animalsCaution,
  compute: (i) => {
    const capacity = heatCapacityOfVolume(i.volume / 1000);
    const result = simpleWarmUp(capacity, i.conductance, i.heat, i.room_temperature, i.start, i.target);
    return {
      time_constant: result.timeConstant / secondsPerHour,
      limit: result.limit,
      time: result.time / secondsPerHour,
    };
  },
});

export const warmingRateRelation = relation({
  id: "warming-rate",
  title: "Rise per hour from a heater, without loss",
  room: "heat",
  inputs: { volume: volumeInput, heat: number("heater", "W", 0, 20_000) },
  outputs: { rate: output("rise", "K/h") },
  equation: "dT/dt = P/(M c)",
  sources: ["energy-balance", "kell-1975", "popiel-1998"],
  caution: mainsCaution,
  compute: (i) => ({ rate: warmingRate(heatCapacityOfVolume(i.volume / 1000), i.heat) * secondsPerHour }),
});

export const powerCut = relation({
  id: "power-cut",
  title: "How long a tank stays warm without power",
  room: "heat",
  inputs: {
    ...tankInputs,
    ...room,
    start: number("water temperature when the power goes", "°C", 1, 45),
    limit: number("lowest temperature allowed", "°C", 1, 45),
    net_volume: netVolume,
  },
  outputs: {
    time: output("time to the lowest temperature", "h"),
    first_rate: output("change at the start", "K/h"),
    steady_temperature: output("temperature it would end at", "°C"),
  },
  equation: "time = integral of heat capacity over loss(T), no heat going in",
  sources: balanceSources,
  validity: "the room is taken to hold its temperature, which it will not in a long winter cut",
  caution:
    "Without power the filter stops too: oxygen usually runs out before warmth. Stir or aerate by hand or battery, and do not feed.",
  compute: (i) => {
    const tank = tankOf("power-cut", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    const volume = volumeOf(i.net_volume);
    const loss = tankHeatLoss(tank, i.start, air.temperature, air.humidity).total;
    return {
      time: i.limit >= i.start ? 0 : timeToTemperature(tank, 0, air, i.start, i.limit, volume) / secondsPerHour,
      first_rate: warmingRate(tankHeatCapacity(tank, volume), -loss) * secondsPerHour,
      steady_temperature: steadyTemperature(tank, 0, air),
    };
  },
});

export const summer = relation({
  id: "summer-temperature",
  title: "How warm a tank gets without a heater",
  room: "heat",
  inputs: { ...tankInputs, ...room, gains },
  outputs: {
    steady_temperature: output("temperature it settles at", "°C"),
    wet_bulb: output("wet-bulb temperature of the room, the limit of evaporation", "°C"),
  },
  equation: "loss(T) = gains of pump and light",
  sources: balanceSources,
  validity: "within about 1 °C; half a day to settle",
  caution: animalsCaution,
  compute: (i) => {
    const tank = tankOf("summer-temperature", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    return {
      steady_temperature: summerTemperature(tank, i.gains, air),
      wet_bulb: wetBulb(air.temperature, vapourPressure(air.temperature, air.humidity), i.pressure),
    };
  },
});

export const fan = relation({
  id: "fan-cooling",
  title: "What a fan over the surface does",
  room: "heat",
  inputs: {
    ...openTankInputs,
    air_speed: number("air speed over the surface", "m/s", 0, 5),
    water_temperature: waterTemperature,
    ...room,
    gains,
  },
  outputs: {
    loss: output("heat leaving at this temperature (negative: the room warms the water)", "W"),
    evaporation_per_day: output("water lost", "L/d"),
    steady_temperature: output("temperature it settles at", "°C"),
    wet_bulb: output("wet-bulb temperature: no fan cools below it", "°C"),
  },
  equation: "E = dp (0.089 + 0.0782 V)/Y; convection by the Lewis analogy",
  sources: ["carrier-1918", "lewis-analogy", "churchill-chu-1975", "design"],
  validity: "open top; V 0 is a still room; moist rooms gain little",
  caution: `${animalsCaution} ${mainsCaution}`,
  compute: (i) => {
    const tank = tankOf("fan-cooling", { ...i, cover: "open" });
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    const blown = fanCooling(tank, i.air_speed, i.water_temperature, air);
    return {
      loss: blown.loss,
      evaporation_per_day: litresPerDay(blown.evaporationRate, i.water_temperature),
      steady_temperature: steadyTemperature(tank, i.gains, air),
      wet_bulb: blown.wetBulb,
    };
  },
});

export const chiller = relation({
  id: "chiller-duty",
  title: "What a chiller must take out",
  room: "heat",
  inputs: {
    ...tankInputs,
    water_temperature: number("temperature to hold", "°C", 1, 40),
    ...room,
    gains,
    performance: number("coefficient of performance", "1", 0.5, 8, 2.5),
  },
  outputs: {
    duty: output("heat to take out", "W"),
    electrical: output("electrical power", "W"),
    to_room: output("heat given to the room", "W"),
  },
  equation: "duty = gains - loss(T); electrical = duty/COP; the room gets both",
  sources: [...balanceSources, "trade-practice"],
  validity: "steady state; choose a rating above the duty, and let the warm air out",
  caution: mainsCaution,
  compute: (i) => {
    const tank = tankOf("chiller-duty", i);
    const air = { temperature: i.room_temperature, humidity: i.humidity / 100 };
    const duty = chillerDuty(tank, i.water_temperature, i.gains, air);
    const electrical = chillerPower(duty, i.performance);
    return { duty, electrical, to_room: duty + electrical };
  },
});
