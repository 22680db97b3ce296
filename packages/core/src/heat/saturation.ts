import { zeroCelsius } from "./constants.ts";

const triplePoint = 0.01;

/**
 * Pressure of water vapour at saturation, Pa, from temperature in °C: over liquid from the triple point (0.01 °C) to
 * 200 °C, over ice from -100 °C. Within 0.03 % of the steam tables over liquid. Source: hyland-wexler-1983.
 */
export function saturationPressure(temperature: number): number {
  const t = temperature + zeroCelsius;
  if (temperature < triplePoint) {
    return Math.exp(
      -5.6745359e3 / t +
        6.3925247 +
        t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 - t * 9.484024e-13))) +
        4.1635019 * Math.log(t),
    );
  }
  return Math.exp(
    -5.8002206e3 / t +
      1.3914993 +
      t * (-4.8640239e-2 + t * (4.1764768e-5 - t * 1.4452093e-8)) +
      6.5459673 * Math.log(t),
  );
}

/** d(ln p)/dT of `saturationPressure`, 1/K, from temperature in °C. */
function logSlope(temperature: number): number {
  const t = temperature + zeroCelsius;
  if (temperature < triplePoint) {
    return (
      5.6745359e3 / (t * t) -
      9.677843e-3 +
      t * (2 * 6.2215701e-7 + t * (3 * 2.0747825e-9 - t * 4 * 9.484024e-13)) +
      4.1635019 / t
    );
  }
  return 5.8002206e3 / (t * t) - 4.8640239e-2 + t * (2 * 4.1764768e-5 - t * 3 * 1.4452093e-8) + 6.5459673 / t;
}

/**
 * Short form of the saturation pressure over liquid water, Pa, from °C; 0.1-0.3 % low at 5-30 °C: for display, not for
 * comparing digits. Source: wmo-8.
 */
export function magnusPressure(temperature: number): number {
  return 611.2 * Math.exp((17.62 * temperature) / (243.12 + temperature));
}

/**
 * Temperature, °C, at which air with this vapour pressure (Pa, above 0) begins to drop its water; the frost point below
 * 0.01 °C. Valid -100 to 200 °C. Source: hyland-wexler-1983, inverted.
 */
export function dewPoint(vapourPressure: number): number {
  if (!(vapourPressure > 0)) throw new RangeError("the vapour pressure must be above 0 Pa");
  const target = Math.log(vapourPressure);
  const short = Math.log(vapourPressure / 611.2);
  let t = (243.12 * short) / (17.62 - short);
  // ln p is nearly straight in t, so Newton settles in a handful of steps; the cap guards the bend at the triple point.
  for (let i = 0; i < 50; i++) {
    const step = (Math.log(saturationPressure(t)) - target) / logSlope(t);
    t -= step;
    if (Math.abs(step) < 1e-10) break;
  }
  return t;
}

/**
 * Heat that turns 1 kg of water to vapour, kJ/kg, from the water's temperature in °C. A straight line that stays within
 * 0.5 kJ/kg of the steam tables at 0-40 °C. Source: iapws-95.
 */
export function latentHeat(temperature: number): number {
  return 2501 - 2.3626 * temperature;
}
