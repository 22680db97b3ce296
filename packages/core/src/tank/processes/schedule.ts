import { hour, type Process } from "../process.ts";
import { Q } from "../quantities.ts";

const within = (h: number, from: number, to: number): boolean =>
  from <= to ? h >= from && h < to : h >= from || h < to;

/** Timers of gas valve and air stone. Their edges stop the integration exactly. */
export const schedule: Process = {
  id: "schedule",
  title: "Timers",
  about: "Valve and air stone switch at their times.",
  sources: [],
  needs: [],
  provides: ["valve", "airOn"],
  flows: [],
  breaks: ({ gas, air }) => [...(gas ? [gas.opens, gas.closes] : []), ...(air ? [air.on, air.off] : [])],
  start: ({ gas, air }) => {
    let valve = 0;
    let airOn = 0;
    return {
      begin(middle) {
        const h = (((middle / hour) % 24) + 24) % 24;
        valve = gas && (gas.always || within(h, gas.opens, gas.closes)) ? 1 : 0;
        airOn = air && within(h, air.on, air.off) ? 1 : 0;
      },
      at(_t, _y, q) {
        q[Q.valve] = valve;
        q[Q.airOn] = airOn;
      },
    };
  },
};
