import { type Change, changeAt, keepReading, lightsOf, type Plan, type RawPlan } from "@lentic/core/plan";
import { dimmed, pathOfTarget } from "@lentic/core/scape";
import { useEffect, useMemo, useState } from "react";
import type { LightLook } from "./use-light-map.ts";
import { useStable } from "./use-stable.ts";

/** A dimmer: of a lamp, or of one of its channels. */
export interface Dimmer {
  readonly lamp: number;
  readonly channel: number | null;
}

export interface Dimmers {
  /** The light with the dimmers as they stand, also under the finger. */
  readonly light: LightLook;
  /** Setting of a dimmer, 0..1. */
  value(dimmer: Dimmer): number;
  /** Moves a dimmer without keeping it. */
  turn(dimmer: Dimmer, value: number): void;
  /** Keeps where it was moved to. */
  rest(dimmer: Dimmer): void;
}

const keyOf = ({ lamp, channel }: Dimmer): string => (channel === null ? `${lamp}` : `${lamp}/${channel}`);

/** Dimmers of the lamps on the board: the map follows them by sums, without following the light anew. */
export function useDimmers(
  light: LightLook,
  raw: RawPlan,
  plan: Plan,
  onKeep: (name: string, changes: readonly Change[]) => void,
): Dimmers {
  const [moved, setMoved] = useState<ReadonlyMap<string, number>>(new Map());
  const kept = useMemo(() => {
    const lamps = [...(plan.light ? [plan.light] : []), ...plan.lamps];
    return ({ lamp, channel }: Dimmer): number =>
      (channel === null ? lamps[lamp]?.strength.value : lamps[lamp]?.channels[channel]?.strength.value) ?? 1;
  }, [plan]);
  // once the plan says the same, or another tank's plan comes, the finger has nothing more to say
  useEffect(() => {
    setMoved((all) => {
      const open = [...all].filter(([key, value]) => {
        const [lamp, channel] = key.split("/").map(Number);
        return Math.abs(kept({ lamp: lamp!, channel: channel ?? null }) - value) > 1e-6;
      });
      return open.length === all.size ? all : new Map(open);
    });
  }, [kept]);
  const { report } = light;
  const lights = useMemo(() => lightsOf(plan), [plan]);
  const shown = useMemo(() => {
    // a light that was followed for another list of lamps is shown as it is
    if (!report || report.lights.length !== lights.length) return report;
    const at = (dimmer: Dimmer): number => moved.get(keyOf(dimmer)) ?? kept(dimmer);
    return dimmed(report, ({ lamp, channel }) => ({
      dimmer: lamp === null ? 1 : at({ lamp, channel: null }),
      own: lamp === null || channel === null ? 1 : at({ lamp, channel }),
    }));
  }, [report, lights, moved, kept]);
  const turn = useStable((dimmer: Dimmer, to: number): void => setMoved((all) => new Map(all).set(keyOf(dimmer), to)));
  const rest = useStable((dimmer: Dimmer): void => {
    const to = moved.get(keyOf(dimmer));
    if (to === undefined || to === kept(dimmer)) return;
    const { lamp, channel } = dimmer;
    const at = pathOfTarget({ kind: "lamp", index: lamp });
    const path = channel === null ? [...at, "strength"] : [...at, "channels", channel, "strength"];
    const text = `${Math.round(100 * to)} %`;
    const name = `${lamp === 0 ? "lamp" : `lamp ${lamp + 1}`}${channel === null ? "" : `, channel ${channel + 1},`} at ${text}`;
    onKeep(name, keepReading(raw, [changeAt(raw, path, text, name)]));
  });
  return useMemo(
    () => ({
      light: { ...light, report: shown },
      value: (dimmer) => moved.get(keyOf(dimmer)) ?? kept(dimmer),
      turn,
      rest,
    }),
    [light, shown, moved, kept, turn, rest],
  );
}
