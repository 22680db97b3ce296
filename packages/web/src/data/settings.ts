import type { UnitSystem } from "@lentic/core/design";
import { useSyncExternalStore } from "react";
import { load, store, texts } from "./stored.ts";

/** How this reader likes to see things; kept in this browser. */
export interface Settings {
  readonly units: UnitSystem;
  readonly theme: "paper" | "room";
}

const key = "lentic.settings";
const listeners = new Set<() => void>();

function read(): Settings {
  const saved = load(key, texts) ?? {};
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  return {
    units:
      saved.units === "us" || saved.units === "metric"
        ? saved.units
        : /^en-(US|LR)$/.test(navigator.language)
          ? "us"
          : "metric",
    theme: saved.theme === "room" || saved.theme === "paper" ? saved.theme : dark ? "room" : "paper",
  };
}

let current: Settings | null = null;

function settings(): Settings {
  current ??= read();
  return current;
}

export function set(change: Partial<Settings>): void {
  current = { ...settings(), ...change };
  store(key, current);
  applyTheme();
  for (const listener of listeners) listener();
}

export function applyTheme(): void {
  document.documentElement.dataset.theme = settings().theme;
}

export function useSettings(): Settings {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    settings,
    settings,
  );
}
