// A short, seeded portion of `npm run attack`: nothing lost, nothing run, no trace.
import { expect, it } from 'vitest';

interface Report {
  readonly tried: number;
  readonly found: readonly string[];
  readonly words: string;
}
interface Attack {
  (settings: { random: unknown; until: number; only: number; report: (report: Report) => void }): Promise<void>;
}

/** What an attack of so many tries did. */
async function attackedBy(file: string, name: string, seed: number, only: number): Promise<Report> {
  const { chance } = (await import('../attack/chance.mjs' as string)) as { chance: (seed: number) => unknown };
  const attack = ((await import(`../attack/${file}.mjs`)) as Record<string, Attack>)[name]!;
  let reported: Report | undefined;
  await attack({ random: chance(seed), until: Infinity, only, report: (report) => (reported = report) });
  return reported!;
}

it.each([
  ['journals and reading files that were changed by chance', 'mutated', 'attackJournals', 40],
  ['faults and kills at the writes of a publication', 'writes', 'attackWrites', 24],
  ['two publications at once', 'processes', 'attackPairs', 3],
  ['requests as no browser writes them', 'server', 'attackServer', 300],
  ['injections in a browser without the pages’ policy', 'browser', 'attackBrowser', 60],
])('%s do no harm', { timeout: 120_000 }, async (_, file, name, only) => {
  const { tried, found } = await attackedBy(file, name, 20260314, only);
  expect(found).toEqual([]);
  expect(tried).toBeGreaterThanOrEqual(only);
});

interface Writes {
  prepare(): Promise<unknown>;
  faultAt(prepared: unknown, at: number, how: string, begin: string): Promise<string | undefined>;
  killedTwice(prepared: unknown, first: number, second: number, begin: string): Promise<string | undefined>;
}
const writes = async (): Promise<Writes> => (await import('../attack/writes.mjs' as string)) as Writes;

it('a publication that is killed while it begins in the site before last leaves nothing that stays', async () => {
  const { prepare, faultAt } = await writes();
  const prepared = await prepare();
  for (let at = 10; at <= 20; at += 1) expect(await faultAt(prepared, at, 'killed', 'spare')).toBeUndefined();
}, 120_000);

it('nor does one that is killed while it clears away what another left', async () => {
  const { prepare, killedTwice } = await writes();
  const prepared = await prepare();
  for (let second = 1; second <= 16; second += 1)
    expect(await killedTwice(prepared, 60, second, 'plain')).toBeUndefined();
}, 120_000);
