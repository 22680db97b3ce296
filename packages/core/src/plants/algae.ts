import { relation } from "../relation/index.ts";
import { canopyMeanLight } from "./light.ts";
import { choice, photoperiod, ppfdTop, quantity, temperature } from "./usual-inputs.ts";
import { bellTemperature } from "./warmth.ts";

/** A group of algae on surfaces. Source: qsim */
export interface FilmAlga {
  /** Greatest growth, 1/d. */
  readonly muMax: number;
  /** Half-saturations of nitrogen and phosphorus, mg/L. */
  readonly kN: number;
  readonly kP: number;
  /** Photon flux at which growth saturates, umol/m2/s. */
  readonly iS: number;
  /** Best and upper temperature, °C. */
  readonly tOpt: number;
  readonly tMax: number;
}

/** Greens and diatoms on surfaces. Source: qsim */
export const filmAlgae = {
  greens: { muMax: 1.8, kN: 0.048, kP: 0.022, iS: 176, tOpt: 27, tMax: 45 },
  diatoms: { muMax: 1.6, kN: 0.018, kP: 0.02, iS: 147, tOpt: 20, tMax: 31 },
} as const satisfies Record<string, FilmAlga>;

/**
 * Dry film per surface that is seen, that is a nuisance, and the seed that is always there, g/m2; derived, design
 * value.
 */
export const visibleFilm = 1;
export const nuisanceFilm = 7;
export const seedFilm = 0.05;

/**
 * Light factor of a film without inhibition by strong light; the film shades itself.
 * @param ppfd photon flux at the surface, umol/m2/s; @param film g dry/m2
 * @returns 0..1. Source: qsim
 */
export function filmLight(ppfd: number, iS: number, film: number): number {
  const x = (ppfd * Math.exp((-0.015 * film) / 2)) / iS;
  return x < 1 ? x * Math.exp(1 - x) : 1;
}

/**
 * Temperature factor of algae.
 * @param t °C; @param best °C; @param max °C where growth ends
 * @returns 0..1. Source: qsim
 */
export function algaTemperature(t: number, best: number, max: number): number {
  if (t >= max) return 0;
  const w = 0.61519 * (max - best);
  const k = (w * w * (1 + Math.sqrt(1 + 40 / w)) ** 2) / 400;
  const q = (max - t) / (max - best);
  return q ** k * Math.exp(k * (1 - q));
}

/**
 * Effect of water movement on a film.
 * @param speed cm/s
 * @returns 0.2..1. Source: qsim
 */
export function filmFlow(speed: number): number {
  return Math.min(1, 0.2 + (0.057 * speed) / (1 + 0.057 * speed));
}

/** Rates of a film, 1/d. */
export interface FilmGrowth {
  readonly light: number;
  readonly temperature: number;
  readonly flow: number;
  readonly growth: number;
  readonly respiration: number;
  readonly net: number;
}

/**
 * Growth of a film on a surface, before grazing and scraping.
 * @param t °C; @param ppfd umol/m2/s; @param nitrogen, phosphorus as element, mg/L; @param speed cm/s; @param film g
 * dry/m2
 * @returns 1/d. Source: qsim
 */
export function filmGrowth(
  a: FilmAlga,
  t: number,
  ppfd: number,
  nitrogen: number,
  phosphorus: number,
  speed: number,
  film: number,
): FilmGrowth {
  const light = filmLight(ppfd, a.iS, film);
  const warmth = algaTemperature(t, a.tOpt, a.tMax);
  const flow = filmFlow(speed);
  const nutrients = Math.min(nitrogen / (a.kN + nitrogen), phosphorus / (a.kP + phosphorus));
  const cold = a.muMax * nutrients * light * flow;
  const respiration = (0.085 + 0.2 * cold) / (1 + Math.exp(1.7 - 0.187 * t));
  const growth = cold * warmth;
  return { light, temperature: warmth, flow, growth, respiration, net: growth - respiration };
}

/**
 * Nuisance index: how far a net rate brings the seed towards a nuisance in 14 days; 1 and above = a nuisance within a
 * fortnight.
 * @param net 1/d
 * @returns pure number: under 0.5 low, 0.5 to 1 watch
 */
export function nuisanceIndex(net: number): number {
  return (14 * net) / Math.log(nuisanceFilm / seedFilm);
}

/**
 * Grazing of a film by a number of grazers.
 * @param greatest what one eats with ample film, g/d; @param count per m2; @param film g dry/m2
 * @returns g/(m2 d); half of the greatest at 0.5 g/m2. Source: physa-periphyton
 */
export function grazing(greatest: number, count: number, film: number): number {
  return film > 0 ? (greatest * count * film) / (film + 0.5) : 0;
}

/**
 * Half-saturation of free-floating algae at best warmth, umol/m2/s: 10.2 W/m2 of visible light at 4.57 umol/J. Source:
 * pcditch
 */
const greenWaterHalf = 10.2 * 4.57;

/**
 * Growth of free-floating algae in a mixed water column.
 * @param t °C; @param ppfd at the surface, umol/m2/s; @param extinction of the water, 1/m; @param depth m; @param
 * hours light, h/d
 * @param nutrients factor 0..1
 * @returns depth-mean light factor and net rate 1/d. Source: pcditch
 */
