// Ends a test run with one plain line: how many tests passed, how many failed, and how many were left out by a filter.
import type { Reporter, TestModule } from 'vitest/node';

export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    let passed = 0;
    let failed = errors.length;
    let skipped = 0;
    for (const module of modules) {
      let failedHere = 0;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'skipped') skipped += 1;
        else failedHere += 1;
      }
      if (failedHere === 0 && module.state() === 'failed') failedHere = 1;
      failed += failedHere;
    }
    // Printed after the default reporter's own summary.
    setImmediate(() =>
      process.stdout.write(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`),
    );
  }
}
