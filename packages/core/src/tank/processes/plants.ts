import {
  canopyLight,
  carbonFactor,
  molCarbonPerGram,
  photosyntheticQuotient,
  temperatureFactor,
} from "../../plants/index.ts";
import { lampClock } from "../lamps.ts";
import { day, type Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Reference carbon dioxide for the growth share shown to people, umol/L: 30 mg/L. */
const ample = 681.68;

/** Planting as fixed biomass: fixation by light, warmth and carbon; respiration day and night. */
export const plants: Process = {
  id: "plants",
  title: "Plants",
  about:
    "Per patch: fixation = greatest rate x warmth x canopy light x carbon x biomass; respiration doubles every 10 °C. Oxygen follows with the quotient for nitrate-fed growth.",
  sources: ["pcditch", "yan-hunt-1999"],
  needs: ["temperature", "co2", "bicarbonate", "oxygen"],
  provides: ["uptakeShare"],
  flows: [
    { id: "plants.fixation", label: "taken up by plants", of: "carbon", from: "dic", to: "plants" },
    { id: "plants.respiration", label: "breathed out by plants", of: "carbon", from: "plants", to: "dic" },
    { id: "plants.oxygen", label: "given by plants", of: "oxygen", from: "plants", to: "oxygen" },
    { id: "plants.breathing", label: "breathed by plants", of: "oxygen", from: "oxygen", to: "plants" },
  ],
  start: ({ patches, lamps }) => {
    const perSecond = molCarbonPerGram / day;
    const clock = lampClock(lamps);
    return {
      begin: clock.begin,
      at(time, _y, q, flow, first) {
        const t = q[Q.temperature]!;
        const shares = clock.at(time);
        const co2 = q[Q.co2]! * 1000;
        const bicarbonate = q[Q.bicarbonate]! * 1000;
        let fixed = 0;
        let ideal = 0;
        let respired = 0;
        for (const patch of patches) {
          const p = patch.parameters;
          const fT = temperatureFactor(t, p);
          let top = 0;
          for (let k = 0; k < shares.length; k += 1) top += patch.light[k]! * shares[k]!;
          if (top > 0) {
            const rate = p.muMax * fT * canopyLight(top, p, patch.biomass, fT) * patch.grams;
            fixed += rate * carbonFactor(co2, bicarbonate, top, p);
            ideal += rate * carbonFactor(ample, bicarbonate, top, p);
          }
          respired += p.respiration20 * p.q10 ** ((t - 20) / 10) * patch.grams;
        }
        q[Q.uptakeShare] = ideal > 0 ? fixed / ideal : 0;
        // without oxygen nothing respires: a smooth limit, far below what any animal bears
        const breath = respired * perSecond * (q[Q.oxygen]! / (q[Q.oxygen]! + 0.003));
        flow[first] = fixed * perSecond;
        flow[first + 1] = breath;
        flow[first + 2] = fixed * perSecond * photosyntheticQuotient;
        flow[first + 3] = breath;
      },
    };
  },
};
