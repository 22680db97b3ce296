import { relation } from "../relation/index.ts";
import { type LampKind, lampKind, lampKinds } from "./lamp-kinds.ts";
import { choice, quantity } from "./usual-inputs.ts";

/** A photon flux density with its bounds, umol/m2/s. */
export interface ReadingWithDoubt {
  readonly ppfd: number;
  readonly low: number;
  readonly high: number;
}

const within = (ppfd: number, doubt: number): ReadingWithDoubt => ({
  ppfd,
  low: ppfd / (1 + doubt),
  high: ppfd * (1 + doubt),
});

/**
 * Photon flux density from a lux reading.
 * @param lux lx; @param luxPerPhoton lx per umol/m2/s of the lamp's spectrum
 * @param doubt relative doubt of constant and meter together; a factor 1 + doubt either way
 */
export const ppfdFromLux = (lux: number, luxPerPhoton: number, doubt: number): ReadingWithDoubt =>
  within(lux / luxPerPhoton, doubt);

/** Usual relative error of the light meter of a phone behind a diffuser, design value. */
export const PHONE_DOUBT = 0.2;

/** As `ppfdFromLux` by kind of lamp, the doubts of lamp and meter added as independent ones. */
export const ppfdFromPhone = (lux: number, kind: LampKind, meterDoubt = PHONE_DOUBT): ReadingWithDoubt =>
  ppfdFromLux(lux, kind.luxPerPhoton, Math.hypot(kind.doubt, meterDoubt));

/**
 * Photon flux density under water from a quantum sensor that was calibrated in air and therefore reads low there.
 * @param reading umol/m2/s; @param immersion factor of that sensor, about 1.1 to 1.3; 1 when the sensor already applies it
 */
export const ppfdFromMeter = (reading: number, immersion: number): number => reading * immersion;

export const readingRelations = [
  relation({
    id: "lux-to-photons",
    title: "Photon flux from a lux reading",
    room: "light",
    inputs: {
      illuminance: quantity("reading", "lx", 0, 200_000),
      lamp: choice(
        "kind of lamp",
        lampKinds.map((k) => k.id),
        "cool white LED",
      ),
      meter_doubt: quantity("relative error of the meter; a phone's about 0.2", "1", 0, 1, PHONE_DOUBT),
    },
    outputs: {
      ppfd: { label: "photon flux density", unit: "umol/m2/s" },
      low: { label: "lower end", unit: "umol/m2/s" },
      high: { label: "upper end", unit: "umol/m2/s" },
      lux_per_photon: { label: "lux per photon flux density", unit: "lx*m2*s/umol" },
    },
    equation: "PPFD = lux/K_q; doubts of lamp and meter added in squares",
    sources: ["cie-15", "thimijan-heins-1983", "chosen"],
    validity:
      "White lamps whose light is not coloured by channels of their own, read in air. Coloured lights need their spectrum: mix the channels.",
    compute: ({ illuminance, lamp, meter_doubt }) => {
      const kind = lampKind(lamp);
      return { ...ppfdFromPhone(illuminance, kind, meter_doubt), lux_per_photon: kind.luxPerPhoton };
    },
  }),
  relation({
    id: "meter-under-water",
    title: "Photon flux under water from a quantum sensor",
    room: "light",
    inputs: {
      reading: quantity("reading under water", "umol/m2/s", 0, 3000),
      immersion: quantity("immersion factor of the sensor, from its maker", "1", 1, 1.5, 1.2),
    },
    outputs: {
      ppfd: { label: "photon flux density", unit: "umol/m2/s" },
      low: { label: "with the factor 1.1", unit: "umol/m2/s" },
      high: { label: "with the factor 1.3", unit: "umol/m2/s" },
    },
    equation: "PPFD = reading x immersion factor",
    sources: ["immersion-recalled"],
    validity: "Sensors calibrated in air that do not apply the factor themselves. The ends are those of usual sensors.",
    compute: ({ reading, immersion }) => ({
      ppfd: ppfdFromMeter(reading, immersion),
      low: ppfdFromMeter(reading, 1.1),
      high: ppfdFromMeter(reading, 1.3),
    }),
  }),
] as const;
