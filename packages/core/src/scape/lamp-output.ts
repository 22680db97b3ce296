/** What a lamp gives: its photons by the best that is known of it, part by part where it has channels. */
import {
  figuresOf,
  gaussianSpectrum,
  lampFlux,
  type Photometry,
  readPhotometry,
  type Spectrum,
  tabulatedSpectrum,
  tiltFactorAt,
  whiteSpectrum,
  zonalFlux,
} from "../light/index.ts";
import { type ChannelPlan, channelShares, type LampPlan, type SpectrumWords } from "../plan/index.ts";

/** A photometric file in the plan that cannot be used. */
export class LampError extends Error {
  /** 0 = the tank's first lamp. */
  readonly index: number;
  constructor(index: number, message: string) {
    super(message);
    this.name = "LampError";
    this.index = index;
  }
}

/** What an output was taken from, best first. */
export type OutputFrom =
  | "photons"
  | "its channels"
  | "lumens"
  | "photometric file"
  | "watts and efficacy"
  | "watts at a usual efficacy";

/** One light of a lamp: a channel, or the lamp as a whole. */
export interface LampPart {
  /** As typed: 6500 K, deep red. */
  readonly name: string;
  readonly spectrum: Spectrum;
  /** Photons of 400-700 nm at full strength, umol/s. */
  readonly photons: number;
  readonly luxPerPhoton: number;
  /** Electrical power at full, W: its own, else by its photons. */
  readonly watts: number;
}

/** Two figures of a lamp that do not agree. */
export interface Disagreement {
  /** What was taken, and what was not. */
  readonly taken: string;
  readonly other: string;
  /** In the same unit. */
  readonly takenValue: number;
  readonly otherValue: number;
  readonly unit: "umol/s" | "lm" | "W";
}

export interface LampOutput {
  /** Photons of 400-700 nm with every channel at full, umol/s, and their likely span. */
  readonly photons: number;
  readonly low: number;
  readonly high: number;
  readonly from: OutputFrom;
  readonly parts: readonly LampPart[];
  /** Lux of all its light for each umol/m2/s. */
  readonly luxPerPhoton: number;
  /** Lumens with every channel at full. */
  readonly lumens: number;
  /** Electrical power at full, W, and where from. */
  readonly watts: number;
  readonly wattsFrom: "typed" | "photometric file" | "its channels" | "assumed";
  readonly photometry: Photometry | null;
  readonly disagreements: readonly Disagreement[];
}

/** Figures of one lamp this far apart are told. Design value: beyond what a label and a laboratory differ by. */
const told = 0.15;

/** Doubt of an efficacy that is only usual for the kind of lamp, share of it; as that of the usual 1.6 +- 0.4 umol/J. */
const usualDoubt = 0.25;

/** The spectrum of a channel's light. */
function spectrumOfWords(words: SpectrumWords): Spectrum {
  if (words.kind === "white") return whiteSpectrum(words.kelvin);
  if (words.kind === "colour") return gaussianSpectrum(words.peak, words.width);
  return tabulatedSpectrum(words.points);
}

const white = (kelvin: string): Spectrum => whiteSpectrum(Math.min(6600, Math.max(2700, Number.parseInt(kelvin, 10))));

/** Files read lately: under a finger the text stays and all else changes. */
const filesRead = new Map<string, Photometry>();

function fileOf({ photometry }: LampPlan, index: number): Photometry | null {
  if (photometry === null) return null;
  const known = filesRead.get(photometry);
  if (known) return known;
  const read = readPhotometry(photometry);
  if (!read.ok) {
    const [fault] = read.faults;
    throw new LampError(
      index,
      `its photometric file, line ${fault!.line}: ${fault!.message}; allowed: ${fault!.allowed}`,
    );
  }
  if (filesRead.size >= 8) filesRead.clear();
  filesRead.set(photometry, read.photometry);
  return read.photometry;
}

/** Lumens of a file, its luminaire tilted as the lamp is where the file says what that does. */
function fileLumens(photometry: Photometry, tilt: number): number {
  const { tilt: table } = photometry;
  const reaches = table && Math.abs(tilt) >= table.angles[0]! && Math.abs(tilt) <= table.angles.at(-1)!;
  return zonalFlux(photometry) * (reaches ? tiltFactorAt(photometry, tilt) : 1);
}

interface Known {
  readonly photons: number;
  readonly low: number;
  readonly high: number;
  readonly from: OutputFrom;
}

/** The best that is known of a lamp's or channel's output. */
function known(
  own: {
    readonly photons: number | undefined;
    readonly lumens: number | undefined;
    readonly fileLumens?: number;
    readonly watts: number | undefined;
    readonly efficacy: number;
    readonly usual: boolean;
  },
  luxPerPhoton: number,
): Known {
  const lumens = own.lumens ?? own.fileLumens;
  const flux = lampFlux({
    ...(own.photons !== undefined && { photons: own.photons }),
    ...(lumens !== undefined && { lumens, luxPerPhoton }),
    ...(own.watts !== undefined && { watts: own.watts }),
    efficacy: own.efficacy,
  });
  if (flux.from === "photons") return { ...flux, from: "photons" };
  if (flux.from === "lumens") return { ...flux, from: own.lumens === undefined ? "photometric file" : "lumens" };
  const { photons } = flux;
  return own.usual
    ? {
        photons,
        low: photons * (1 - usualDoubt),
        high: photons * (1 + usualDoubt),
        from: "watts at a usual efficacy",
      }
    : { ...flux, from: "watts and efficacy" };
}

