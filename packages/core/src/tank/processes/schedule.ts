import { hour, type Process } from "../process.ts";
import { Q } from "../quantities.ts";

const within = (h: number, from: number, to: number): boolean =>
  from <= to ? h >= from && h < to : h >= from || h < to;

/** Timers: lamp with its ramp, gas valve, air stone. Edges stop the integration exactly. */
export const schedule: Process = {
  id: "schedule",
  title: "Timers",
  about: "The lamp rises and falls in a straight line over its ramp; valve and air stone switch at their times.",
  sources: [],
  needs: [],
  provides: ["lamp", "lit", "valve", "airOn"],
  flows: [],
  breaks: ({ lamp, gas, air }) => [
    ...(lamp ? [lamp.on, lamp.on + lamp.ramp, lamp.off - lamp.ramp, lamp.off] : []),
    ...(gas ? [gas.opens, gas.closes] : []),
    ...(air ? [air.on, air.off] : []),
  ],
  start: ({ lamp, gas, air }) => {
    let lit = 0;
    let valve = 0;
    let airOn = 0;
    let lampOn = 0;
    let lampOff = 0;
    return {
      begin(middle) {
        const h = (((middle / hour) % 24) + 24) % 24;
        lit = lamp && within(h, lamp.on, lamp.off) ? 1 : 0;
        valve = gas && (gas.always || within(h, gas.opens, gas.closes)) ? 1 : 0;
        airOn = air && within(h, air.on, air.off) ? 1 : 0;
        if (lamp) {
          lampOn = middle - ((h - lamp.on + 24) % 24) * hour;
          lampOff = middle + ((lamp.off - h + 24) % 24) * hour;
        }
      },
      at(t, _y, q) {
        q[Q.lit] = lit;
        q[Q.valve] = valve;
        q[Q.airOn] = airOn;
        if (!lamp || lit === 0) {
          q[Q.lamp] = 0;
          return;
        }
        const ramp = lamp.ramp * hour;
        const rising = ramp > 0 ? (t - lampOn) / ramp : 1;
        const falling = ramp > 0 ? (lampOff - t) / ramp : 1;
        q[Q.lamp] = lamp.strength * Math.max(0, Math.min(1, rising, falling));
      },
    };
  },
};
