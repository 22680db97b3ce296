import { useEffect, useState } from "react";

/** How long a hand is still before words and tables follow it, ms. Design value. */
const rest = 150;

/** The value as it was when it last stood still: what a moving hand need not wait for. */
export function useRested<T>(value: T): T {
  const [rested, setRested] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setRested(value), rest);
    return () => clearTimeout(timer);
  }, [value]);
  return rested;
}
