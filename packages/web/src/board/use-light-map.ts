import type { RawPlan } from "@lentic/core/plan";
import type { LightReport, ScapeFinding } from "@lentic/core/scape";
import { proxy } from "comlink";
import { useEffect, useState } from "react";
import { dayWorker } from "../data/day-client.ts";

/** Light of the plan as it was last followed. */
export interface LightLook {
  readonly report: LightReport | null;
  readonly findings: readonly ScapeFinding[];
  /** Share of the work in hand that is done; null when nothing is in hand. */
  readonly progress: number | null;
  /** "dark" = no lamp; words for a lamp that cannot be followed. */
  readonly trouble: string;
}

const nothing: LightLook = { report: null, findings: [], progress: null, trouble: "" };

/** Rest after a change before the light is followed anew, ms. */
const rest = 350;
/** First a quick look, then a finer one. */
const quick = { photons: 20_000, directNoise: 0.02 };
const fine = { photons: 120_000, directNoise: 0.006 };

/** The light on the scape, followed beside the page: a quick look first, a finer one after it. */
export function useLightMap(raw: RawPlan, wanted: boolean): LightLook {
  const [look, setLook] = useState<LightLook>(nothing);
  useEffect(() => {
    if (!wanted) return;
    let live = true;
    const follow = async (): Promise<void> => {
      for (const quality of [quick, fine]) {
        const told = proxy((share: number) => {
          if (live) setLook((l) => ({ ...l, progress: share }));
        });
        const answer = await dayWorker("light").look(raw, quality, told);
        if (!live || answer.kind === "dropped") return;
        if (answer.kind === "done") setLook({ ...answer, progress: null, trouble: "" });
        else {
          const trouble = answer.kind === "dark" ? "This tank has no lamp and no daylight." : answer.message;
          setLook({ ...nothing, trouble });
          return;
        }
      }
    };
    const timer = setTimeout(() => void follow(), rest);
    return () => {
      live = false;
      clearTimeout(timer);
    };
  }, [raw, wanted]);
  return look;
}
