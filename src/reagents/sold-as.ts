// What is sold under which name: the strength that a name or a word of a label tells, and what else the name may mean.
import { exact, parseFormula, type Decimal } from '../chemistry/index.js';
import { soldAsTable, type SoldAsRow } from '../tables/compiled/reagents/sold-as.js';
import { dryComposition } from './constituents.js';
import type { NamedStrength } from './contracts.js';
import { plainName } from './names.js';

interface Tables {
  readonly byName: ReadonlyMap<string, readonly SoldAsRow[]>;
  /** By `concentrated HCl`: a word and a dry composition; `dilute` alone for everything else. */
  readonly byWord: ReadonlyMap<string, SoldAsRow>;
}
let tables: Tables | undefined;

function load(): Tables {
  if (tables) return tables;
  const byName = new Map<string, SoldAsRow[]>();
  const byWord = new Map<string, SoldAsRow>();
  for (const row of soldAsTable()) {
    const { name, also, formula, state_word: word } = row;
    for (const one of formula === undefined ? [] : [name, ...also]) {
      const key = plainName(one);
      byName.set(key, [...(byName.get(key) ?? []), row]);
    }
    if (word !== '') byWord.set(formula === undefined ? word : `${word} ${dryComposition(formula)}`, row);
  }
  tables = { byName, byWord };
  return tables;
}

const strengths = new Map<SoldAsRow, NamedStrength>();
function namedStrengthOf(row: SoldAsRow): NamedStrength {
  let strength = strengths.get(row);
  if (!strength) strengths.set(row, (strength = readStrength(row)));
  return strength;
}

const readStrength = (row: SoldAsRow): NamedStrength => ({
  name: row.name,
  formula: row.formula ?? '',
  low: exact(row.percent_low),
  usual: exact(row.percent_usual),
  high: exact(row.percent_high),
  density: row.density_g_per_mL === undefined ? undefined : exact(row.density_g_per_mL),
  note: row.note,
  source: row.basis === 'memory' ? `${row.source_title} (from memory)` : row.source_title,
});

const least = (values: readonly Decimal[]): Decimal => values.reduce((a, b) => (a.lt(b) ? a : b));
const greatest = (values: readonly Decimal[]): Decimal => values.reduce((a, b) => (a.gt(b) ? a : b));

/**
 * The strength that a name alone tells, over all that is sold under it, and each of those by itself.
 * @param names the name as written, then the names it is another name of
 * @example strengthNamed(['vinegar'])?.usual // 5; low 4, high 7
 */
export function strengthNamed(
  names: readonly string[],
): { readonly named: NamedStrength; readonly alternatives: readonly NamedStrength[] } | undefined {
  for (const name of names) {
    const all = load().byName.get(plainName(name))?.map(namedStrengthOf);
    if (!all) continue;
    const [first] = all;
    const named = { ...first!, low: least(all.map(({ low }) => low)), high: greatest(all.map(({ high }) => high)) };
    const alternatives = [...all].sort((a, b) => b.usual.cmp(a.usual));
    return { named: all.length > 1 ? withoutDensity(named) : named, alternatives: all.length > 1 ? alternatives : [] };
  }
  return undefined;
}

/** Of several bottles the density of one does not tell. */
function withoutDensity({ density: _, ...named }: NamedStrength): NamedStrength {
  return named;
}

const wordMeans: Readonly<Record<string, string>> = {
  dilute: 'dilute',
  diluted: 'dilute',
  weak: 'dilute',
  dil: 'dilute',
  'dil.': 'dilute',
  concentrated: 'concentrated',
  conc: 'concentrated',
  'conc.': 'concentrated',
  strong: 'concentrated',
  fuming: 'fuming',
  glacial: 'glacial',
};

/**
 * The strength that a word of a label tells of a substance; of what is dilute without a row of its own, a rough one.
 * @example strengthOfWord('conc.', 'HCl')?.usual // 37
 */
export function strengthOfWord(word: string, formula: string): NamedStrength | undefined {
  const meant = wordMeans[word.toLowerCase()];
  if (meant === undefined || !parseFormula(formula).ok) return undefined;
  const own = load().byWord.get(`${meant} ${dryComposition(formula)}`);
  if (own) return namedStrengthOf(own);
  return meant === 'dilute' ? { ...namedStrengthOf(load().byWord.get('dilute')!), formula } : undefined;
}
