import { type DayContext, oxygenLimit } from "./context.ts";
import { extremesOf, wantedOf } from "./curves.ts";
import type { Finding, Remedy, SentencePart } from "./types.ts";
import { capital, clock, plain } from "./words.ts";

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** What a person reads first: the thing itself, then its remedies, which can be tried. */
export function headlineOf(ctx: DayContext, findings: readonly Finding[]): { headline: SentencePart[]; aside: string } {
  const lead = findings.find(
    (f) =>
      f.severity !== "note" &&
      [
        "no-steady-day",
        "oxygen-low",
        "co2-high",
        "co2-late",
        "water-warm",
        "water-cold",
        "heater-weak",
        "gas-after-dark",
        "carbon-short",
      ].includes(f.id),
  );
  if (!lead) return { headline: calm(ctx), aside: asideOfCalm(ctx) };
  const remedies = lead.next.slice(0, 2);
  const parts: SentencePart[] = [{ words: `${lead.title}. ` }];
  remedies.forEach((r, i) => {
    if (i > 0) parts.push({ words: ", or " });
    parts.push({ remedy: r.id, words: i > 0 ? lower(r.text) : r.text });
  });
  if (remedies.length > 0) parts.push({ words: "." });
  return { headline: parts, aside: asideOf(lead, remedies) };
}

function asideOf(lead: Finding, remedies: readonly Remedy[]): string {
  const [first, second] = remedies;
  if (!first) return lead.reason;
  if (!second) return `${capital(first.effect)}.`;
  if (first.safe && !second.safe)
    return `The first is the safer change: ${first.effect}. With the second, ${second.effect}.`;
  if (!first.safe && second.safe)
    return `The second is the safer change: ${second.effect}. With the first, ${first.effect}.`;
  return `With the first, ${first.effect}; with the second, ${second.effect}.`;
}

function calm(ctx: DayContext): SentencePart[] {
  const wanted = wantedOf(ctx.plan, ctx.day);
  const oxygen = extremesOf(ctx.day, "oxygen").low;
  if (wanted)
    return [
      { words: `CO2 stands at ${plain(wanted.atOn, 1)} mg/L at lights-on: in time. ` },
      { words: "Nothing to change before the next reading." },
    ];
  const limit = oxygenLimit(ctx.limits);
  return [
    { words: `Oxygen stays above ${plain(oxygen.value, 1)} mg/L${limit ? ", enough for what lives here" : ""}. ` },
    { words: "Nothing to change before the next reading." },
  ];
}

function asideOfCalm(ctx: DayContext): string {
  const co2 = extremesOf(ctx.day, "co2");
  const oxygen = extremesOf(ctx.day, "oxygen").low;
  const [low, high] = [plain(co2.low.value, 1), plain(co2.high.value, 1)];
  return `CO2 ${low === high ? `stays at ${low}` : `runs from ${low} to ${high}`} mg/L; oxygen is lowest at ${clock(oxygen.at)}, ${plain(oxygen.value, 1)} mg/L.`;
}
