/** "07:20" from hours after midnight; the day's end is "24:00". */
export function clock(hours: number): string {
  const rounded = Math.round(hours * 60);
  if (rounded === 1440) return "24:00";
  const minutes = ((rounded % 1440) + 1440) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** "2 h 40 min", "50 min", "3 days". */
export function span(hours: number): string {
  const minutes = Math.round(hours * 60);
  if (minutes < 90) return `${minutes} min`;
  if (hours < 36) {
    const rest = Math.round(minutes / 10) * 10;
    return rest % 60 === 0 ? `${rest / 60} h` : `${Math.floor(rest / 60)} h ${rest % 60} min`;
  }
  const days = hours / 24;
  return days < 90 ? `${Math.round(days)} days` : `${Math.round(days / 30.4)} months`;
}

/** Fixed decimals without "-0". */
export function plain(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}

/** First letter as a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
