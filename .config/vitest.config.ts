// Settings of the test run; kept here because the top level of the project is fixed.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { templateRuntime } from './template-runtime.ts';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  resolve: { alias: templateRuntime },
  test: {
    globalSetup: ['./tables.ts', './chromium.ts'].map((file) => fileURLToPath(new URL(file, import.meta.url))),
    setupFiles: [fileURLToPath(new URL('./one-seed.ts', import.meta.url))],
    include: ['tests/**/*.test.{ts,tsx}'],
    reporters: ['default', fileURLToPath(new URL('./closing-line.ts', import.meta.url))],
    // By itself it would leave one core to itself, and on two cores take nearly twice as long.
    maxWorkers: '100%',
    testTimeout: 30_000,
    hookTimeout: 120_000,
  },
});
