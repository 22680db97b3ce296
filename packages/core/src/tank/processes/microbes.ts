import { day, type Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** First-order breakdown of waste at 20 °C, 1/d (design value inside 0.2 to 0.5 for uneaten food). */
const decay20 = 0.3;
/** Warming factor per K of breakdown. */
const theta = 1.07;
/** Half-saturation for oxygen, mol/m3 (0.2 mg/L, design value). */
const half = 0.006;

/** Bacteria in filter, bed and waste: they use oxygen, give carbon dioxide, and turn ammonia into nitrate. */
export const microbes: Process = {
  id: "microbes",
  title: "Bacteria",
  about:
    "Waste breaks down in proportion to what is there; bed and films respire per area; ammonia from the food uses two oxygen per nitrogen. All fade as oxygen runs out.",
  sources: ["pcditch", "timmons-ebeling"],
  needs: ["temperature", "oxygen", "waste"],
  provides: [],
  flows: [
    { id: "microbes.waste", label: "given off by waste", of: "carbon", from: "waste", to: "dic" },
    { id: "microbes.wasteOxygen", label: "used by waste", of: "oxygen", from: "oxygen", to: "bed" },
    { id: "microbes.bed", label: "given off by the bed", of: "carbon", from: "bed", to: "dic" },
    { id: "microbes.bedOxygen", label: "used by bed and filter", of: "oxygen", from: "oxygen", to: "bed" },
  ],
  start: ({ bedRespiration, nitrification }) => ({
    at(_t, _y, q, flow, first) {
      const warmth = theta ** (q[Q.temperature]! - 20);
      const limit = q[Q.oxygen]! / (q[Q.oxygen]! + half);
      const waste = (decay20 / day) * warmth * q[Q.waste]! * limit;
      const bed = bedRespiration * warmth * limit;
      flow[first] = waste;
      flow[first + 1] = waste;
      flow[first + 2] = bed;
      flow[first + 3] = bed + nitrification * limit;
    },
  }),
};
