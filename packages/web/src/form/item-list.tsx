import { valueAt } from "@lentic/core/plan";
import { useEffect, useLayoutEffect, useRef, useState } from "react";
import { Words } from "../parts/words.tsx";
import { AddItem } from "./add-item.tsx";
import { draftsOf, moveDrafts } from "./drafts.ts";
import { Fields, type GroupProps } from "./fields.tsx";
import { type Followed, follow, moveItem, summary, takeItem } from "./model.ts";

/** The items of a list, each a line that opens to its fields; added, moved and taken out one by one. */
export function ItemList(p: GroupProps) {
  const { tank, raw, plan, group, fields, wanted, onKeep } = p;
  const listed = valueAt(raw, [group.path]);
  const items = Array.isArray(listed) ? (listed as readonly unknown[]) : [];
  const known = useRef<readonly Followed[]>(items.map((item, id) => ({ id, item })));
  const rows = follow(known.current, items);
  const list = useRef<HTMLOListElement>(null);
  const [opened, setOpened] = useState<ReadonlySet<number>>(() => {
    const drafts = Object.keys(draftsOf(tank));
    const asked = (i: number): boolean => [wanted, ...drafts].some((path) => path.startsWith(`${group.path}[${i}]`));
    return new Set(items.map((_, i) => i).filter(asked));
  });
  const open = (id: number, on: boolean): void =>
    setOpened((before) => {
      if (before.has(id) === on) return before;
      const next = new Set(before);
      if (on) next.add(id);
      else next.delete(id);
      return next;
    });

  // before the fields look for their drafts
  // biome-ignore lint/correctness/useExhaustiveDependencies: the items are what changes
  useLayoutEffect(() => {
    const before = known.current;
    known.current = rows;
    const to = (from: number): number | null => {
      const id = before[from]?.id;
      const at = rows.findIndex((r) => r.id === id);
      return at < 0 ? null : at;
    };
    if (before.some((_, i) => to(i) !== i)) moveDrafts(tank, group.path, to);
  }, [listed]);

  // what was pressed may have moved or gone: the keyboard stays where the hand was
  const [focus, setFocus] = useState<{ readonly row: number; readonly act: string } | null>(null);
  const [adding, setAdding] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: done once the items have changed
  useEffect(() => {
    if (adding) open(rows.at(-1)?.id ?? 0, true);
    setAdding(false);
    if (!focus) return;
    setFocus(null);
    const line = list.current?.children[Math.min(focus.row, rows.length - 1)];
    const add = list.current?.parentElement?.querySelector<HTMLElement>(".add-item input, .add-item select");
    const act = line?.querySelector<HTMLElement>(`[data-act="${focus.act}"]:not(:disabled)`);
    (act ?? line?.querySelector("summary") ?? add)?.focus();
  }, [listed]);

  return (
    <>
      {items.length === 0 && group.absent === "none" && <p className="absent">None yet.</p>}
      <ol className="items" ref={list}>
        {rows.map(({ id }, i) => {
          const { head, rest, assumed } = summary(plan, raw, fields, i);
          const move = (to: number, act: string): void => {
            setFocus({ row: to, act });
            onKeep(`${head} moved`, moveItem(raw, group.path, i, to, `${head} moved`));
          };
          const species = group.path === "plants" || group.path === "animals";
          return (
            <li key={id}>
              <details open={opened.has(id)} onToggle={(e) => open(id, e.currentTarget.open)}>
                <summary>
                  <span className="line">
                    <b className={species ? "botanical" : undefined}>
                      <Words>{head}</Words>
                    </b>
                    {rest && <span>, {rest}</span>}
                    {assumed > 0 && <small>, {assumed} assumed</small>}
                  </span>
                </summary>
                {opened.has(id) && (
                  <>
                    <Fields {...p} index={i} />
                    <div className="item-acts">
                      <button
                        type="button"
                        className="link"
                        data-act="up"
                        disabled={i === 0}
                        onClick={() => move(i - 1, "up")}
                      >
                        up<span className="hidden-text">: {head}</span>
                      </button>
                      <button
                        type="button"
                        className="link"
                        data-act="down"
                        disabled={i === rows.length - 1}
                        onClick={() => move(i + 1, "down")}
                      >
                        down<span className="hidden-text">: {head}</span>
                      </button>
                      <button
                        type="button"
                        className="link"
                        onClick={() => {
                          setFocus({ row: i, act: "" });
                          onKeep(`without ${head}`, [takeItem(raw, group.path, i, `without ${head}`)]);
                        }}
                      >
                        remove<span className="hidden-text"> {head}</span>
                      </button>
                    </div>
                  </>
                )}
              </details>
            </li>
          );
        })}
      </ol>
      <AddItem
        tank={tank}
        raw={raw}
        group={group}
        fields={fields}
        onKeep={(name, changes) => {
          setAdding(true);
          onKeep(name, changes);
        }}
      />
    </>
  );
}
