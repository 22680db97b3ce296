import type { Process } from "../process.ts";
import { Q } from "../quantities.ts";

/** Injected gas: bubbles counted, their mass, and the part that dissolves on the way up. */
export const injection: Process = {
  id: "injection",
  title: "Injected gas",
  about:
    "While the valve is open: bubbles per second x mass of a bubble; the diffuser's share dissolves, the rest leaves for the room.",
  sources: [],
  needs: ["valve"],
  provides: [],
  flows: [
    { id: "injection.dissolved", label: "dissolved by the diffuser", of: "carbon", from: "cylinder", to: "dic" },
    { id: "injection.escaped", label: "risen undissolved", of: "carbon", from: "cylinder", to: "room air" },
  ],
  start: ({ gas }) =>
    gas && {
      at(_t, _y, q, flow, first) {
        const open = q[Q.valve]!;
        flow[first] = open * gas.rate * gas.dissolved;
        flow[first + 1] = open * gas.rate * (1 - gas.dissolved);
      },
    },
};
