import { useCallback, useLayoutEffect, useRef } from "react";

/** One function for the life of a component that always does what the newest one does: for what acts, not for what is drawn. */
export function useStable<A extends readonly unknown[], R>(act: (...given: A) => R): (...given: A) => R {
  const newest = useRef(act);
  useLayoutEffect(() => {
    newest.current = act;
  });
  return useCallback((...given: A) => newest.current(...given), []);
}
