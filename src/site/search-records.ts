// What search knows of each entry: its words, what it can be narrowed by, what it can be ordered by, what a hit shows.
import type { SearchChoices } from '../../templates/search.js';
import { familyOrder } from '../crosslinks/families.js';
import type { JournalModel, SampleRow } from '../crosslinks/model.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { samplesByEntry } from '../../templates/parts/listed.js';
import { statusMark } from '../../templates/parts/status.js';
import { statusReason } from '../journal/index.js';

/** One record of the search index, in the library's own shape. */
export interface SearchRecord {
  readonly url: string;
  readonly content: string;
  readonly language: string;
  readonly meta: Record<string, string>;
  readonly filters: Record<string, string[]>;
  readonly sort: Record<string, string>;
}

/** Markdown without its marks, good enough to be searched. */
const plainWords = (markdown: string): string =>
  markdown
    .replace(/:(?:chem|value|swatch)\[([^\]]*)\]/g, '$1')
    .replace(/!?\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/[*_`#>|~]+/g, ' ')
    .replace(/-{3,}/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** Hazards an entry can be found by: signal word, foreseen dangers, unknown substances. */
function hazardsOf({ dangers }: ReckonedEntry): string[] {
  return [
    ...new Set([
      ...(dangers.box.signalWord ? [`signal word ${dangers.box.signalWord}`] : []),
      ...(dangers.foreseen ?? []).filter((one) => one.severity !== 'note').map((one) => one.consequence),
      ...(dangers.box.unknown.length > 0 ? ['substance without hazard data'] : []),
    ]),
  ];
}

export function searchRecords(model: JournalModel): SearchRecord[] {
  const rowsOf = samplesByEntry(model);
  const shelf = model.journal.shelf.reagents;
  const names = Object.fromEntries(model.series.map(({ element, name }) => [element, name]));
  return model.entries.map((reckoned) => {
    const { entry, elements } = reckoned;
    const rows: readonly SampleRow[] = rowsOf.get(entry.number) ?? [];
    const best = [...rows]
      .filter((row) => row.amounts?.percentYield)
      .sort((a, b) => Number(b.amounts!.percentYield!.value) - Number(a.amounts!.percentYield!.value))[0];
    const colour = rows.find((row) => row.appearance?.swatch)?.appearance;
    const families = [...new Set(rows.flatMap((row) => row.family ?? []))];
    const reagents = entry.reagents.map((use) =>
      typeof use.reagent === 'string'
        ? (shelf.get(use.reagent)?.name ?? use.reagent)
        : (use.reagent?.name ?? use.lot ?? ''),
    );
    const words = [
      entry.question,
      entry.answer,
      statusReason(entry),
      entry.pigment?.name,
      entry.pigment?.formula,
      entry.pigment?.['colour-index'],
      ...elements,
      ...elements.map((symbol) => names[symbol] ?? ''),
      ...families,
      ...reagents,
      ...entry.samples.flatMap((sample) => [sample.differs, sample.note]),
      plainWords(entry.body),
      ...reckoned.appearance.samples.flatMap((sample) =>
        (sample.tests ?? []).map((test) => `${test.name} ${test.text}`),
      ),
      ...reckoned.appearance.samples.map((sample) => sample.opacity?.word),
      ...entry.incidents.flatMap((incident) => [incident.what, incident.learned]),
      ...entry.ideas,
      entry.waste,
    ].filter(Boolean);
    return {
      url: `/${entry.number}/`,
      content: [entry.title, ...words].map((part) => (/[.!?…:;]$/.test(part!) ? part : `${part}.`)).join(' '),
      language: model.journal.settings.language.split('-')[0] ?? 'en',
      meta: {
        title: entry.title,
        number: String(entry.number),
        date: entry.date,
        status: statusMark({ status: entry.status, why: statusReason(entry) }) || entry.status,
        element: elements.map((symbol) => names[symbol] ?? symbol).join(', '),
        pigment: entry.pigment?.name ?? '',
        family: families.join(', '),
        yield: best?.amounts?.percentYield?.text ?? '',
        swatch: colour?.swatch?.hex ?? '',
        approximate: colour?.swatch?.mapped || colour?.swatch?.approximate ? 'yes' : '',
      },
      filters: {
        element: [...elements],
        family: families,
        status: [entry.status],
        hazard: hazardsOf(reckoned),
        year: [entry.date.slice(0, 4)],
      },
      sort: {
        date: entry.date.replaceAll('-', ''),
        ...(best ? { yield: Number(best.amounts!.percentYield!.value).toFixed(2).padStart(8, '0') } : {}),
        ...(colour?.lch
          ? { lightness: colour.lch[0].toFixed(2).padStart(7, '0'), chroma: colour.lch[1].toFixed(2).padStart(7, '0') }
          : {}),
      },
    };
  });
}

export function searchChoices(model: JournalModel): SearchChoices {
  return {
    elements: model.series.map(({ element, name }) => ({ symbol: element, name })),
    families: model.families.map(({ family }) => family).sort((a, b) => familyOrder(a) - familyOrder(b)),
    statuses: [...new Set(model.entries.map(({ entry }) => entry.status))],
    hazards: [...new Set(model.entries.flatMap(hazardsOf))].sort(),
    years: [...new Set(model.entries.map(({ entry }) => entry.date.slice(0, 4)))].sort().reverse(),
  };
}
