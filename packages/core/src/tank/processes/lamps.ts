import { lampClock, lampEdges } from "../lamps.ts";
import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** All lamps: their strength through the day, the light that they give on the carpet and the heat that they bring. */
export const lamps: Process = {
  id: "lamps",
  title: "Lamps",
  about:
    "Each lamp rises and falls in straight lines between its times; light and heat of all of them add up. What each gives at full was followed through the tank before.",
  sources: [],
  needs: [],
  provides: ["lamp", "lit", "light", "lampHeat"],
  flows: [],
  breaks: ({ lamps }) => lampEdges(lamps),
  start: ({ lamps }) => {
    const clock = lampClock(lamps);
    const most = lamps.reduce((sum, lamp) => sum + lamp.meter, 0);
    return {
      begin: clock.begin,
      at(t, _y, q) {
        const shares = clock.at(t);
        let light = 0;
        let heat = 0;
        for (let k = 0; k < lamps.length; k += 1) {
          light += lamps[k]!.meter * shares[k]!;
          heat += lamps[k]!.heat * shares[k]!;
        }
        q[Q.lit] = clock.lit() ? 1 : 0;
        q[Q.light] = light;
        q[Q.lamp] = most > 0 ? light / most : 0;
        q[Q.lampHeat] = heat;
      },
    };
  },
};
