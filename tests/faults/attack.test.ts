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
