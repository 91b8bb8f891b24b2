// No single fault of a journal silences the dangers of what is otherwise readable: not in its settings, not on its
// shelf, not in the form of an entry.
import { describe, expect, it } from 'vitest';
import { foreseeInEntry } from '../../src/commands/foresee/of-entry.js';
import { openJournal } from '../../src/open.js';
import { publish } from '../../src/site/publish.js';
import { folderOf } from '../journal-folder.js';

type Files = Readonly<Record<string, string | Buffer>>;

const settings = { title: 'T', author: 'A', address: 'https://a.example/' };
const lines = (keys: Readonly<Record<string, unknown>>): string =>
  Object.entries(keys)
    .map(([key, value]) => `${key}: ${value}\n`)
    .join('');
const shelf =
  'prussiate: { name: yellow prussiate of potash, formula: "K4[Fe(CN)6]·3H2O" }\n' +
  'acid: { name: hydrochloric acid, strength: 30 % }\n';
const four = { number: 1, title: 'Blue', date: '2026-03-14', status: 'finished' };
const mixed =
  'reagents:\n  - { reagent: prussiate, amount: 20 g }\n  - { reagent: acid, amount: 50 ml }\nheating: [{ to: 100 °C }]\n';
const matter = (keys = {}, more = ''): string => `${lines({ ...four, ...keys })}${mixed}${more}`;
const fenced = (text: string): string => `---\n${text}---\n`;

const entryFile = 'entries/001-blue.md';
const journal = (files: Files): string =>
  folderOf({ 'journal.yaml': lines(settings), 'shelf.yaml': shelf, [entryFile]: fenced(matter()), ...files });

/** Boiled with strong acid the prussiate gives hydrogen cyanide, whatever else is wrong. */
async function expectForeseen(folder: string): Promise<void> {
  const { remarks } = await openJournal(folder);
  expect(remarks.filter(({ ruleId }) => ruleId === 'danger-unanswered').map(({ reason }) => reason)).toContainEqual(
    expect.stringContaining('HCN'),
  );
  const answer = await foreseeInEntry({ number: 1, added: [], heating: [] }, folder);
  expect(answer.ok && answer.value.foreseen.map(({ gas }) => gas)).toContain('HCN');
}

const without = (key: keyof typeof settings): string =>
  lines(Object.fromEntries(Object.entries(settings).filter(([one]) => one !== key)));

describe('settings that are wrong', () => {
  it.each([
    ['no title', without('title')],
    ['no author', without('author')],
    ['no address', without('address')],
    ['an empty address', lines({ ...settings, address: '' })],
    ['an address that is none', lines({ ...settings, address: 'example' })],
    ['a title that is keys', lines({ ...settings, title: '{ a: b, c: d }' })],
    ['nothing at all', ''],
    ['a list', '- a\n- b\n'],
    ['a second colon', lines({ ...settings, title: 'Blue: again' })],
    ['a tab', 'title: T\n\tauthor: A\n'],
    ['an open quote', lines({ ...settings, title: '"T' })],
    ['a key that stands twice', `${lines(settings)}title: X\n`],
    ['UTF-16', Buffer.from(`\ufeff${lines(settings)}`, 'utf16le')],
    ['Latin-1', Buffer.from(lines({ ...settings, title: 'Gr\xfcn' }), 'latin1')],
    ['zero bytes', Buffer.from(`${lines(settings)}\0`)],
  ])('silence no danger, and keep it from being published: %s', async (_, text) => {
    const folder = journal({ 'journal.yaml': text });
    await expectForeseen(folder);
    const { published, remarks } = await publish(folder, { to: `${folder}/site` });
    expect(published).toBe(false);
    expect(remarks.some(({ file, fatal }) => file === 'journal.yaml' && fatal === true)).toBe(true);
  });

  it('are not needed where there are entries', async () => {
    await expectForeseen(folderOf({ 'shelf.yaml': shelf, [entryFile]: fenced(matter()) }));
  });
});

