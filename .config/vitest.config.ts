// Settings of the test run; kept here because the top level of the project is fixed.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { alone } from './alone.ts';
import LongFirst from './long-first.ts';
import { templateRuntime } from './template-runtime.ts';

const beside = (file: string): string => fileURLToPath(new URL(file, import.meta.url));

const root = beside('..');
const resolve = { alias: templateRuntime };
const ofEach = {
  setupFiles: [beside('./one-seed.ts')],
  // What hangs is stopped; no test is told by it that the machine is busy.
  testTimeout: 120_000,
  hookTimeout: 120_000,
};

export default defineConfig({
  root,
  test: {
    globalSetup: ['./tables.ts', './chromium.ts', './for-all-files.ts'].map(beside),
    reporters: ['default', beside('./closing-line.ts')],
    // By itself it would leave one core to itself, and on two cores take nearly twice as long.
    maxWorkers: '100%',
    sequence: { sequencer: LongFirst },
    projects: [
      { root, resolve, test: { ...ofEach, name: 'alone', include: Object.keys(alone) } },
      {
        root,
        resolve,
        test: {
          ...ofEach,
          name: 'together',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: Object.keys(alone),
          // Loading the modules and what follows from the tables took longer than most tests.
          isolate: false,
        },
      },
    ],
  },
});
