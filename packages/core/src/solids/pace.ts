/** How long work is let run: it can be stopped, and tells how far it is. */
export interface WorkOptions {
  readonly signal?: AbortSignal;
  /** Told the share done, 0..1, now and then. */
  readonly onProgress?: (share: number) => void;
}

/** Longest that work holds the event loop before it lets others have a turn, ms. Design value, half of what is promised. */
const turnLength = 15;

/** Lets long work give way, stop when told to and say how far it is. */
export class Pace {
  private since = performance.now();
  private readonly options: WorkOptions;
  private from = 0;
  private span = 1;
  private told = 0;

  constructor(options: WorkOptions) {
    this.options = options;
    options.signal?.throwIfAborted();
  }

  /** The work to come is a part of the whole, from one share of it to another. */
  part(from: number, to: number): this {
    this.from = from;
    this.span = to - from;
    return this;
  }

  /**
   * Does `count` units in slices of `step`, giving way between them where it is time.
   * @throws the signal's reason when it is stopped.
   */
  async slices(count: number, step: number, work: (from: number, to: number) => void): Promise<void> {
    for (let from = 0; from < count; from += step) {
      const to = Math.min(count, from + step);
      work(from, to);
      if (performance.now() - this.since > turnLength) await this.rest(to / count);
    }
    if (count === 0) this.options.signal?.throwIfAborted();
  }

  /** Gives way where it is time, between two pieces of work that each run through. */
  async turn(): Promise<void> {
    if (performance.now() - this.since > turnLength) await this.rest(0);
  }

  /** Gives way at once. */
  async rest(share: number): Promise<void> {
    this.options.signal?.throwIfAborted();
    // A part may be gone through several times; what was told is not taken back.
    this.told = Math.max(this.told, this.from + this.span * share);
    this.options.onProgress?.(this.told);
    await new Promise<void>((resolve) => {
      // Browsers have no setImmediate; their timers serve.
      if (typeof setImmediate === "function") setImmediate(resolve);
      else setTimeout(resolve, 0);
    });
    this.options.signal?.throwIfAborted();
    this.since = performance.now();
  }
}
