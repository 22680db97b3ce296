/** A followed light at other settings of its dimmers: sums of what each light gives at full, quick enough for a finger. */
import { type LightReport, levelOf, spread } from "./light-report.ts";
import type { OneLight } from "./one-light.ts";

/** Settings of the dimmers of one light, 0..1: its lamp's, and its channel's. */
interface Setting {
  readonly dimmer: number;
  readonly own: number;
}

const microPerHour = 3600e-6;

/**
 * The report with other settings: map and figures on the ground, light on the plantings and the day's sums follow exactly;
 * the darkest and brightest tenths of a planting follow its mean, the rest stays until the report is made anew.
 * @param setting of each light, in the order of `report.lights`
 */
export function dimmed(report: LightReport, setting: (light: OneLight, index: number) => Setting): LightReport {
  const { lights } = report;
  const values = new Float64Array(report.ground.values.length);
  const zones = report.zones.map(() => ({ mean: 0, daily: 0 }));
  let daily = 0;
  lights.forEach((light, k) => {
    const { dimmer, own } = setting(light, k);
    const now = dimmer * own * light.peak;
    const day = dimmer * own * light.fullHours * microPerHour;
    const { ground } = light;
    let sum = 0;
    for (let i = 0; i < values.length; i++) {
      values[i] = values[i]! + now * ground[i]!;
      sum += ground[i]!;
    }
    daily += (day * sum) / values.length;
    zones.forEach((zone, z) => {
      zone.mean += now * light.zones[z]!;
      zone.daily += day * light.zones[z]!;
    });
  });
  const { min, max, mean } = spread(values);
  return {
    ...report,
    ground: { ...report.ground, values },
    mean,
    min,
    max,
    evenness: mean > 0 ? min / mean : 0,
    daily,
    level: levelOf(mean),
    zones: report.zones.map((zone, z) => {
      const scale = zone.mean > 0 ? zones[z]!.mean / zone.mean : 0;
      return { ...zone, ...zones[z]!, low: zone.low * scale, high: zone.high * scale };
    }),
  };
}
