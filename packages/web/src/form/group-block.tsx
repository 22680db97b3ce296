import { changeAt, type Group, valueAt } from "@lentic/core/plan";
import { useSettings } from "../data/settings.ts";
import { Words } from "../parts/words.tsx";
import { Fields, type GroupProps } from "./fields.tsx";
import { ItemList } from "./item-list.tsx";
import { ghostText, pathOf, resolvedAt } from "./model.ts";

/** What the group is called within a sentence. */
const noun = (group: Group): string => (group.label === "CO2" ? "added CO2" : group.label.toLowerCase());

/** A group of the plan: its fields, its items, or the offer to put it in. */
export function GroupBlock(p: GroupProps) {
  const { group } = p;
  const id = group.path || "plan";
  return (
    <section className="group" id={id} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>
        <Words>{group.label}</Words>
      </h2>
      <p className="group-help">
        {/* the rest of the sentence is about the file */}
        <Words>{`${group.help.split(";")[0]!.replace(/\.$/, "")}.`}</Words>
      </p>
      {!group.list ? <OneGroup {...p} /> : <ListGroup {...p} />}
    </section>
  );
}

function OneGroup(p: GroupProps) {
  const { group, raw, plan } = p;
  if (group.absent === "defaults") return <Fields {...p} index={null} />;
  const word = noun(group);
  const put = (after: unknown, name: string): void => p.onKeep(name, [changeAt(raw, [group.path], after, name)]);
  return resolvedAt(plan, [group.path]) === undefined ? (
    <p className="absent">
      <Words>{`This tank has no ${word}.`}</Words>{" "}
      <button type="button" className="link" onClick={() => put({}, `${word} added`)}>
        <Words>{`Add ${word.replace("added ", "")}`}</Words>
      </button>
    </p>
  ) : (
    <>
      <Fields {...p} index={null} />
      <button type="button" className="link take-out" onClick={() => put(undefined, `no ${word}`)}>
        <Words>{`Take the ${word.replace("added ", "")} out of the plan`}</Words>
      </button>
    </>
  );
}

/** A list; where leaving it out means that something usual is assumed, that can be said to be wrong. */
function ListGroup(p: GroupProps) {
  const { group, raw, plan, fields } = p;
  const us = useSettings().units === "us";
  if (group.absent !== "defaults") return <ItemList {...p} />;
  const put = (after: unknown, name: string): void => p.onKeep(name, [changeAt(raw, [group.path], after, name)]);
  const usual = fields
    .map((f) => ({ f, value: resolvedAt(plan, pathOf(f, 0)) }))
    .filter(({ value }) => value !== undefined)
    .map(({ f }) => (f.kind === "fact" ? "" : `${f.label.toLowerCase()} `) + ghostText(plan, f, pathOf(f, 0), us));
  return (
    <>
      {valueAt(raw, [group.path]) === undefined ? (
        <p className="absent">
          Assumed: {usual.join(", ")}.{" "}
          <button type="button" className="link" onClick={() => put([], `no ${noun(group)}`)}>
            The bottom is bare
          </button>
        </p>
      ) : (
        Array.isArray(valueAt(raw, [group.path])) &&
        (valueAt(raw, [group.path]) as unknown as readonly unknown[]).length === 0 && (
          <p className="absent">
            The bottom is bare.{" "}
            <button type="button" className="link" onClick={() => put(undefined, `${noun(group)} as assumed`)}>
              Assume the usual
            </button>
          </p>
        )
      )}
      <ItemList {...p} />
    </>
  );
}
