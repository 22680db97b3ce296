import { useEffect, useRef, useState } from "react";
import { loadPending } from "../data/kept.ts";
import type { TankDoor } from "../data/use-tank.ts";
import { type Step, Steps } from "./steps.ts";

/** Steps back and forward in a tank's plan, in the order in which they and the changes before them were made. */
export function useSteps(tank: string, door: TankDoor): (step: Step) => void {
  const latest = useRef(door);
  latest.current = door;
  const [steps] = useState(
    () =>
      new Steps(
        () => loadPending(tank).length === 0,
        (step) => (step === "undo" ? latest.current.undo() : latest.current.redo()),
      ),
  );
  // a change that is kept shows as a new render
  useEffect(() => {
    void steps.go();
  });
  return (step) => steps.ask(step);
}
