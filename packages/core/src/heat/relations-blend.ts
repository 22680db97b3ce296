import { RelationError, relation } from "../relation/index.ts";
import { hotWaterCaution } from "./cautions.ts";
import { number, output, secondsPerHour } from "./inputs.ts";
import { blendTemperature, hotShare, refillTemperature } from "./temperature-blend.ts";
import { heatCapacityOfVolume } from "./water-properties.ts";

const joulesPerKilowattHour = 1000 * secondsPerHour;

export const temperatureBlend = relation({
  id: "temperature-blend",
  title: "Temperature of mixed water",
  room: "heat",
  inputs: {
    volumes: { kind: "series", label: "volumes mixed", unit: "L", min: 0, max: 20_000, atLeast: 1 },
    temperatures: { kind: "series", label: "their temperatures", unit: "°C", min: 0, max: 95, atLeast: 1 },
  },
  outputs: { temperature: output("temperature of the mix", "°C") },
  equation: "T = sum(V T)/sum(V)",
  sources: ["energy-balance"],
  caution: hotWaterCaution,
  compute: ({ volumes, temperatures }) => {
    if (volumes.length !== temperatures.length) {
      throw new RelationError("temperature-blend", [
        { input: "temperatures", message: `needs one for each volume: ${volumes.length}` },
      ]);
    }
    if (!volumes.some((v) => v > 0)) {
      throw new RelationError("temperature-blend", [{ input: "volumes", message: "need one above 0 L" }]);
    }
    return { temperature: blendTemperature(volumes, temperatures) };
  },
});

export const refill = relation({
  id: "refill-temperature",
  title: "How warm the refill must be",
  room: "heat",
  inputs: {
    tank_temperature: number("water left in the tank", "°C", 0, 45),
    target: number("temperature wanted after the refill", "°C", 0, 45),
    fraction: number("share of the water changed", "%", 1, 100),
  },
  outputs: {
    refill: output("temperature of the refill", "°C"),
    step: output("change for the animals", "K"),
  },
  equation: "T_refill = (T - (1 - f) T_tank)/f",
  sources: ["energy-balance", "trade-practice"],
  validity: "keep the step within 1-2 °C",
  caution: hotWaterCaution,
  compute: (i) => ({
    refill: refillTemperature(i.tank_temperature, i.target, i.fraction / 100),
    step: i.target - i.tank_temperature,
  }),
});

export const hotAndCold = relation({
  id: "hot-cold-share",
  title: "Share of hot water in a mix",
  room: "heat",
  inputs: {
    hot: number("hot water", "°C", 1, 95),
    cold: number("cold water", "°C", 0, 94),
    target: number("temperature wanted", "°C", 0, 95),
  },
  outputs: { hot_share: output("hot water in the mix", "%") },
  equation: "share = (T - T_cold)/(T_hot - T_cold)",
  sources: ["energy-balance"],
  caution: hotWaterCaution,
  compute: ({ hot, cold, target }) => {
    if (!(hot > cold && target >= cold && target <= hot)) {
      throw new RelationError("hot-cold-share", [
        { input: "target", message: "must lie between the cold and the hot temperature" },
      ]);
    }
    return { hot_share: 100 * hotShare(hot, cold, target) };
  },
});

export const reheat = relation({
  id: "reheat-energy",
  title: "Energy to warm water",
  room: "heat",
  inputs: {
    volume: number("water", "L", 0.01, 20_000),
    from: number("from", "°C", 0, 95),
    to: number("to", "°C", 0, 95),
    heater: number("heater", "W", 1, 20_000, 300),
  },
  outputs: {
    energy: output("energy", "kWh"),
    time: output("time with the heater, no loss", "h"),
  },
  equation: "energy = M c (T_2 - T_1)",
  sources: ["energy-balance", "kell-1975", "popiel-1998"],
  caution: hotWaterCaution,
  compute: (i) => {
    const joules = heatCapacityOfVolume(i.volume / 1000) * (i.to - i.from);
    return { energy: joules / joulesPerKilowattHour, time: joules / i.heater / secondsPerHour };
  },
});
