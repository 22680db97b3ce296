import { day, hour, type Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Warmest hour of the room's day (design value: mid-afternoon, as outdoor air; the coldest is 12 h earlier). */
const warmest = 16 * hour;

/** The room's air: a cosine between its night and day temperature. */
export const room: Process = {
  id: "room",
  title: "Room",
  about: "Room temperature follows a cosine between the night's and the day's value, warmest at 16:00.",
  sources: [],
  needs: [],
  provides: ["room"],
  flows: [],
  start: ({ room: { night, day: warm } }) => {
    const mean = (night + warm) / 2;
    const swing = (warm - night) / 2;
    return {
      at(t, _y, q) {
        q[Q.room] = mean + swing * Math.cos((2 * Math.PI * (t - warmest)) / day);
      },
    };
  },
};
