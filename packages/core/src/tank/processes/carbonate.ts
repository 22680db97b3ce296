import { createCarbonateLoop } from "../../chemistry/index.ts";
import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Liquid water, °C, with a margin: the equilibrium constants are made for 0 to 90. */
const coldest = -5;
const hottest = 95;

/** The carbonate balance: pH and carbon dioxide from dissolved inorganic carbon and alkalinity, solved inside every rate call. */
export const carbonate: Process = {
  id: "carbonate",
  title: "Carbonate balance",
  about:
    "pH, CO2 and bicarbonate follow from dissolved inorganic carbon, alkalinity, temperature and the ions (activities and ion pairs), solved algebraically.",
  sources: ["pb82", "munhoven-2013"],
  needs: ["dic", "alkalinity", "temperature", "waterMass", "volume"],
  provides: ["co2", "bicarbonate", "ph"],
  flows: [],
  start: ({ totals, start, density }) => {
    const loop = createCarbonateLoop(totals, start.alkalinity, start.dic, start.temperature);
    return {
      at(_t, _y, q) {
        const t = q[Q.temperature]!;
        if (!(t > coldest && t < hottest)) {
          // a trial step that overshot: not a number makes the integrator take it back
          q[Q.ph] = q[Q.co2] = q[Q.bicarbonate] = Number.NaN;
          return;
        }
        q[Q.ph] = loop.solve(q[Q.alkalinity]!, Math.max(q[Q.dic]!, 1e-9), t);
        q[Q.co2] = loop.co2 * density;
        q[Q.bicarbonate] = loop.hco3 * density;
      },
    };
  },
};
