// By what names the reagents and gases of an entry can be looked for.
import { gases } from '../hazards/foresee/gases.js';
import type { HazardBox } from '../hazards/ghs/index.js';
import { allNames, otherwiseCalled, type AllNames } from '../reagents/index.js';
import { hazardWordsTable } from '../tables/compiled/reckoning/hazard-words.js';
import type { ReckonedEntry } from './contracts.js';

export type { AllNames };

/**
 * Every name, formula and CAS number of a reagent, those of the tables included.
 * @example namesOfReagent({ name: 'lye', formula: 'NaOH' }).names.includes('caustic soda') // true
 */
export const namesOfReagent = allNames;

/** Names of the trade, each with the systematic name of what it means. */
export const systematicNames = otherwiseCalled;

/** A gas by its names: `hydrogen cyanide`, `prussic acid`, `HCN`. */
export interface GasNames {
  readonly name: string;
  readonly names: readonly string[];
  /** Whether it is told of in what went wrong, or in what the entry asks and answers. */
  readonly told: boolean;
}

/**
 * Gases that words call by their own name or formula. What only answers one (`froth` answers carbon dioxide and oxygen)
 * does not name it.
 */
function named(texts: readonly (string | undefined)[]): ReadonlySet<string> {
  const words = texts.filter((one) => one !== undefined).join(' ');
  const inSmall = words.toLowerCase();
  const signs = new Set(words.split(/[^\p{L}\p{N}]+/u));
  return new Set(
    [...gases().values()]
      .filter(({ name, formula }) => signs.has(formula) || inSmall.includes(name.toLowerCase()))
      .map(({ formula }) => formula),
  );
}

/** Gases that are foreseen in an entry or that its precautions and incidents name. */
export function gasesOf({ entry, dangers }: ReckonedEntry): GasNames[] {
  const told = named([
    entry.title,
    entry.question,
    entry.answer,
    entry.withdrawn,
    ...entry.incidents.flatMap((one) => [one.what, one.learned]),
  ]);
  const formulae = new Set([
    ...(dangers.foreseen ?? []).flatMap(({ gases: own = [] }) => own.map(({ formula }) => formula)),
    ...told,
    ...named([...entry.precautions.flatMap((one) => [one.against, one.do]), entry['if-it-goes-wrong']]),
  ]);
  return [...formulae].flatMap((formula) => {
    const gas = gases().get(formula);
    return gas ? [{ name: gas.name, names: [gas.name, ...gas.aliases, gas.formula], told: told.has(formula) }] : [];
  });
}

/** What the letters of a Colour Index Generic Name stand for; source: Colour Index, usage and hue, from memory. */
const indexHues: Readonly<Record<string, string>> = {
  B: 'Blue',
  Bk: 'Black',
  Br: 'Brown',
  G: 'Green',
  M: 'Metal',
  O: 'Orange',
  R: 'Red',
  V: 'Violet',
  W: 'White',
  Y: 'Yellow',
};

/**
 * A Colour Index name in each way of writing it.
 * @example colourIndexNames('PB27') // ['PB27', 'PB 27', 'C.I. PB 27', 'Pigment Blue 27', 'C.I. Pigment Blue 27']
 */
export function colourIndexNames(written: string | undefined): string[] {
  if (written === undefined) return [];
  const parts = /^([PN])\s*(Bk|Br|B|G|M|O|R|V|W|Y)\s*(\d+(?::\d+)?)$/.exec(written.trim());
  if (!parts) return [written];
  const [, usage, hue, number] = parts;
  const long = `${usage === 'P' ? 'Pigment' : 'Natural'} ${indexHues[hue!]} ${number}`;
  const short = `${usage}${hue} ${number}`;
  return [written, short, `C.I. ${short}`, long, `C.I. ${long}`];
}

/** Words by which people look for what a label says: `carcinogen` for H350. */
export const hazardWords = ({ statements, unknown }: HazardBox): string[] => [
  ...hazardWordsTable()
    .filter(({ code }) => statements.some((statement) => statement.code.startsWith(code)))
    .flatMap(({ words }) => words),
  ...(unknown.length > 0 ? ['no hazard data'] : []),
];
