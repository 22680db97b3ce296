import { animals, type FactKind, plants, stones, substrates, woods } from "@lentic/core/facts";

interface Name {
  readonly name: string;
  /** Another name that people know it by. */
  readonly also?: string;
}

const known: Readonly<Record<FactKind, () => readonly Name[]>> = {
  plant: () => plants.map((p) => ({ name: p.name })),
  animal: () => animals.map((a) => ({ name: a.name, also: a.common })),
  substrate: () => substrates.map((m) => ({ name: m.id })),
  stone: () => stones.map((m) => ({ name: m.id })),
  wood: () => woods.map((m) => ({ name: m.id })),
};

/** Id of the list of names that a field is completed from. */
export const namesId = (kind: FactKind): string => `names-${kind}`;

/** Names known of some kinds, once a page, for fields to be completed from. */
export function Names({ kinds }: { kinds: readonly FactKind[] }) {
  return kinds.map((kind) => (
    <datalist key={kind} id={namesId(kind)}>
      {known[kind]().map(({ name, also }) => (
        <option key={name} value={name} label={also} />
      ))}
    </datalist>
  ));
}
