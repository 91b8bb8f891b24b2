// Reckonings of a workshop as somebody wrote them down who had not seen the code: worked examples of textbooks and sums
// by hand, asked of `weigh` and of the published data. tests/reference/reckonings/README.md tells of them.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { command } from '../../src/commands/weigh.js';
import { openJournal } from '../../src/open.js';
import { isPieces } from '../../src/site/assets.js';
import { writeData } from '../../src/site/data.js';
import { referenceRows } from '../reference/read.js';
import { run } from './bench.js';

const journal = fileURLToPath(new URL('../reference/reckonings/journal', import.meta.url));
const rows = referenceRows('reckonings/cases.csv').map((row) => row as Record<keyof Row, string>);

interface Row {
  readonly id: string;
  readonly asked: string;
  /** Keys with dots between; `[number=8]` is the one of a list that has it. */
  readonly path: string;
  readonly expected: string;
  readonly tolerance: string;
  readonly source: string;
}

const published = new Map<string, unknown>();
beforeAll(async () => {
  const { model } = await openJournal(journal);
  for (const { address, content } of writeData(model!)) {
    if (/\/(?:entries|reagents)\.json$/.test(address))
      published.set(address.slice(1), JSON.parse(isPieces(content) ? [...content.pieces()].join('') : String(content)));
  }
}, 60_000);

const wordsOf = (asked: string): string[] =>
  [...asked.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);

const answers = new Map<string, unknown>();
async function answerTo(asked: string): Promise<unknown> {
  if (asked.startsWith('data/')) return published.get(asked);
  if (!answers.has(asked)) {
    const [, ...words] = wordsOf(asked);
    answers.set(asked, (await run(command, ...words, '--json', '--journal', journal)).json);
  }
  return answers.get(asked);
}

function at(json: unknown, path: string): any {
  let here: any = json;
  for (const key of path.match(/\[[^\]]*\]|[^.[]+/g)!) {
    const [, name, value] = /^\[(\w+)=(.*)\]$/.exec(key) ?? [];
    here = name === undefined ? here?.[key] : here?.find((one: any) => String(one[name]) === value);
  }
  return here;
}

describe('reckonings written by somebody who had not seen the code', () => {
  test.each(rows.map((row) => [row.id, row] as const))('%s', async (_, { asked, path, expected, tolerance }) => {
    const found = at(await answerTo(asked), path);
    if (tolerance === 'exact') {
      expect(String(found)).toBe(expected);
      return;
    }
    const [, number, unit] = /^(\S+)\s*(.*)$/.exec(expected)!;
    const [kind, width] = tolerance.split(' ');
    const allowed = Number(width) * (kind === 'rel' ? Math.abs(Number(number)) : 1);
    expect(Math.abs(Number(found?.value ?? found) - Number(number))).toBeLessThanOrEqual(allowed);
    if (unit !== '' && found.unit !== undefined) expect(found.unit).toBe(unit);
  });

  test('each has its source, and all of them are asked', () => {
    expect(rows).toHaveLength(95);
    expect(rows.filter(({ source }) => source === '')).toEqual([]);
    expect(readFileSync(`${journal}/journal.yaml`, 'utf8')).toContain('title');
  });
});
