type Place = readonly [x: number, y: number];

interface GripsProps {
  /** Opposite corners of what is held, px. */
  readonly from: Place;
  readonly to: Place;
  readonly turns: boolean;
  readonly sizes: boolean;
}

/** How far above its box a thing is turned by, px: where its mark is drawn. */
const stalk = 19;

/** Where a finger finds the marks of the thing in hand: wider than they are drawn. */
export function Grips({ from, to, turns, sizes }: GripsProps) {
  const [left, top] = [Math.min(from[0], to[0]), Math.min(from[1], to[1])];
  const [right, bottom] = [Math.max(from[0], to[0]), Math.max(from[1], to[1])];
  const corners: readonly Place[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  return (
    <g className="grips">
      {turns && <circle data-handle="turn" cx={(left + right) / 2} cy={top - stalk} r={15} />}
      {sizes &&
        corners.map(([x, y]) => (
          <rect key={`${x},${y}`} data-handle="corner" x={x - 13} y={y - 13} width={26} height={26} />
        ))}
    </g>
  );
}
