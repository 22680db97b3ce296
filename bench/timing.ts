/** Times of `count` calls, ms, after a third as many to warm up. */
export function sampled(count: number, work: () => unknown): number[] {
  for (let i = 0; i < count / 3; i += 1) work();
  return Array.from({ length: count }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
}

export function quantilesOf(times: readonly number[]): { median: number; p95: number; max: number } {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (q: number): number => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
  return { median: at(0.5), p95: at(0.95), max: at(1) };
}
