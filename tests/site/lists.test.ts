// Lists of a large journal: by year, repeats of one pigment folded, in leaves; and the timeline.
import { fileURLToPath } from 'node:url';
import { toHtml } from 'hast-util-to-html';
import { toString as wordsOf } from 'hast-util-to-string';
import { beforeAll, describe, expect, it } from 'vitest';
import type { JournalModel } from '../../src/crosslinks/model.js';
import { openJournal } from '../../src/open.js';
import { feeds } from '../../src/site/feeds.js';
import { planSite, type SitePlan } from '../../src/site/plan.js';
import { samplesOfColourOnLeaf } from '../../templates/colours.js';
import { ideasInOrder, ideasOnLeaf, incidentsOnLeaf } from '../../templates/lists.js';
import { entriesByYear, entryLink, type ListedEntry } from '../../templates/parts/entry-list.js';
import { resultsPage } from '../../templates/results.js';
import { mostInCell } from '../../templates/series.js';
import { timelinePage } from '../../templates/timeline.js';
import { quoted } from '../quoted.js';

let model: JournalModel;
let plan: SitePlan;
beforeAll(async () => {
  model = (await openJournal(fileURLToPath(new URL('../../content', import.meta.url)), { drafts: true })).model!;
  plan = planSite(model);
});

const listedOn = (number: number, date: string, pigment?: string): ListedEntry => ({
  entry: { number, title: `Entry ${number}`, date, status: 'finished' },
  pigment,
  samples: [],
});

describe('what was not done is never shown as finished', () => {
  it.each([
    ['finished', ''],
    ['planned', ' (not done)'],
    ['running', ' (running)'],
    ['failed', ' (failed)'],
    ['abandoned', ' (not done)'],
    ['withdrawn', ' (withdrawn)'],
  ] as const)('a link to a %s entry says “%s”', (status, said) => {
    const { entry } = listedOn(3, '2026-01-01');
    expect(wordsOf(entryLink(plan.context, { ...entry, status }))).toBe(`3 Entry 3${said}`);
  });
  it('in lists and in the results it says why', () => {
    const { entry, ...rest } = listedOn(3, '2026-01-01');
    const given = { ...entry, status: 'abandoned', why: 'There is no fume hood.' } as const;
    expect(wordsOf(entriesByYear(plan.context, [{ ...rest, entry: given }])[0]!)).toContain(
      'not done: There is no fume hood',
    );
    const items = model.samples.slice(0, 1).map((row) => ({ ...row, entry: given }));
    const results = resultsPage(plan.context, { items, number: 1, of: 1 }, 1, '/sort.js');
    expect(wordsOf(results)).toContain('not done: There is no fume hood');
  });
  it('feeds say it before the title, and why before all else', () => {
    const written = feeds(plan.context, model).map(({ content }) => String(content));
    expect(written).toHaveLength(2);
    for (const feed of written) {
      expect(feed).toMatch(/Not done: 31 /);
      expect(feed).toContain('Not done: There is no fume hood here');
    }
  });
});

describe('a list of entries', () => {
  it('stands by year, and repeats of one pigment in a year are folded into the newest', () => {
    const sections = entriesByYear(plan.context, [
      listedOn(5, '2026-05-01', 'malachite'),
      listedOn(4, '2026-02-01', 'azurite'),
      listedOn(3, '2026-01-01', 'malachite'),
      listedOn(2, '2025-03-01', 'malachite'),
      listedOn(1, '2025-01-01'),
    ]);
    expect(sections).toHaveLength(2);
    expect(wordsOf(sections[0]!)).toMatch(/^2026.*1 more of malachite this year3 Entry 3, 1 January 2026/s);
    expect(toHtml(sections[0]!).match(/entry-list-number/g)).toHaveLength(2);
    expect(toHtml(sections[1]!).match(/entry-list-number/g)).toHaveLength(2);
    expect(toHtml(sections[1]!)).not.toContain('<details');
  });
});

describe('the timeline', () => {
  it('has every entry once, under its month, newest first, with what became of it in words', () => {
    const html = quoted(plan.pages.get('/timeline/')!.render().html);
    const linked = [...html.matchAll(/href="\/journal\/(\d+)\/"/g)].map((found) => Number(found[1]));
    expect([...linked].sort((a, b) => a - b)).toEqual(
      model.entries.map(({ entry }) => entry.number).sort((a, b) => a - b),
    );
    expect(html).toMatch(/id="y2026".*id="m2026-03".*\/22\/.*\/21\/.*id="y2025"/s);
    expect(html).toMatch(/title="26: [^"]*, withdrawn/);
  });
  it('has no mark of colour where none was read', () => {
    const [mark] = [{ number: 1, title: 'One', date: '2026-01-01', colours: [] }];
    expect(toHtml(timelinePage(plan.context, [mark!]), { space: 'html' })).toContain('stroke-dasharray');
  });
});

describe('ideas', () => {
  it('stand newest first, those that were answered after all open ones', () => {
    const ideas = ideasInOrder(model.ideas);
    expect(ideas).toHaveLength(model.ideas.length);
    expect(ideas.findIndex(({ closed }) => closed)).toBe(ideas.filter(({ closed }) => !closed).length);
    const dates = ideas.filter(({ closed }) => !closed).map(({ entry }) => entry.date);
    expect(dates).toEqual([...dates].sort().reverse());
  });
});

describe('long lists', () => {
  const many = <T>(items: readonly T[], count: number): T[] =>
    Array.from({ length: count }, (_, at) => items[at % items.length]!);

  it('are laid out in leaves: colours, incidents, and each colour of an element that has too many entries', () => {
    const blue = model.families.find(({ family }) => family === 'blue')!;
    const iron = model.series.find(({ element }) => element === 'Fe')!;
    const cell = iron.cells.find(({ entries }) => entries.length > 0)!;
    const large: JournalModel = {
      ...model,
      incidents: many(model.incidents, 2 * incidentsOnLeaf + 1),
      ideas: many(model.ideas, 2 * ideasOnLeaf + 1),
      reagents: many(model.reagents, 500),
      families: [{ ...blue, samples: many(blue.samples, samplesOfColourOnLeaf + 1) }],
      series: [{ ...iron, cells: [{ ...cell, entries: many(cell.entries, mostInCell + 1) }] }],
    };
    const { pages } = planSite(large);
    for (const address of ['/incidents/3/', '/ideas/3/', '/colours/blue/2/', `/series/Fe/${cell.family}/`])
      expect([...pages.keys()], address).toContain(address);
    expect(quoted(pages.get('/series/Fe/')!.render().html)).toContain(`href="/journal/series/Fe/${cell.family}/"`);
    expect(pages.get('/colours/blue/2/')!.render().html).toContain('Leaf 2 of 2');
    const reagents = quoted(pages.get('/reagents/')!.render().html);
    expect(reagents.match(/<details class="letter"/g)!.length).toBeGreaterThan(10);
    expect(reagents.match(/<th scope="row">/g)).toHaveLength(500);
    expect(quoted(plan.pages.get('/reagents/')!.render().html)).not.toContain('<details class="letter"');
    expect([...plan.pages.keys()].filter((address) => /^\/series\/\w+\/\w+/.test(address))).toEqual([]);
  });
});
