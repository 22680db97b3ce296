import "../styles/lamp-light.css";
import {
  applyToRaw,
  type Change,
  type ChannelPlan,
  changeAt,
  colours,
  type Json,
  type LampPlan,
  lampProgramme,
  lampsOf,
  type Path,
  type Plan,
  programmeText,
  type RawPlan,
  resolvePlan,
  valueAt,
} from "@lentic/core/plan";
import { pathOfTarget } from "@lentic/core/scape";
import { useEffect, useId, useState } from "react";
import { ProgrammeEditor } from "./programme-editor.tsx";

interface LampLightProps {
  readonly raw: RawPlan;
  readonly plan: Plan;
  /** 0 = the tank's first lamp. */
  readonly index: number;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

/** The first fault that changes bring, in words; empty where they bring none. */
function faultOf(raw: RawPlan, changes: readonly Change[]): string {
  const made = resolvePlan(applyToRaw(raw, changes));
  if (made.ok) return "";
  const [fault] = made.faults;
  return `${fault!.message}; allowed: ${fault!.allowed}`;
}

/** A lamp's day point by point and its channels; folded away while it has neither. */
export function LampLight({ raw, plan, index, onKeep }: LampLightProps) {
  const lamp = lampsOf(plan)[index];
  if (!lamp) return null;
  const at = pathOfTarget({ kind: "lamp", index });
  const name = index === 0 ? "lamp" : `lamp ${index + 1}`;
  const keep = (what: string, path: Path, value: Json | undefined, more: readonly Path[] = []): void => {
    const changes = [changeAt(raw, path, value, what)];
    for (const gone of more) {
      if (valueAt(raw, gone) !== undefined) changes.push(changeAt(applyToRaw(raw, changes), gone, undefined, what));
    }
    onKeep(what, changes);
  };
  // a day drawn by hand says its own hours; those typed before would only move it
  const hours: readonly Path[] = ["on", "off", "ramp"].map((key) => [...at, key]);
  const day = programmeText(lampProgramme(plan, index));
  return (
    <section className="lamp-light" aria-label={`Light of ${name}`}>
      <h3>Day</h3>
      {lamp.programme ? (
        <>
          <ProgrammeEditor
            of={name}
            programme={lampProgramme(plan, index)}
            onKeep={(text) => keep(`day of ${name}`, [...at, "programme"], text, hours)}
          />
          <button
            type="button"
            className="link"
            onClick={() => keep(`${name} by hours`, [...at, "programme"], undefined)}
          >
            back to hours and ramps
          </button>
        </>
      ) : (
        <p className="lamp-word">
          It keeps its hours and ramps.{" "}
          <button
            type="button"
            className="link"
            onClick={() => keep(`day of ${name}`, [...at, "programme"], day, hours)}
          >
            draw its day point by point
          </button>
        </p>
      )}
      <h3>Channels</h3>
      <Channels raw={raw} plan={plan} lamp={lamp} index={index} at={at} name={name} onKeep={onKeep} keep={keep} />
    </section>
  );
}

interface ChannelsProps extends LampLightProps {
  readonly lamp: LampPlan;
  readonly at: Path;
  readonly name: string;
  readonly keep: (what: string, path: Path, value: Json | undefined) => void;
}

function Channels({ raw, plan, lamp, index, at, name, onKeep, keep }: ChannelsProps) {
  const { channels } = lamp;
  const list = [...at, "channels"];
  const id = useId();
  if (channels.length === 0) {
    return (
      <p className="lamp-word">
        All its light is one white.{" "}
        <button
          type="button"
          className="link"
          onClick={() =>
            keep(`channels of ${name}`, list, [{ spectrum: lamp.spectrum.value }, { spectrum: "deep red" }])
          }
        >
          part it into channels
        </button>
      </p>
    );
  }
  const drop = (c: number): void => {
    const what = `${name} without channel ${c + 1}`;
    if (channels.length === 1) keep(what, list, undefined);
    else onKeep(what, [changeAt(raw, [...list, c], undefined, what)]);
  };
  return (
    <>
      <datalist id={`${id}-colours`}>
        {["6500 K", "4000 K", "2700 K", ...Object.keys(colours), "660 nm 20 nm wide"].map((light) => (
          <option key={light} value={light} />
        ))}
      </datalist>
      <ol className="channels">
        {channels.map((channel, c) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: channels are known by their place
          <li key={c}>
            <div className="channel-row">
              <Typed
                label={`channel ${c + 1}, light`}
                shown="light"
                list={`${id}-colours`}
                value={channel.spectrum.text}
                changes={(text) => [changeAt(raw, [...list, c, "spectrum"], text, `channel ${c + 1} ${text}`)]}
                raw={raw}
                onKeep={onKeep}
              />
              <Typed
                label={`channel ${c + 1}, output`}
                shown="output"
                value={outputText(channel)}
                placeholder="its part of the rest"
                changes={(text) => outputChanges(raw, [...list, c], text, `output of channel ${c + 1}`)}
                raw={raw}
                onKeep={onKeep}
              />
              <button
                type="button"
                className="link"
                onClick={() => {
                  const own = channel.programme ? undefined : programmeText(lampProgramme(plan, index));
                  keep(
                    channel.programme ? `channel ${c + 1} with ${name}` : `day of channel ${c + 1}`,
                    [...list, c, "programme"],
                    own,
                  );
                }}
              >
                {channel.programme ? "back to the lamp's day" : "a day of its own"}
                <span className="hidden-text"> for channel {c + 1}</span>
              </button>
              <button type="button" className="link" onClick={() => drop(c)}>
                take out<span className="hidden-text"> channel {c + 1}</span>
              </button>
            </div>
            {channel.programme && (
              <ProgrammeEditor
                of={`${channel.spectrum.text} of ${name}`}
                programme={channel.programme}
                onKeep={(text) => keep(`day of channel ${c + 1}`, [...list, c, "programme"], text)}
              />
            )}
          </li>
        ))}
      </ol>
      <p className="lamp-word">
        <button
          type="button"
          className="link"
          disabled={channels.length >= 12}
          onClick={() => keep(`channels of ${name}`, [...list, channels.length], { spectrum: "blue" })}
        >
          add a channel
        </button>{" "}
        An output is a share of the lamp's photons (30 %), or the channel's own: 12 umol/s, 900 lm, 8 W.
      </p>
    </>
  );
}

