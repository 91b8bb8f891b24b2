// A label that is too small: the size that is told instead is one that holds it.
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { command } from '../../src/commands/labels.js';
import { run } from '../commands/bench.js';

const content = fileURLToPath(new URL('../../content', import.meta.url));

test.each(['10x10mm', '20x15mm', '30x12mm'])('%s: what is asked for instead has room', async (size) => {
  const { code, aside, result } = await run(command, '4', '--size', size, '--journal', content);
  expect(code).toBe(1);
  const [told] = /\d+x\d+mm(?= has room)/.exec(`${aside}${result}`) ?? [];
  expect(told).toBeDefined();
  expect((await run(command, '4', '--size', told!, '--journal', content)).code).toBe(0);
});
