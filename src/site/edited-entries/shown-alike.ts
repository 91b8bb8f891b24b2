// Whether entries of which front matter was edited show all other pages what they showed before, but for what was
// weighed of their samples: then only their own pages are others, the tables of results, perhaps the series that give
// their yields, and files with a part for each entry.
import { bestYield } from '../../crosslinks/best-yield.js';
import type { Entry } from '../../journal/entry.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import type { EntryLine } from './entry-again.js';

type Shown = Pick<ReckonedEntry, 'elements' | 'gist' | 'rows'>;
type Checked = Omit<Entry, 'file' | 'matter' | 'body'>;

/** An entry but for what its own pages alone show of it, and files with a part for each entry. */
function shownByOthers(entry: Checked): unknown {
  const { precautions, 'if-it-goes-wrong': _, waste, heating, matterLine, bodyLine, samples, ...rest } = entry;
  const withoutMass = samples.map(({ obtained, ...sample }) => ({ ...sample, isWeighed: obtained !== undefined }));
  return { ...rest, samples: withoutMass };
}

/** The gist but for masses, and rows but for amounts. */
const shownOfReckoning = ({ elements, gist, rows = [] }: Shown): unknown => ({
  elements,
  gist: { ...gist, samples: gist.samples.map(({ obtained, ...rest }) => ({ ...rest, isWeighed: !!obtained })) },
  appearances: rows.map(({ appearance }) => appearance ?? null),
});

/** Amounts of the samples, as tables of results show them. */
const amountsIn = ({ rows = [] }: Shown): unknown => rows.map(({ amounts }) => amounts ?? null);

/** The best yield of the samples of each colour family, as series give it. */
function yieldsInSeries({ gist, rows = [] }: Shown): unknown {
  const families = [...new Set(gist.samples.map(({ family }) => family))];
  return families.map((family) => {
    const own = rows.flatMap(({ amounts }, at) => (gist.samples[at]?.family === family && amounts ? [amounts] : []));
    const best = bestYield(own);
    return [family ?? null, best ? [best.text, best.over] : null];
  });
}

/** Whether two values are written alike as JSON. */
export const areAlike = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Without file and text, as it is put down. */
function checkedOf({ file: _, matter: __, body: ___, ...checked }: Entry): Checked {
  return checked;
}

/**
 * Which pages besides their own may show something else of some edited entries.
 * @param lines what was put down of them
 * @returns whether a page may, by its address; undefined where any may
 */
export function pagesThatMayDiffer(
  edited: readonly ReckonedEntry[],
  lines: ReadonlyMap<string, EntryLine>,
): ((address: string) => boolean) | undefined {
  const below: string[] = [];
  for (const one of edited) {
    const { first, rest } = lines.get(one.entry.file)!;
    const before: Shown = { ...first.reckoned, rows: rest().rows };
    // Whether a sample of what was abandoned is listed rests on what was obtained of it.
    const isListedAlike = one.entry.status !== 'abandoned' && one.rows !== undefined && before.rows !== undefined;
    const isShownAlike = areAlike(shownByOthers(checkedOf(one.entry)), shownByOthers(first.checked));
    if (!isListedAlike || !isShownAlike || !areAlike(shownOfReckoning(one), shownOfReckoning(before))) return undefined;
    if (!areAlike(amountsIn(one), amountsIn(before))) below.push('/results/');
    if (!areAlike(yieldsInSeries(one), yieldsInSeries(before)))
      below.push(...one.elements.map((element) => `/series/${element}/`));
  }
  return (address) => below.some((folder) => address.startsWith(folder));
}
