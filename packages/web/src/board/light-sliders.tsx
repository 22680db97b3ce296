import type { LampPlan } from "@lentic/core/plan";
import { fromWords, type LightReport } from "@lentic/core/scape";
import { useId } from "react";
import type { Dimmer, Dimmers } from "./use-dimmers.ts";

const figure = (value: number): string => String(Number(value.toPrecision(value < 10 ? 2 : 3)));

interface SlidersProps {
  readonly lamps: readonly LampPlan[];
  readonly dimmers: Dimmers;
  readonly report: LightReport | null;
}

/** The dimmers of all lamps and channels, and what each lamp is taken to give. */
export function LightSliders({ lamps, dimmers, report }: SlidersProps) {
  if (lamps.length === 0) return null;
  return (
    <div className="light-sliders">
      {lamps.map((lamp, k) => {
        const name = lamps.length === 1 ? "lamp" : `lamp ${k + 1}`;
        const told = report?.lamps[k];
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: lamps are known by their place
          <div key={k} className="light-lamp">
            <Slider label={name} dimmer={{ lamp: k, channel: null }} dimmers={dimmers} />
            {lamp.channels.map((channel, c) => (
              <Slider
                // biome-ignore lint/suspicious/noArrayIndexKey: channels are known by their place
                key={c}
                label={channel.spectrum.text}
                of={name}
                dimmer={{ lamp: k, channel: c }}
                dimmers={dimmers}
              />
            ))}
            {told && (
              <p className="light-output">
                {figure(told.photons)} <small>µmol/s</small> at full, likely {figure(told.low)} to {figure(told.high)}:
                from {fromWords[told.from]}
              </p>
            )}
          </div>
        );
      })}
      {report?.daylight && (
        <p className="light-output">
          daylight on the {report.daylight.side === "top" ? "top" : `${report.daylight.side} pane`}, at its brightest{" "}
          {figure(report.daylight.ppfd)} <small>µmol/m²s</small> there
        </p>
      )}
    </div>
  );
}

interface SliderProps {
  readonly label: string;
  /** The lamp that the channel belongs to. */
  readonly of?: string;
  readonly dimmer: Dimmer;
  readonly dimmers: Dimmers;
}

function Slider({ label, of, dimmer, dimmers }: SliderProps) {
  const id = useId();
  const percent = Math.round(100 * dimmers.value(dimmer));
  const rest = (): void => dimmers.rest(dimmer);
  return (
    <div className={of ? "dimmer channel" : "dimmer"}>
      <label htmlFor={id}>
        {of && <span className="hidden-text">{of}, </span>}
        {label}
      </label>
      <input
        id={id}
        type="range"
        min={0}
        max={100}
        value={percent}
        aria-valuetext={`${percent} %`}
        onChange={(e) => dimmers.turn(dimmer, Number(e.target.value) / 100)}
        onPointerUp={rest}
        onKeyUp={rest}
        onBlur={rest}
      />
      <output htmlFor={id}>
        {percent} <small>%</small>
      </output>
    </div>
  );
}
