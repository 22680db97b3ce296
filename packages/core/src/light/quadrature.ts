const POINTS = 64;

/** Nodes and weights of the Gauss-Legendre rule on -1 to 1, by Newton steps on the Legendre polynomial. */
function gaussLegendre(points: number): readonly (readonly [node: number, weight: number])[] {
  return Array.from({ length: points }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (points + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step += 1) {
      let p = 1;
      let before = 0;
      for (let k = 1; k <= points; k += 1) [p, before] = [((2 * k - 1) * x * p - (k - 1) * before) / k, p];
      slope = (points * (x * p - before)) / (x * x - 1);
      x -= p / slope;
    }
    return [x, 2 / ((1 - x * x) * slope * slope)] as const;
  });
}

const rule = gaussLegendre(POINTS);

/** Integral of a smooth function from a to b, 64-point Gauss-Legendre. */
export function integral(f: (x: number) => number, a: number, b: number): number {
  const middle = 0.5 * (a + b);
  const half = 0.5 * (b - a);
  let sum = 0;
  for (const [node, weight] of rule) sum += weight * f(middle + half * node);
  return half * sum;
}
