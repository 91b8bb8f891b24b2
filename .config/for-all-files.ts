// A folder for what one test file makes and others look at too: it is there as long as the tests run.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    forAllFiles: string;
  }
}

export default function setup(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'masstone-tests-'));
  project.provide('forAllFiles', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
