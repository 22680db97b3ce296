/** A step back or forward in what was done to a plan. */
export type Step = "undo" | "redo";

/**
 * Steps taken one after another, each once what was changed before it has been kept: a step sent too early would be one
 * from another state, and be refused.
 */
export class Steps {
  private readonly waiting: Step[] = [];
  private running = false;
  private readonly settled: () => boolean;
  private readonly take: (step: Step) => Promise<void>;

  /** @param settled whether every change made so far is kept; @param take does one step */
  constructor(settled: () => boolean, take: (step: Step) => Promise<void>) {
    this.settled = settled;
    this.take = take;
  }

  ask(step: Step): void {
    this.waiting.push(step);
    void this.go();
  }

  /** To be called when something may have settled. */
  async go(): Promise<void> {
    if (this.running) return;
    this.running = true;
    try {
      while (this.waiting.length > 0 && this.settled()) await this.take(this.waiting.shift()!);
    } finally {
      this.running = false;
    }
  }
}
