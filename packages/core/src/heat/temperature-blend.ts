/** Water of several temperatures mixed; densities and heat capacities taken as equal (0.3 % at 10-60 °C). */

/** Temperature of a mix, °C, from volumes (any one unit) and temperatures (°C). */
export function blendTemperature(volumes: readonly number[], temperatures: readonly number[]): number {
  if (volumes.length !== temperatures.length) throw new RangeError("each volume needs one temperature");
  let heat = 0;
  let volume = 0;
  volumes.forEach((v, i) => {
    heat += v * (temperatures[i] as number);
    volume += v;
  });
  if (!(volume > 0)) throw new RangeError("the volumes must add to more than 0");
  return heat / volume;
}

/** Temperature of the refill, °C, that brings a tank at `tank` °C to `target` °C when `fraction` (0..1) is changed. */
export function refillTemperature(tank: number, target: number, fraction: number): number {
  return (target - (1 - fraction) * tank) / fraction;
}

/** Share of hot water (0..1) in a mix of hot and cold that comes out at `target` °C; outside 0..1 it cannot be done. */
export function hotShare(hot: number, cold: number, target: number): number {
  return (target - cold) / (hot - cold);
}
