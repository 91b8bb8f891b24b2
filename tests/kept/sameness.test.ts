// A short, seeded portion of `npm run sameness`: what is made of the changes is the same as what is made of everything.
import { expect, it } from 'vitest';

interface Told {
  readonly found: readonly string[];
  readonly counts: Readonly<Record<'published' | 'refused' | 'damaged', number>>;
}

it('a journal edited by chance: publications and pages of the reading copy, byte by byte', async () => {
  const { chance } = (await import('../attack/chance.mjs' as string)) as { chance: (seed: number) => unknown };
  const { sameness } = (await import('./sameness.mjs' as string)) as {
    sameness: (settings: { random: unknown; steps: number; damage: number; pages: number }) => Promise<Told>;
  };
  const { found, counts } = await sameness({ random: chance(20260314), steps: 8, damage: 3, pages: 15 });
  expect(found).toEqual([]);
  expect(counts.published).toBeGreaterThan(3);
  expect(counts.damaged).toBeGreaterThan(0);
}, 300_000);
