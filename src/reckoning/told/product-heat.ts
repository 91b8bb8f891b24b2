// The heat that a sample's product got before it was weighed, as keys and words tell it: the least that it was.
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import type { Sample } from '../../journal/schema.js';
import { once } from '../../once.js';
import { readHeat } from '../../reagents/index.js';
import { isOfProduct } from '../vessels.js';
import {
  productHeatWordsTable,
  type ProductHeatWordsRow,
} from '../../tables/compiled/reckoning/told/product-heat-words.js';
import { heatsTold, partsFrom } from './told-heat.js';
import { patternOfWords, type SmallLetterPattern } from './words-as-pattern.js';
import { wordsOfStep } from '../steps.js';

/** A heat with the place where it is told. */
export interface ProductHeat {
  /** As it is written: `500 °C`. */
  readonly words: string;
  /** The least that it may be, °C. */
  readonly low: number;
  readonly path: Path;
}

const heatOf = (words: string, path: Path): readonly ProductHeat[] => {
  const { known, low } = readHeat(words);
  return known === 'not-known' ? [] : [{ words, low: low.toNumber(), path }];
};

/** The list of a sample takes the place of the entry's where it says something of the product. */
function ofHeating({ heating, pigment }: Entry, sample: Sample | undefined, at: Path): readonly ProductHeat[] {
  const named = (of: string): boolean => isOfProduct(of) || of.toLowerCase() === pigment?.name.toLowerCase();
  const listed = (list: Entry['heating'], path: Path): readonly ProductHeat[] =>
    list.flatMap(({ of, to }, place) => (named(of) ? heatOf(to, [...path, 'heating', place, 'to']) : []));
  const own = listed(sample?.heating ?? [], at);
  return own.length > 0 ? own : listed(heating, []);
}

function ofDrying({ dried = [] }: Partial<Sample>, at: Path): readonly ProductHeat[] {
  if (typeof dried === 'string') return heatOf(dried, [...at, 'dried']);
  return dried.flatMap(({ at: heat }, place) =>
    heat === undefined ? [] : heatOf(heat, [...at, 'dried', place, 'at']),
  );
}

const patternFor = (says: ProductHeatWordsRow['says']): (() => SmallLetterPattern) =>
  once(() => patternOfWords(productHeatWordsTable().flatMap((row) => (row.says === says ? [row.words] : []))));
const makes = patternFor('makes');
const some = patternFor('some');
const weighs = patternFor('weighs');

/** Whether the heat of a step is that of all of the product as it was weighed. */
function isOfTheWeighed(steps: readonly string[], at: number): boolean {
  if (some().test(steps[at]!) || steps.slice(at + 1).some((words) => makes().test(words))) return false;
  const lastWeighed = steps.findLastIndex((words) => weighs().test(words));
  return lastWeighed < 0 || lastWeighed >= at;
}

/** Heats of steps that come when the product was filtered off or washed, and nothing made anything of it later. */
function ofSteps(entry: Entry, id: string | undefined): readonly ProductHeat[] {
  const { steps = [] } = entry;
  const words = steps.map(wordsOfStep);
  const parted = partsFrom(words);
  const keyed = steps.flatMap((step, at): readonly ProductHeat[] => {
    if (typeof step === 'string' || step.heat === undefined || at < parted) return [];
    return (step.sample ?? id) === id ? heatOf(step.heat, ['steps', at]) : [];
  });
  const told = heatsTold(entry).flatMap(({ words: said, low, of, step, sample }): readonly ProductHeat[] =>
    of === 'product' && step !== undefined && (sample ?? id) === id
      ? [{ words: said, low, path: ['steps', step] }]
      : [],
  );
  return [...keyed, ...told].filter(({ path }) => isOfTheWeighed(words, Number(path[1])));
}

/** Heat in the words by which a sample differs. */
const ofDiffers = (entry: Entry, sample: Sample | undefined, at: Path): readonly ProductHeat[] =>
  sample?.differs === undefined || some().test(sample.differs)
    ? []
    : heatsTold(entry)
        .filter(({ step, of, ...one }) => step === undefined && of === 'product' && one.sample === sample.sample)
        .filter(({ words }) => sample.differs!.includes(words))
        .map(({ words, low }) => ({ words, low, path: [...at, 'differs'] }));

/**
 * The hottest that a sample's product was before it was weighed; undefined where nothing tells. What its own words or
 * lists say takes the place of what is said for all.
 */
export function hottestOfProduct(entry: Entry, index: number | undefined): ProductHeat | undefined {
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const at: Path = index === undefined ? [] : ['samples', index];
  const own = [...ofDrying(sample ?? {}, at), ...ofDiffers(entry, sample, at)];
  const all = [...own, ...ofHeating(entry, sample, at), ...ofSteps(entry, sample?.sample)];
  return all.reduce<ProductHeat | undefined>((most, one) => (most && most.low >= one.low ? most : one), undefined);
}
