import { co2Henry, oxygenSaturation, scaleTransfer, waterVapourPressure } from "../../gas/index.ts";
import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

const oxygenMolarMass = 31.998;

/** Gas exchange with the room through the water surface, under a lid in series with the head space's change of air. */
export const surface: Process = {
  id: "surface",
  title: "Exchange at the surface",
  about:
    "Flux = transfer velocity x area x (dissolved - in balance with the room); the velocity is scaled from its value at Schmidt number 600 with the power -1/2.",
  sources: ["benson-krause-1984", "weiss-1974", "wanninkhof-2014"],
  needs: ["temperature", "co2", "oxygen"],
  provides: ["co2AtAir", "oxygenAtAir"],
  flows: [
    { id: "surface.co2", label: "lost at the surface", of: "carbon", from: "dic", to: "room air" },
    { id: "surface.oxygen", label: "taken up at the surface", of: "oxygen", from: "room air", to: "oxygen" },
  ],
  start: ({ k600, area, pressure, room, lidAir }) => ({
    at(_t, _y, q, flow, first) {
      const t = q[Q.temperature]!;
      const kelvin = t + 273.15;
      const henry = co2Henry(t) * 1000; // mol/(m3 atm)
      const co2Air = henry * room.co2 * 1e-6 * (pressure - waterVapourPressure(t));
      const oxygenAir = oxygenSaturation(t, pressure) / oxygenMolarMass;
      q[Q.co2AtAir] = co2Air;
      q[Q.oxygenAtAir] = oxygenAir;
      let co2Rate = (scaleTransfer(k600, "co2", t) / 360000) * area; // m3/s
      let oxygenRate = (scaleTransfer(k600, "o2", t) / 360000) * area;
      if (lidAir > 0) {
        // the head space passes Q x (gas per volume of air over gas per volume of water)
        const perAir = 0.0820574e-3 * kelvin; // m3 atm/mol
        co2Rate = 1 / (1 / co2Rate + (henry * perAir) / lidAir);
        oxygenRate = 1 / (1 / oxygenRate + ((oxygenAir / (0.20946 * pressure)) * perAir) / lidAir);
      }
      flow[first] = co2Rate * (q[Q.co2]! - co2Air);
      flow[first + 1] = oxygenRate * (oxygenAir - q[Q.oxygen]!);
    },
  }),
};
