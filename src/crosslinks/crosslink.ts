// All reckoned entries → the journal model: series, colour families, reagents, backlinks, incidents, ideas.
import { bestYield } from './best-yield.js';
import { elementName } from '../chemistry/index.js';
import { bodyLinks } from '../journal/index.js';
import type { Journal, Page } from '../journal/entry.js';
import type { Use } from '../journal/schema.js';
import type { SampleAppearance } from '../reckoning/appearance-contracts.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { familyOrder } from './families.js';
import { isMade, knownPigments } from './known-pigments.js';
import type {
  EntryLink,
  EntryLinks,
  Family,
  IncidentRow,
  JournalModel,
  ReagentPage,
  SampleRow,
  Series,
  SeriesEntry,
} from './model.js';

const linkTo = ({ entry }: ReckonedEntry): EntryLink => ({
  number: entry.number,
  title: entry.title,
  date: entry.date,
  status: entry.status,
});

const familyBasisOf = (basis: SampleAppearance['basis']): 'measured' | 'photograph' =>
  basis === 'photograph' || basis === 'srgb-estimate' ? 'photograph' : 'measured';

/** Adds to a list held in a map. */
function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

const unique = <T>(list: readonly T[], key: (one: T) => string): T[] => [
  ...new Map(list.map((one) => [key(one), one])).values(),
];

function sampleRows(reckoned: ReckonedEntry): SampleRow[] {
  const { entry, amounts, appearance, elements } = reckoned;
  const link = linkTo(reckoned);
  return entry.samples.map((sample) => {
    const seen = appearance.samples.find((one) => one.sample === sample.sample);
    return {
      entry: link,
      sample: sample.sample,
      differs: sample.differs,
      pigment: entry.pigment?.name,
      formula: entry.pigment?.formula,
      colourIndex: entry.pigment?.['colour-index'],
      elements,
      family: seen?.family ?? appearance.family,
      familyBasis: seen?.family ? familyBasisOf(seen.basis) : appearance.familyBasis,
      amounts: amounts.samples.find((one) => one.sample === sample.sample),
      appearance: seen,
    };
  });
}

function seriesOf(element: string, rows: readonly SampleRow[], words: Page | undefined): Series {
  const known = knownPigments().filter((pigment) => pigment.elements.includes(element));
  const shown = new Set([...rows.map((row) => row.family ?? 'unmeasured'), ...known.map((pigment) => pigment.family)]);
  const cells = [...shown]
    .sort((a, b) => familyOrder(a) - familyOrder(b))
    .map((family) => {
      const byEntry = new Map<number, SampleRow[]>();
      for (const row of rows) if ((row.family ?? 'unmeasured') === family) push(byEntry, row.entry.number, row);
      const entries: SeriesEntry[] = [...byEntry.values()].map((samples) => {
        const first = samples[0]!;
        return {
          entry: first.entry,
          pigment: first.pigment,
          formula: first.formula,
          colourIndex: first.colourIndex,
          samples,
          bestYield: bestYield(samples.flatMap(({ amounts }) => amounts ?? [])),
        };
      });
      return {
        family,
        entries,
        notMade: known.filter((pigment) => pigment.family === family && !isMade(pigment, rows)),
      };
    });
  const entries = [...new Map(rows.map((row) => [row.entry.number, row.entry])).values()];
  return { element, name: elementName(element), cells, entries, words };
}

/**
 * Joins reckoned entries into the journal model.
 * @param reckoned the entries to show, in any order
 */
