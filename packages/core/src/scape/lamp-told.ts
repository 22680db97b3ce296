/** What is told of the lamps' outputs beside the light that they give. */
import type { DaylightLevel } from "../plan/index.ts";
import type { ScapeFinding } from "./checks.ts";
import type { Disagreement, LampOutput } from "./lamp-output.ts";
import type { LightScene } from "./light-scene.ts";

/** One lamp's output as it is told, without its spectra. */
export interface LampTold
  extends Pick<
    LampOutput,
    "photons" | "low" | "high" | "from" | "lumens" | "luxPerPhoton" | "watts" | "wattsFrom" | "disagreements"
  > {
  /** 0 = the tank's first lamp. */
  readonly index: number;
  /** Its channels, or itself: photons at full, umol/s. */
  readonly parts: readonly { readonly name: string; readonly photons: number }[];
}

/** The daylight taken, at its brightest. */
export interface DaylightTold extends DaylightLevel {
  readonly side: string;
}

export function lampsTold({ outputs }: LightScene): readonly LampTold[] {
  return outputs.map((output, index) => {
    const { photons, low, high, from, lumens, luxPerPhoton, watts, wattsFrom, disagreements, parts } = output;
    return {
      index,
      photons,
      low,
      high,
      from,
      lumens,
      luxPerPhoton,
      watts,
      wattsFrom,
      disagreements,
      parts: parts.map((part) => ({ name: part.name, photons: part.photons })),
    };
  });
}

/** In words, after "taken from": the photons typed, its photometric file. */
export const fromWords: Readonly<Record<LampOutput["from"], string>> = {
  photons: "the photons typed",
  "its channels": "its channels' own outputs",
  lumens: "the lumens typed and its spectrum",
  "photometric file": "the lumens of its photometric file and its spectrum",
  "watts and efficacy": "watts and the efficacy typed",
  "watts at a usual efficacy": "watts at the usual efficacy of its kind",
};

const shortUnit = { "umol/s": "µmol/s", lm: "lm", W: "W" } as const;

const figure = (value: number): string => String(Number(value.toPrecision(3)));

function sentence({ taken, other, takenValue, otherValue, unit }: Disagreement, last: boolean): string {
  const u = shortUnit[unit];
  return `${taken} ${last ? "says" : "say"} ${figure(takenValue)} ${u}, ${other} ${figure(otherValue)} ${u}`;
}

/** Figures of a lamp that cannot all be right. */
export function lampFindings(lamps: readonly LampTold[]): readonly ScapeFinding[] {
  return lamps.flatMap(({ index, disagreements }) =>
    disagreements.map((d, k): ScapeFinding => {
      const lamp = lamps.length > 1 ? `Lamp ${index + 1}` : "The lamp";
      const apart = Math.round(100 * Math.abs(d.otherValue / d.takenValue - 1));
      return {
        id: `lamp-${index}-${k}`,
        severity: "note",
        title: `${lamp}: ${sentence(d, d.taken.startsWith("the power"))}`,
        reason: `They are ${apart} % apart; what is typed was taken. One of them is of another lamp, or of another setting.`,
        at: null,
        path: index === 0 ? ["light"] : ["lamps", index - 1],
      };
    }),
  );
}
