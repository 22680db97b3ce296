import { expect, test } from "vitest";
import { type Step, Steps } from "./steps.ts";

const tick = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

test("a step waits until the change before it is kept, and is not lost", async () => {
  let pending = 1;
  const taken: Step[] = [];
  const steps = new Steps(
    () => pending === 0,
    async (step) => {
      taken.push(step);
    },
  );
  steps.ask("undo");
  await tick();
  expect(taken).toEqual([]);
  pending = 0;
  await steps.go();
  expect(taken).toEqual(["undo"]);
});

test("steps asked for faster than they are answered follow one another", async () => {
  const answers: (() => void)[] = [];
  const taken: Step[] = [];
  const steps = new Steps(
    () => true,
    (step) => {
      taken.push(step);
      return new Promise((resolve) => answers.push(resolve));
    },
  );
  for (const step of ["undo", "undo", "redo"] as const) steps.ask(step);
  await tick();
  expect(taken).toEqual(["undo"]);
  answers.shift()!();
  await tick();
  expect(taken).toEqual(["undo", "undo"]);
  answers.shift()!();
  await tick();
  expect(taken).toEqual(["undo", "undo", "redo"]);
});
