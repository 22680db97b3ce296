/** The allowed words that a mistyped one comes nearest to, best first. */
export function closest(word: string, allowed: readonly string[]): string | undefined {
  const plain = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, "");
  const typed = plain(word).slice(0, 60);
  let best: string | undefined;
  let least = Math.max(1, Math.floor(typed.length / 2.5)) + 1;
  for (const candidate of allowed) {
    const apart = lettersApart(typed, plain(candidate));
    if (apart < least) {
      least = apart;
      best = candidate;
    }
  }
  return best;
}

/** Letters to add, drop or change to turn one word into the other. */
function lettersApart(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** What a person typed, cut to a length fit for a message. */
export function short(words: string): string {
  return words.length > 40 ? `${words.slice(0, 39)}…` : words;
}