const outputs = ["share", "photons", "lumens", "power"] as const;

function outputText(channel: ChannelPlan): string {
  for (const key of ["photons", "lumens", "power", "share"] as const) {
    const text = channel[key]?.text;
    if (text !== undefined) return text;
  }
  return "";
}

/** An output goes to the key that its unit speaks of; the others are taken out. */
function outputChanges(raw: RawPlan, at: Path, text: string, name: string): readonly Change[] {
  const words = text.trim();
  const key = /%/.test(words) ? "share" : /lm/i.test(words) ? "lumens" : /w\b/i.test(words) ? "power" : "photons";
  const changes: Change[] = [];
  let now = raw;
  for (const other of outputs) {
    const value = other === key && words !== "" ? words : undefined;
    if (value === undefined && valueAt(now, [...at, other]) === undefined) continue;
    const change = changeAt(now, [...at, other], value, name);
    changes.push(change);
    now = applyToRaw(now, [change]);
  }
  return changes;
}

interface TypedProps {
  readonly label: string;
  readonly shown: string;
  readonly list?: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly changes: (text: string) => readonly Change[];
  readonly raw: RawPlan;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

/** A text that is kept when left, unless it would be a fault; then it stays with the fault below it. */
function Typed({ label, shown, list, value, placeholder, changes, raw, onKeep }: TypedProps) {
  const [text, setText] = useState(value);
  const [wrong, setWrong] = useState("");
  const id = useId();
  useEffect(() => {
    setText(value);
    setWrong("");
  }, [value]);
  const leave = (): void => {
    if (text.trim() === value) {
      setWrong("");
      return;
    }
    const made = changes(text);
    const fault = faultOf(raw, made);
    setWrong(fault);
    if (!fault && made.length > 0) onKeep(made.at(-1)!.name, made);
  };
  return (
    <span className="channel-field">
      <label htmlFor={id}>
        <span className="hidden-text">{label}</span>
        <span aria-hidden="true">{shown}</span>
      </label>
      <input
        id={id}
        value={text}
        list={list}
        placeholder={placeholder}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={wrong ? true : undefined}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(e) => setText(e.target.value)}
        onBlur={leave}
        onKeyDown={(e) => {
          if (e.key === "Enter") leave();
        }}
      />
      {wrong && (
        <span id={`${id}-wrong`} className="problem-word" role="alert">
          {wrong}
        </span>
      )}
    </span>
  );
}
