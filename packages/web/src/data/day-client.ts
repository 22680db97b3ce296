import { type Remote, wrap } from "comlink";
import type { DayWorker } from "../worker.ts";

/**
 * `finger` follows a drag and must never wait; `desk` works out ranges, findings and remedies, which take longer; `light`
 * follows the lamps' light. All run one script, so that what they share comes over the line once.
 */
export type Thread = "finger" | "desk" | "light";

const threads = new Map<Thread, Remote<DayWorker>>();

/** The model, in a thread of its own; started when first needed. */
export function dayWorker(thread: Thread = "finger"): Remote<DayWorker> {
  let remote = threads.get(thread);
  if (!remote) {
    remote = wrap<DayWorker>(new Worker(new URL("../worker.ts", import.meta.url), { type: "module", name: thread }));
    threads.set(thread, remote);
  }
  return remote;
}

/**
 * Runs one job at a time and, when jobs come faster than they end, only the newest: what follows a finger must not queue.
 */
export class Latest {
  private running = false;
  private next: (() => Promise<void>) | null = null;

  ask(job: () => Promise<void>): void {
    this.next = job;
    if (!this.running) void this.drain();
  }

  private async drain(): Promise<void> {
    this.running = true;
    try {
      while (this.next) {
        const job = this.next;
        this.next = null;
        await job();
      }
    } finally {
      this.running = false;
    }
  }
}
