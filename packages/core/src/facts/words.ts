/** Letters and digits in lower case, parted by single spaces; accents, dashes and dots fall away. */
export function plainWords(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/['’]/g, "")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();
}

/** The id of a name: "Rotala rotundifolia" -> "rotala-rotundifolia". */
export function idOf(name: string): string {
  return plainWords(name).replaceAll(" ", "-");
}

/** Number of letters to add, drop, change or swap with a neighbour to turn one word into another. */
export function lettersApart(a: string, b: string): number {
  const width = b.length + 1;
  let beforeLast = new Array<number>(width).fill(0);
  let last = Array.from({ length: width }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j < width; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, (beforeLast[j - 2] ?? 0) + 1);
      }
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? 0;
}
