/** Value of a curve at an hour, straight between grid points. */
export function valueAt(hours: Float64Array, values: Float64Array, h: number): number {
  const last = hours.length - 1;
  const position = ((h - hours[0]!) / (hours[last]! - hours[0]!)) * last;
  const i = Math.max(0, Math.min(last - 1, Math.floor(position)));
  const share = Math.max(0, Math.min(1, position - i));
  return values[i]! * (1 - share) + values[i + 1]! * share;
}
