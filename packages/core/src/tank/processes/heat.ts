import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Width of the thermostat's change-over, K: the heater's duty is averaged over its cycles, so it is smooth (design value). */
const band = 0.05;

/** Heater, lamp and pump warm the water; panes, base, surface and evaporation cool it. */
export const heat: Process = {
  id: "heat",
  title: "Heat",
  about:
    "Heater duty falls from 1 to 0 around the set point; the lamp's and pump's shares of electric power warm the water; panes (convection, radiation, conduction), base, surface convection and radiation, and evaporation carry heat off.",
  sources: ["churchill-chu-1975", "ashrae-fundamentals"],
  needs: ["temperature", "room", "lampHeat", "waterMass"],
  provides: ["heaterDuty"],
  flows: [
    { id: "heat.heater", label: "heater", of: "heat", from: "mains", to: "heat" },
    { id: "heat.lamp", label: "lamp", of: "heat", from: "mains", to: "heat" },
    { id: "heat.pump", label: "pump", of: "heat", from: "mains", to: "heat" },
    { id: "heat.panes", label: "through the panes", of: "heat", from: "heat", to: "room air" },
    { id: "heat.base", label: "through the base", of: "heat", from: "heat", to: "room air" },
    { id: "heat.convection", label: "off the surface, by air", of: "heat", from: "heat", to: "room air" },
    { id: "heat.radiation", label: "off the surface, by radiation", of: "heat", from: "heat", to: "room air" },
    { id: "heat.evaporation", label: "by evaporation", of: "heat", from: "heat", to: "room air" },
    { id: "water.evaporation", label: "evaporated", of: "water", from: "water", to: "room air" },
    { id: "water.topUp", label: "topped up by day", of: "water", from: "top-up", to: "water" },
    { id: "heat.topUp", label: "with the water topped up by day", of: "heat", from: "top-up", to: "heat" },
    { id: "heat.vapour", label: "carried off warm by the vapour", of: "heat", from: "heat", to: "room air" },
  ],
  start: ({ heater, pumpHeat, heatBalance, room, heatCapacity, lossFactor, waterMass }) => {
    const losses = new Float64Array(5);
    return {
      at(_t, _y, q, flow, first) {
        const t = q[Q.temperature]!;
        const duty = heater ? (heater.stuck ? 1 : 1 / (1 + Math.exp((t - heater.set) / band))) : 0;
        q[Q.heaterDuty] = duty;
        flow[first] = heater ? duty * heater.power : 0;
        flow[first + 1] = q[Q.lampHeat]!;
        flow[first + 2] = pumpHeat;
        const vapour = heatBalance.losses(t, q[Q.room]!, room.humidity, losses) * lossFactor;
        for (let i = 0; i < 5; i += 1) flow[first + 3 + i] = losses[i]! * lossFactor;
        flow[first + 8] = vapour;
        // a small tank that would dry out within the day is topped up before a quarter has gone
        const gone = 1 - q[Q.waterMass]! / waterMass;
        const topUp = vapour * Math.max(0, Math.min(1, (gone - 0.15) / 0.1));
        flow[first + 9] = topUp;
        flow[first + 10] = topUp * heatCapacity * q[Q.room]!;
        flow[first + 11] = vapour * heatCapacity * t;
      },
    };
  },
};
