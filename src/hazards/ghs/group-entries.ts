// Group entries of CLP Annex VI: which of them a compound without a row of its own falls under, by its elements.
import { groupEntriesTable, type GroupEntriesRow } from '../../tables/compiled/hazards/ghs/group-entries.js';
import { oxidationStatesTable } from '../../tables/compiled/hazards/ghs/oxidation-states.js';
import type { HazardNote, Substance, SubstanceQuery } from './contracts.js';
import { compositionOf, isMetal, type SubstanceComposition } from './composition.js';
import { wordsOfSalt } from '../../reagents/name-keys.js';
import { groupSubstances } from './substances.js';

export interface GroupMatch {
  readonly rows: readonly Substance[];
  readonly notes: readonly HazardNote[];
}

/**
 * Mean oxidation state of an element, where those of all others are the usual ones; undefined where one is not known.
 */
function oxidationState(symbol: string, made: SubstanceComposition): number | undefined {
  const usual = new Map(oxidationStatesTable().map((row) => [row.symbol, row.state]));
  let charge = 0;
  for (const [other, count] of made.elements) {
    if (other === symbol) continue;
    const state = usual.get(other);
    if (state === undefined) return undefined;
    charge += state * count;
  }
  return -charge / made.elements.get(symbol)!;
}

const holds = (made: SubstanceComposition, ...symbols: readonly string[]): boolean =>
  symbols.some((symbol) => made.elements.has(symbol));

/** Whether chromium is hexavalent: by the written anion, by charges, or, where these do not tell, by much oxygen. */
function holdsChromate(made: SubstanceComposition): boolean {
  if (/Cr(?:O4|2O7|3O10)|Cr(?:,[A-Za-z]+)*\)O4/.test(made.text)) return true;
  if (made.partly) return false;
  const state = oxidationState('Cr', made);
  if (state !== undefined) return state > 5.5;
  if (holds(made, 'S', 'P', 'C', 'N', 'Si', 'Cl')) return false;
  return (made.elements.get('O') ?? 0) / made.elements.get('Cr')! >= 3.5;
}

const holdsArsenate = (made: SubstanceComposition): boolean =>
  /As(?:O4|2O7)/.test(made.text) || (!made.partly && holds(made, 'O') && oxidationState('As', made) === 5);

const isSalt = (made: SubstanceComposition): boolean =>
  [...made.elements.keys()].some(isMetal) || /NH4/.test(made.text);

const isSimpleCyanide = (made: SubstanceComposition): boolean =>
  isSalt(made) &&
  /CN/.test(made.text) &&
  !/SCN|OCN|CNO|CNS/.test(made.text) &&
  !holds(made, 'Fe', 'Co', 'Cr') &&
  !(holds(made, 'Hg') && holds(made, 'O'));

/** What a compound must hold beside the elements, by the word in the table's column `holds`. */
const conditions: Readonly<Record<GroupEntriesRow['holds'], (made: SubstanceComposition) => boolean>> = {
  '': () => true,
  'chromium(VI)': holdsChromate,
  arsenate: holdsArsenate,
  'not-arsenate': (made) => !holdsArsenate(made),
  inorganic: (made) => !(holds(made, 'C') && holds(made, 'H')),
  'simple-cyanide': isSimpleCyanide,
  oxalate: (made) => isSalt(made) && /C2O4/.test(made.text),
  thiocyanate: (made) => isSalt(made) && /SCN|CNS|NCS/.test(made.text),
};

function matchOf(entries: readonly GroupEntriesRow[], how: string): GroupMatch {
  const groups = entries.length > 0 ? groupSubstances() : [];
  return {
    rows: entries.map((entry) => groups.find((row) => row.indexNumber === entry.index_no)!),
    notes: entries.map((entry) => ({
      kind: 'group-entry',
      text:
        `No row of its own: the group entry for ${entry.group} is used${how}, ` +
        'a minimum that the maker’s safety data sheet may go beyond.',
    })),
  };
}

const isExcepted = (entry: GroupEntriesRow, made: SubstanceComposition): boolean =>
  !made.partly && entry.not_formulae.some((formula) => compositionOf(formula)?.dry === made.dry);

/** Group entries for a compound, by its elements; none for an element alone. */
export function groupEntriesOf(made: SubstanceComposition): GroupMatch {
  if (made.elements.size < 2) return { rows: [], notes: [] };
  const elementSet = [...made.elements.keys()].sort().join('+');
  return matchOf(
    groupEntriesTable().filter(
      (entry) =>
        entry.elements.every((symbol) => made.elements.has(symbol)) &&
        !entry.not_element_sets.includes(elementSet) &&
        !isExcepted(entry, made) &&
        conditions[entry.holds](made),
    ),
    '',
  );
}

/** Group entries by a systematic name alone: for `cadmium nitrate`, not for `cadmium red hue`. */
export function groupEntriesNamed(query: SubstanceQuery): GroupMatch {
  const words = wordsOfSalt([query.name, ...(query.alsoCalled ?? [])]);
  const hasOneOf = (listed: readonly string[]): boolean => listed.some((word) => words.includes(word));
  return matchOf(
    groupEntriesTable().filter((entry) => hasOneOf(entry.words) && !hasOneOf(entry.not_words)),
    ' because of its name',
  );
}
