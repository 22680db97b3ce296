/** "07:20" from hours after midnight. */
export function clock(hours: number): string {
  const minutes = (((Math.round(hours * 60) % 1440) + 1440) % 1440) | 0;
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** Value of a curve at an hour, straight between grid points. */
export function valueAt(hours: Float64Array, values: Float64Array, h: number): number {
  const last = hours.length - 1;
  const position = ((h - hours[0]!) / (hours[last]! - hours[0]!)) * last;
  const i = Math.max(0, Math.min(last - 1, Math.floor(position)));
  const share = Math.max(0, Math.min(1, position - i));
  return values[i]! * (1 - share) + values[i + 1]! * share;
}
