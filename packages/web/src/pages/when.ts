/** "today at 14:05", "24 November": what one would say of a change. */
export function when(stamp: string, now: Date, locale?: string): string {
  const at = new Date(stamp);
  if (Number.isNaN(at.getTime())) return "at some time";
  const midnight = (d: Date): number => new Date(d.getFullYear(), d.getMonth(), d.getDate()).getTime();
  const days = Math.round((midnight(now) - midnight(at)) / 86_400_000);
  const time = at.toLocaleTimeString(locale, { hour: "2-digit", minute: "2-digit" });
  if (days === 0) return `today at ${time}`;
  if (days === 1) return `yesterday at ${time}`;
  return at.toLocaleDateString(locale, {
    day: "numeric",
    month: "long",
    ...(Math.abs(days) > 300 ? { year: "numeric" as const } : {}),
  });
}
