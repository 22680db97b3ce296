import { lightTokens, roomTokens, type ScapeZone, type Tokens } from "@lentic/core/drawing";

/** The two sets of colours in which everything is drawn: paper and ink, or the dark room. */
export type Theme = "paper" | "room";

/** Red, green and blue as they are written in a style sheet, 0 to 1. */
export type Colour = readonly [red: number, green: number, blue: number];

/** @throws RangeError for a token that is missing or no `#rrggbb`; an opacity behind it is left out. */
export function colourOf(theme: Theme, token: `--${string}`): Colour {
  const tokens: Tokens = theme === "paper" ? lightTokens : roomTokens;
  const written = tokens[token];
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/i.exec(written ?? "");
  if (!found) throw new RangeError(`colour ${token} is ${written}: it must be written #rrggbb`);
  const part = (k: number): number => Number.parseInt(found[k]!, 16) / 255;
  return [part(1), part(2), part(3)];
}

const tones = ["pale", "pine", "olive", "bronze", "fresh", "grass", "moss", "wine", "jade"] as const;

/** Tint of a planting. */
export type Tone = (typeof tones)[number];

/** The tint that a growth form wears in every drawing. */
function usualTone({ form, leaf }: Pick<ScapeZone, "form" | "leaf">): Tone {
  const narrow = leaf === "ribbon" || leaf === "needle";
  switch (form) {
    case "runner":
      return "pale";
    case "moss":
      return "moss";
    case "rhizome":
      return "pine";
    case "rosette":
      return narrow ? "jade" : "bronze";
    case "carpet":
      return narrow ? "grass" : "fresh";
    case "stem":
      return leaf === "needle" ? "fresh" : leaf === "round" ? "jade" : leaf === "ribbon" ? "wine" : "olive";
    case "bulb":
      return "jade";
    case "floating":
      return "fresh";
  }
}

/** A tint for each planting, as the drawings choose it: the same plant wears the same, further ones of a form the next. */
export function tonesOf(zones: readonly Pick<ScapeZone, "key" | "label" | "form" | "leaf">[]): readonly Tone[] {
  const worn = new Map<string, Tone>();
  const counts = new Map<string, number>();
  return zones.map((zone) => {
    const name = `${zone.key}/${zone.label}/${zone.form}/${zone.leaf}`;
    const known = worn.get(name);
    if (known) return known;
    const usual = usualTone(zone);
    const before = counts.get(`${zone.form}/${usual}`) ?? 0;
    counts.set(`${zone.form}/${usual}`, before + 1);
    const tone = tones[(tones.indexOf(usual) + before * 2) % tones.length]!;
    worn.set(name, tone);
    return tone;
  });
}