const typed = (entry: { readonly value: number; readonly text?: string }): number | undefined =>
  entry.text === undefined ? undefined : entry.value;

const hasOutput = ({ photons, lumens, power }: ChannelPlan): boolean => Boolean(photons ?? lumens ?? power);

/**
 * What a lamp gives. What is typed of the lamp's own light counts before its photometric file, photons before lumens,
 * lumens before watts; channels with outputs of their own add up and count before the lamp's lumens and watts.
 * @param index 0 = the tank's first lamp
 * @throws LampError for a photometric file that cannot be read
 */
export function lampOutput(lamp: LampPlan, index: number): LampOutput {
  const photometry = fileOf(lamp, index);
  const { channels } = lamp;
  const names = channels.length > 0 ? channels.map(({ spectrum }) => spectrum.text) : [lamp.spectrum.value];
  const spectra =
    channels.length > 0 ? channels.map(({ spectrum }) => spectrumOfWords(spectrum)) : [white(lamp.spectrum.value)];
  const constants = spectra.map((spectrum) => figuresOf(spectrum).luxPerPhoton);
  const usual = lamp.efficacy.text === undefined;

  const apart = channels.length > 0 && channels.every(hasOutput);
  const each = apart
    ? channels.map(({ photons, lumens, power, efficacy }, c) =>
        known(
          {
            photons: photons?.value,
            lumens: lumens?.value,
            watts: power?.value,
            efficacy: (efficacy ?? lamp.efficacy).value,
            usual: !efficacy && usual,
          },
          constants[c]!,
        ),
      )
    : null;
  const together = each?.reduce((sum, { photons }) => sum + photons, 0);
  const shares = each
    ? each.map(({ photons }) => photons / together!)
    : channels.length > 0
      ? channelShares(channels)
      : [1];
  const luxPerPhoton = shares.reduce((sum, share, c) => sum + share * constants[c]!, 0);

  const file = photometry ? fileLumens(photometry, lamp.tilt.value) : undefined;
  const fileWatts = photometry && photometry.watts > 0 ? photometry.watts : undefined;
  const channelWatts =
    channels.length > 0 && channels.every(({ power }) => power)
      ? channels.reduce((sum, { power }) => sum + power!.value, 0)
      : undefined;
  const own = typed(lamp.power);
  const [watts, wattsFrom] =
    own !== undefined
      ? ([own, "typed"] as const)
      : fileWatts !== undefined
        ? ([fileWatts, "photometric file"] as const)
        : channelWatts !== undefined
          ? ([channelWatts, "its channels"] as const)
          : ([lamp.power.value, "assumed"] as const);

  const whole = known(
    {
      photons: lamp.photons?.value,
      lumens: lamp.lumens?.value,
      ...(file === undefined ? {} : { fileLumens: file }),
      watts,
      efficacy: lamp.efficacy.value,
      usual,
    },
    luxPerPhoton,
  );
  const taken: Known =
    each && whole.from !== "photons"
      ? {
          photons: together!,
          low: each.reduce((sum, { low }) => sum + low, 0),
          high: each.reduce((sum, { high }) => sum + high, 0),
          from: "its channels",
        }
      : whole;

  const disagreements: Disagreement[] = [];
  const compare = (
    a: readonly [what: string, value: number | undefined],
    b: readonly [what: string, value: number | undefined],
    unit: Disagreement["unit"],
  ): void => {
    const [x, y] = [a[1], b[1]];
    if (x === undefined || y === undefined || Math.max(x, y) <= (1 + told) * Math.min(x, y)) return;
    disagreements.push({ taken: a[0], other: b[0], takenValue: x, otherValue: y, unit });
  };
  const typedLumens = lamp.lumens?.value;
  const photonsOf = (lumens: number | undefined): number | undefined =>
    lumens === undefined ? undefined : lumens / luxPerPhoton;
  if (lamp.photons) {
    compare(["the photons typed", lamp.photons.value], ["its channels together", together], "umol/s");
    compare(["the photons typed", lamp.photons.value], ["the lumens typed", photonsOf(typedLumens)], "umol/s");
    if (typedLumens === undefined)
      compare(["the photons typed", lamp.photons.value], ["its photometric file", photonsOf(file)], "umol/s");
  } else if (each) {
    compare(["its channels together", together], ["the lumens typed", photonsOf(typedLumens)], "umol/s");
    if (typedLumens === undefined)
      compare(["its channels together", together], ["its photometric file", photonsOf(file)], "umol/s");
  } else {
    compare(["the lumens typed", typedLumens], ["its photometric file", file], "lm");
  }
  compare(["the power typed", own], ["its photometric file", fileWatts], "W");

  return {
    ...taken,
    parts: spectra.map((spectrum, c) => ({
      name: names[c]!,
      spectrum,
      photons: taken.photons * shares[c]!,
      luxPerPhoton: constants[c]!,
      watts: channelWatts === undefined ? watts * shares[c]! : (watts * channels[c]!.power!.value) / channelWatts,
    })),
    luxPerPhoton,
    lumens: taken.photons * luxPerPhoton,
    watts,
    wattsFrom,
    photometry,
    disagreements,
  };
}
