// Settings of the tests that mutants are run against: those of one room, in one process, with one seed, without a
// browser.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { templateRuntime } from './template-runtime.ts';

const asked = (process.env.MUTATED_TESTS ?? '').split(',').filter((path) => path !== '');

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  resolve: { alias: templateRuntime },
  test: {
    include: asked.map((path) => `tests/${path.endsWith('.ts') ? path : `${path}/**/*.test.{ts,tsx}`}`),
    setupFiles: [fileURLToPath(new URL('./one-seed.ts', import.meta.url))],
    // The run itself stops a mutant that never ends.
    testTimeout: 300_000,
  },
});
