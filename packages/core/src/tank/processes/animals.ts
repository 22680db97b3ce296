import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Carbon dioxide breathed out per oxygen breathed in, mol/mol (protein-rich food: 0.8 to 0.9). */
const respiratoryQuotient = 0.85;

/** Activity while the lamp is on, against rest in the dark (design value between routine 1.0 and fed or active 1.7). */
const activity = 1.4;

/** Animals' breathing, tabled over temperature for the stock as it is. */
export const animals: Process = {
  id: "animals",
  title: "Animals",
  about:
    "Oxygen use by species and mass, rising with temperature and, while the lamp is on, with activity; carbon dioxide given in proportion.",
  sources: ["clarke-johnston-1999"],
  needs: ["temperature", "oxygen", "lit"],
  provides: [],
  flows: [
    { id: "animals.breathing", label: "breathed by animals", of: "oxygen", from: "oxygen", to: "animals" },
    { id: "animals.respiration", label: "breathed out by animals", of: "carbon", from: "animals", to: "dic" },
  ],
  start: ({ stock, stockFactor }) =>
    stock && {
      at(_t, _y, q, flow, first) {
        const limit = q[Q.oxygen]! / (q[Q.oxygen]! + 0.006);
        const use = stockFactor * stock.oxygenUse(q[Q.temperature]!) * (q[Q.lit]! > 0 ? activity : 1) * limit;
        flow[first] = use;
        flow[first + 1] = use * respiratoryQuotient;
      },
    },
};