export function crosslink(journal: Journal, reckoned: readonly ReckonedEntry[]): JournalModel {
  const entries = [...reckoned].sort(
    (a, b) => b.entry.date.localeCompare(a.entry.date) || b.entry.number - a.entry.number,
  );
  const byNumber = new Map(reckoned.map((one) => [one.entry.number, linkTo(one)]));
  const entryOf = new Map(reckoned.map(({ entry }) => [entry.number, entry]));
  const numberOfFile = new Map(reckoned.map(({ entry }) => [entry.file, entry.number]));
  const ascending = [...byNumber.values()].sort((a, b) => a.number - b.number);
  const pick = (numbers: readonly number[]): EntryLink[] => numbers.flatMap((number) => byNumber.get(number) ?? []);

  const followedBy = new Map<number, EntryLink[]>();
  const repeatedBy = new Map<number, EntryLink[]>();
  const mentionedBy = new Map<number, EntryLink[]>();
  const lotsTaken = new Map<number, { sample: string; by: EntryLink }[]>();
  const lotsUsed = new Map<number, { lot: string; from: EntryLink; sample: string }[]>();
  const uses = new Map<string, ReagentPage['uses'][number][]>();
  const incidents: IncidentRow[] = [];
  const ideas: JournalModel['ideas'][number][] = [];
  const samples: SampleRow[] = [];
  const byElement = new Map<string, SampleRow[]>();
  const byFamily = new Map<string, SampleRow[]>();

  for (const one of entries) {
    const { entry } = one;
    const link = linkTo(one);
    for (const number of entry.follows) push(followedBy, number, link);
    for (const number of entry.repeats) push(repeatedBy, number, link);
    const mentioned = new Set(bodyLinks(entry).flatMap(({ target }) => numberOfFile.get(target) ?? []));
    for (const number of mentioned) if (number !== entry.number) push(mentionedBy, number, link);

    const used: { use: Use; sample?: string; instead?: boolean }[] = [
      ...entry.reagents.map((use) => ({ use })),
      ...entry.samples.flatMap((sample) => [
        ...(sample.add ?? []).map((use) => ({ use, sample: sample.sample })),
        ...(sample.change ?? []).map((use) => ({ use, sample: sample.sample, instead: true })),
      ]),
    ];
    for (const { use, sample, instead } of used) {
      const lot =
        use.lot ?? (typeof use.reagent === 'string' ? journal.shelf.reagents.get(use.reagent)?.lot : undefined);
      if (lot !== undefined) {
        const [number, from] = lot.split('/');
        const source = byNumber.get(Number(number));
        if (source && from !== undefined) {
          push(lotsTaken, source.number, { sample: from, by: link });
          push(lotsUsed, entry.number, { lot, from: source, sample: from });
        }
      }
      if (typeof use.reagent === 'string')
        push(uses, use.reagent, {
          entry: link,
          amount: use.amount,
          role:
            use.role ??
            (instead ? entry.reagents.find((one) => one.reagent === use.reagent)?.role : undefined) ??
            'reactant',
          sample,
          instead,
        });
    }
    for (const incident of entry.incidents) {
      const named =
        incident.reagents ?? entry.reagents.flatMap((use) => (typeof use.reagent === 'string' ? [use.reagent] : []));
      incidents.push({ entry: link, what: incident.what, learned: incident.learned, reagents: named });
    }
    for (const idea of entry.ideas) ideas.push({ entry: link, idea });
    if (entry.status === 'withdrawn') continue;
    for (const row of sampleRows(one)) {
      samples.push(row);
      for (const element of row.elements) push(byElement, element, row);
      if (row.family) push(byFamily, row.family, row);
    }
  }

  const links = new Map<number, EntryLinks>(
    ascending.map((link, at) => [
      link.number,
      {
        previous: ascending[at - 1],
        next: ascending[at + 1],
        follows: pick(entryOf.get(link.number)?.follows ?? []),
        repeats: pick(entryOf.get(link.number)?.repeats ?? []),
        followedBy: followedBy.get(link.number) ?? [],
        repeatedBy: repeatedBy.get(link.number) ?? [],
        mentionedBy: mentionedBy.get(link.number) ?? [],
        lotsUsed: unique(lotsUsed.get(link.number) ?? [], ({ lot }) => lot),
        lotsTaken: unique(lotsTaken.get(link.number) ?? [], ({ sample, by }) => `${sample} ${by.number}`),
      },
    ]),
  );

  const wordsOf = (pages: readonly Page[], name: string): Page | undefined =>
    pages.find((page) => page.name.toLowerCase() === name.toLowerCase());
  const series = [...byElement]
    .map(([element, rows]) => seriesOf(element, rows, wordsOf(journal.series, element)))
    .sort((a, b) => b.entries.length - a.entries.length || a.name.localeCompare(b.name));
  const familyPages: Family[] = [...byFamily]
    .map(([family, rows]) => ({ family, samples: rows, words: wordsOf(journal.colours, family) }))
    .sort((a, b) => familyOrder(a.family) - familyOrder(b.family));
  const reagents: ReagentPage[] = [...journal.shelf.reagents]
    .map(([id, reagent]) => ({
      id,
      reagent,
      uses: uses.get(id) ?? [],
      incidents: incidents.filter((incident) => incident.reagents.includes(id)),
    }))
    .sort((a, b) => a.reagent.name.localeCompare(b.reagent.name));

  return { journal, entries, links, samples, series, families: familyPages, reagents, incidents, ideas, numberOfFile };
}
