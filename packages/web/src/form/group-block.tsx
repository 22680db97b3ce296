import { animals, plants, stones, substrates, woods } from "@lentic/core/facts";
import {
  type Change,
  changeAt,
  type Fault,
  type Field,
  type Group,
  type Plan,
  type RawPlan,
  valueAt,
} from "@lentic/core/plan";
import { useId, useState } from "react";
import { Words } from "../parts/words.tsx";
import { FieldRow } from "./field-row.tsx";
import { attempt, isEntry, pathOf, pathText, resolvedAt, starter, summary } from "./model.ts";

interface GroupProps {
  readonly tank: string;
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly group: Group;
  readonly fields: readonly Field[];
  /** Field that a link asks for: "co2.dissolved". */
  readonly wanted: string;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

/** A group of the plan: its fields, those left at their default folded, or the items of a list. */
export function GroupBlock(p: GroupProps) {
  const { group, raw } = p;
  const present = group.absent === "defaults" || (valueAt(raw, [group.path]) ?? null) !== null;
  return (
    <section className="group" id={group.path} aria-labelledby={`${group.path}-title`}>
      <h2 id={`${group.path}-title`}>
        <Words>{group.label}</Words>
      </h2>
      <p className="group-help">
        <Words>{group.help}</Words>
      </p>
      {group.list ? (
        <ItemList {...p} />
      ) : present ? (
        <>
          <Fields {...p} index={null} />
          {group.absent === "none" && (
            <button
              type="button"
              className="link"
              onClick={() =>
                p.onKeep(`no ${group.label.toLowerCase()}`, [
                  changeAt(raw, [group.path], undefined, `no ${group.label}`),
                ])
              }
            >
              Take the {group.label === "CO2" ? "CO₂" : group.label.toLowerCase()} out of the plan
            </button>
          )}
        </>
      ) : (
        <p className="absent">
          This tank has none.{" "}
          <button
            type="button"
            className="link"
            onClick={() => p.onKeep(`${group.label} added`, [changeAt(raw, [group.path], {}, `${group.label} added`)])}
          >
            Add {group.label === "CO2" ? "CO₂" : group.label.toLowerCase()}
          </button>
        </p>
      )}
    </section>
  );
}

/** Fields of a group or item: what was typed stands open, what is assumed is folded with its count. */
function Fields({ tank, raw, plan, fields, wanted, index, onKeep }: GroupProps & { index: number | null }) {
  const rows = fields.map((field) => {
    const path = pathOf(field, index);
    const resolved = resolvedAt(plan, path);
    const typed = valueAt(raw, path) !== undefined;
    return {
      field,
      path,
      typed: typed || field.fallback === null,
      exists: resolved !== undefined || typed || !isEntry(resolved),
    };
  });
  const open = rows.filter((r) => r.typed);
  const folded = rows.filter((r) => !r.typed);
  const asked = folded.some((r) => pathText(r.path) === wanted);
  const [unfolded, setUnfolded] = useState(asked || open.length === 0);
  const row = ({ field, path }: (typeof rows)[number]) => (
    <FieldRow key={pathText(path)} tank={tank} raw={raw} plan={plan} field={field} path={path} onKeep={onKeep} />
  );
  return (
    <div className="fields">
      {open.map(row)}
      {folded.length > 0 && (
        <details open={unfolded || asked} onToggle={(e) => setUnfolded(e.currentTarget.open)}>
          <summary>
            {folded.length} {folded.length === 1 ? "value is" : "values are"} assumed
          </summary>
          {folded.map(row)}
        </details>
      )}
    </div>
  );
}

const words: Readonly<Record<string, { ask: string; names: () => readonly string[] }>> = {
  substrate: { ask: "material of the new layer", names: () => substrates.map((m) => m.id) },
  hardscape: { ask: "stone or wood", names: () => [...stones, ...woods].map((m) => m.id) },
  plants: { ask: "species", names: () => plants.map((x) => x.name) },
  animals: { ask: "species", names: () => animals.map((x) => x.name) },
  readings: { ask: "what was read", names: () => ["co2", "oxygen", "ph", "temperature"] },
};

function ItemList(p: GroupProps) {
  const { raw, group, onKeep, wanted } = p;
  const id = useId();
  const listed = valueAt(raw, [group.path]);
  const items = Array.isArray(listed) ? (listed as readonly unknown[]) : [];
  const [word, setWord] = useState("");
  const [faults, setFaults] = useState<readonly Fault[]>([]);
  const { ask, names } = words[group.path] ?? { ask: "new item", names: () => [] };
  const keep = (name: string, after: readonly unknown[]): void =>
    onKeep(name, [changeAt(raw, [group.path], after, name)]);
  const add = (): void => {
    if (!word.trim()) return;
    const item = starter(group.path, word.trim());
    const { faults: found } = attempt(raw, [group.path], [...items, item], group.label);
    setFaults(found);
    if (found.length > 0) return;
    keep(`${group.label}: ${word.trim()}`, [...items, item]);
    setWord("");
  };
  return (
    <>
      {items.length === 0 && (
        <p className="absent">
          {group.absent === "defaults" ? "Nothing is typed; what is usual is assumed." : "None yet."}
        </p>
      )}
      <ol className="items">
        {items.map((_, i) => {
          const line = summary(raw, group.path, i);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: items have no name of their own
            <li key={i}>
              <details open={wanted.startsWith(`${group.path}[${i}]`)}>
                <summary>{line || `${group.label} ${i + 1}`}</summary>
                <Fields {...p} index={i} />
                <div className="item-acts">
                  <button
                    type="button"
                    className="link"
                    disabled={i === 0}
                    onClick={() => keep(`${group.label} reordered`, swapped(items, i, i - 1))}
                  >
                    up
                  </button>
                  <button
                    type="button"
                    className="link"
                    disabled={i === items.length - 1}
                    onClick={() => keep(`${group.label} reordered`, swapped(items, i, i + 1))}
                  >
                    down
                  </button>
                  <button
                    type="button"
                    className="link"
                    onClick={() =>
                      keep(
                        `without ${line.split(",")[0]}`,
                        items.filter((__, k) => k !== i),
                      )
                    }
                  >
                    remove<span className="hidden-text"> {line}</span>
                  </button>
                </div>
              </details>
            </li>
          );
        })}
      </ol>
      <div className="add-item">
        <label htmlFor={id}>Add: {ask}</label>
        <input
          id={id}
          list={`${id}-names`}
          value={word}
          autoComplete="off"
          onChange={(e) => setWord(e.target.value)}
          onKeyDown={(e) => e.key === "Enter" && add()}
          aria-invalid={faults.length > 0 || undefined}
        />
        <datalist id={`${id}-names`}>
          {names().map((n) => (
            <option key={n} value={n} />
          ))}
        </datalist>
        <button type="button" className="plain-button" onClick={add} disabled={!word.trim()}>
          Add
        </button>
      </div>
      {faults.length > 0 && (
        <div className="field-fault" role="alert">
          {faults.slice(0, 2).map((f) => (
            <p key={f.path + f.message}>
              {f.message}. <span>Allowed: {f.allowed}</span>
            </p>
          ))}
        </div>
      )}
    </>
  );
}

const swapped = (items: readonly unknown[], a: number, b: number): readonly unknown[] => {
  const copy = [...items];
  [copy[a], copy[b]] = [copy[b], copy[a]];
  return copy;
};