describe('a shelf that is wrong', () => {
  it.each([
    ['a jar without a name', shelf.replace('name: yellow prussiate of potash, ', '')],
    ['a tab', `${shelf}\tx: y\n`],
    ['a second colon', `${shelf}soda: { name: washing soda: pure }\n`],
    ['an open quote', `${shelf}soda: { name: "washing soda }\n`],
    ['an id in capitals', shelf.replace('prussiate:', 'Prussiate:')],
    ['an id that stands twice', `${shelf}acid: { name: vinegar }\n`],
    ['jars in one text', 'prussiate: yellow prussiate of potash\nacid: hydrochloric acid 30 %\n'],
    ['a list', shelf.replace(/^(\w+): \{/gm, '- { id: $1,')],
    ['Latin-1', Buffer.from(`${shelf}sand: { name: s\xfcss }\n`, 'latin1')],
  ])('silences no danger of what its jars hold: %s', async (_, text) => {
    await expectForeseen(journal({ 'shelf.yaml': text }));
  });
});

describe('an entry that is wrong in its form', () => {
  const tabs = (text: string): string => text.replace(/\n {2}/g, '\n\t');
  it.each([
    ['a second colon in its title', fenced(matter({ title: 'Blue: again' }))],
    ['a quote that is open from the second line on', fenced(matter({ title: '"Blue' }))],
    ['a quote that is open in the last line', fenced(matter({}, 'notes: smelt, and "the lid\n'))],
    ['tabs', fenced(tabs(matter()))],
    ['tabs and a colon', fenced(tabs(matter({ title: 'Blue: again' })))],
    ['tabs, a colon and a quote', fenced(tabs(matter({ title: 'Blue: a' }, 'notes: smelt, and "the lid\n')))],
    ['an item further in', fenced(matter().replace('  - { reagent: acid', '   - { reagent: acid'))],
    ['an item further out', fenced(matter().replace('  - { reagent: acid', ' - { reagent: acid'))],
    ['a brace that is open', fenced(matter().replace('20 g }', '20 g'))],
    ['front matter without an end', `---\n${matter()}`],
    ['front matter without a beginning', `${matter()}---\nWords.\n`],
    ['front matter without either', `${matter()}\nIt was blue.\n`],
    ['dots for its end', `---\n${matter()}...\n`],
    ['four hyphens', `----\n${matter()}----\n`],
    ['a blank line before it', `\n---\n${matter()}---\n`],
    ['a block of code', `\`\`\`yaml\n${matter()}\`\`\`\n`],
    ['line ends of old', fenced(matter()).replace(/\n/g, '\r')],
    ['UTF-16', Buffer.from(`\ufeff${fenced(matter())}`, 'utf16le')],
    ['Latin-1', Buffer.from(fenced(matter({ title: 'Gr\xfcn' }, 'question: 20 \xb0C?\n')).replace('°', ''), 'latin1')],
    ['a zero byte', `${fenced(matter())}\0`],
  ])('tells its dangers: %s', async (_, text) => {
    await expectForeseen(journal({ [entryFile]: text }));
  });

  it.each([
    ['a list', '## Reagents\n\n- yellow prussiate of potash, 20 g\n- hydrochloric acid 30 % 50 ml\n'],
    ['a table', '| what | much |\n|---|---|\n| yellow prussiate of potash | 20 g |\n| hydrochloric acid | 50 ml |\n'],
  ])('tells the dangers of reagents that only its write-up names: in %s', async (_, body) => {
    const folder = journal({ [entryFile]: `${fenced(`${lines(four)}heating: [{ to: 100 °C }]\n`)}${body}` });
    await expectForeseen(folder);
    const { remarks } = await openJournal(folder);
    expect(remarks).toContainEqual(expect.objectContaining({ ruleId: 'reagents-in-body', fatal: true }));
  });

  it.each([
    ['results', '## Results\n\n- malachite 3 g\n- azurite 4 g\n'],
    ['samples', '- A 3 g\n- B 4 g\n'],
    ['sentences', '1. I added 5 g. Then it was green.\n2. Waited 3 h.\n'],
  ])('takes no %s for reagents', async (_, body) => {
    const { remarks } = await openJournal(journal({ [entryFile]: `${fenced(lines(four))}${body}` }));
    expect(remarks.map(({ ruleId }) => ruleId)).not.toContain('reagents-in-body');
  });

  it('has its write-up judged where nothing of it is front matter, and looked through for what is only spoken of', async () => {
    const folder = journal({ [entryFile]: '# Blue\n\nThen bleach 20 ml onto the vinegar.\n' });
    const answer = await foreseeInEntry({ number: 1, added: [], heating: [] }, folder);
    const alone = answer.ok ? answer.value : undefined;
    expect(alone?.foreseen.map(({ title, severity }) => [title, severity])).toContainEqual([
      'hypochlorite with weak acid',
      'danger',
    ]);
    expect(alone?.cautions.join('\n')).toContain('The write-up names bleach');
    const spoken = journal({ [entryFile]: '# Blue\n\nThe bleach stood beside the vinegar.\n' });
    const other = await foreseeInEntry({ number: 1, added: [], heating: [] }, spoken);
    expect(other.ok && other.value.cautions.join('\n')).toMatch(/bleach .*NOT judged.*hypochlorite with weak acid/);
  });
});
