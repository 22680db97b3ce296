/** A rectangle that a label takes, in drawing units. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Spot {
  readonly x: number;
  /** Baseline. */
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

const overlaps = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Width of text in the strip's face at 12 px; a little generous. */
export const textWidth = (text: string, size = 12): number => text.length * size * 0.52;

/** Places labels one after another so that none covers another: the first free spot of each label's own list. */
export class Labels {
  private readonly taken: Box[] = [];
  private readonly bounds: Box;
  constructor(bounds: Box) {
    this.bounds = bounds;
  }

  /** Takes a rectangle for something that is not a label. */
  reserve(box: Box): void {
    this.taken.push(box);
  }

  /** The first spot of the list at which the text covers nothing; null when there is none (better no label than two on each other). */
  place(text: string, spots: readonly Spot[], size = 12, lines = 1): Spot | null {
    const width = textWidth(text, size);
    for (const spot of spots) {
      const x = spot.anchor === "start" ? spot.x : spot.anchor === "end" ? spot.x - width : spot.x - width / 2;
      const box = { x, y: spot.y - size, width, height: size * 1.25 * lines };
      if (box.x < this.bounds.x || box.x + width > this.bounds.x + this.bounds.width) continue;
      if (box.y < this.bounds.y || box.y + box.height > this.bounds.y + this.bounds.height) continue;
      if (this.taken.some((t) => overlaps(t, box))) continue;
      this.taken.push(box);
      return spot;
    }
    return null;
  }
}