export function greenWaterGrowth(
  t: number,
  ppfd: number,
  extinction: number,
  depth: number,
  hours: number,
  nutrients = 1,
): { readonly light: number; readonly net: number } {
  const warmth = bellTemperature(t, 25, 15, 20);
  const light = canopyMeanLight(ppfd, greenWaterHalf * warmth, extinction * depth);
  return { light, net: ((1.9 * warmth * light * hours) / 24) * nutrients - 0.1 * warmth - 0.01 };
}

/**
 * Rate at which water changes thin out what floats.
 * @param share of the water changed; @param days between changes
 * @returns 1/d
 */
export function dilution(share: number, days: number): number {
  return -Math.log1p(-share) / days;
}

export const algaeRelations = [
  relation({
    id: "film-growth",
    title: "Growth of algae on a surface",
    room: "plants",
    inputs: {
      group: choice("group", ["greens", "diatoms"], "greens"),
      temperature,
      ppfd: { ...ppfdTop, label: "photon flux at the surface" },
      nitrogen: quantity("dissolved nitrogen", "mg/L", 0, 200),
      phosphorus: quantity("dissolved phosphorus", "mg/L", 0, 50),
      flow: quantity("water speed along the surface", "cm/s", 0, 100, 5),
      film: quantity("dry film", "g/m2", 0, 200, 1),
    },
    outputs: {
      light_factor: { label: "light factor", unit: "1" },
      temperature_factor: { label: "temperature factor", unit: "1" },
      flow_factor: { label: "flow factor", unit: "1" },
      growth: { label: "growth", unit: "1/d" },
      respiration: { label: "respiration", unit: "1/d" },
      net: { label: "net growth, before grazing and scraping", unit: "1/d" },
      nuisance_index: { label: "nuisance index, 1 = a nuisance within a fortnight", unit: "1" },
      days_to_nuisance: { label: "time from seed to nuisance", unit: "d" },
    },
    equation:
      "mu = mu_max min(N/(K_N + N), P/(K_P + P)) f_T f_I v; r = (0.085 + 0.2 mu/f_T)/(1 + exp(1.7 - 0.187 T)); R14 = 14 net/ln(7/0.05)",
    sources: ["qsim", "chosen"],
    validity:
      "both nutrients are ample in any fertilised tank: light on free surfaces, plants, grazers and scraping decide",
    compute: (i) => {
      const g = filmGrowth(filmAlgae[i.group], i.temperature, i.ppfd, i.nitrogen, i.phosphorus, i.flow, i.film);
      return {
        light_factor: g.light,
        temperature_factor: g.temperature,
        flow_factor: g.flow,
        growth: g.growth,
        respiration: g.respiration,
        net: g.net,
        nuisance_index: nuisanceIndex(g.net),
        days_to_nuisance: g.net > 0 ? Math.log(nuisanceFilm / seedFilm) / g.net : Number.POSITIVE_INFINITY,
      };
    },
  }),
  relation({
    id: "alga-temperature",
    title: "Temperature factor of algae on a surface",
    room: "plants",
    inputs: { group: choice("group", ["greens", "diatoms"], "greens"), temperature },
    outputs: { factor: { label: "temperature factor", unit: "1" } },
    equation: "w = 0.61519 (Tx - To), k = w^2 (1 + sqrt(1 + 40/w))^2/400, q = (Tx - T)/(Tx - To), f = q^k e^(k(1 - q))",
    sources: ["qsim"],
    compute: (i) => ({ factor: algaTemperature(i.temperature, filmAlgae[i.group].tOpt, filmAlgae[i.group].tMax) }),
  }),
  relation({
    id: "green-water",
    title: "Growth of free-floating algae",
    room: "plants",
    inputs: {
      temperature,
      ppfd_top: ppfdTop,
      extinction: quantity("light extinction of the water", "1/m", 0, 50, 0.5),
      depth: quantity("depth of water", "m", 0.02, 5, 0.4),
      photoperiod,
      nutrient_factor: quantity("nutrient factor", "1", 0, 1, 1),
      change: quantity("water changed each time", "%", 0, 99, 50),
      days: quantity("days between changes", "d", 0.5, 365, 7),
    },
    outputs: {
      light_factor: { label: "light factor, mean over depth", unit: "1" },
      net: { label: "net growth", unit: "1/d" },
      after_dilution: { label: "net growth less thinning by water changes", unit: "1/d" },
    },
    equation: "net = 1.9 f_T f_I (L/24) f_nut - 0.1 f_T - 0.01; K_I = 46.6 f_T; thinning -ln(1 - w)/n",
    sources: ["pcditch"],
    compute: (i) => {
      const g = greenWaterGrowth(i.temperature, i.ppfd_top, i.extinction, i.depth, i.photoperiod, i.nutrient_factor);
      return { light_factor: g.light, net: g.net, after_dilution: g.net - dilution(i.change / 100, i.days) };
    },
  }),
  relation({
    id: "grazing-from-trial",
    title: "What one grazer ate, from a trial with and without",
    room: "plants",
    inputs: {
      film_without: quantity("film without grazers at the end", "g/m2", 0, 1000),
      film_with: quantity("film with grazers at the end", "g/m2", 0, 1000),
      days: quantity("length of the trial", "d", 0.1, 1000),
      grazers: quantity("grazers per area", "1/m2", 1, 1e5),
    },
    outputs: { eaten: { label: "eaten per grazer", unit: "mg/d" } },
    equation: "(E0 - E)/(t n)",
    sources: ["physa-periphyton"],
    compute: (i) => ({ eaten: (1000 * (i.film_without - i.film_with)) / i.days / i.grazers }),
  }),
] as const;
