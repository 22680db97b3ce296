import type { Reporter, TestModule } from "vitest/node";

/** Prints one closing line that any log reader understands. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      if (!module.ok() && module.children.size === 0) counts.failed += 1;
      for (const test of module.children.allTests()) {
        const state = test.result().state;
        counts[state === "pending" ? "skipped" : state] += 1;
      }
    }
    process.on("exit", () => {
      process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped\n`);
    });
  }
}
