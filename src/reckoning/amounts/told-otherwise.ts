// A sample of which words alone tell what went in: what is written for all is none of its amounts, so that neither what
// limits nor a yield can be told of it.
import type { SampleAmounts } from '../contracts.js';
import type { Entry } from '../../journal/entry.js';
import { writtenQuantity } from '../../reagents/index.js';
import { isWaterReagent, type Ingredient } from '../ingredients.js';
import { otherAmountsIn, type OtherAmount } from './other-amounts.js';
import { takesPart, type PotAmounts } from './pot-amounts.js';

/** What the words of a sample tell otherwise than it is written for all. */
export interface ToldOtherwise {
  /** What sets the sample apart, as it is written. */
  readonly differs: string;
  readonly others: readonly OtherAmount[];
  /** Why its yield cannot be told, as half a sentence; undefined where the yield does not hang on it. */
  readonly noYield?: string;
}

const rule = 'amount-in-words-only';

/** Whether the maker has read that and says why it stands so. */
const isAccepted = ({ accept }: Entry): boolean => accept.some(({ warning }) => warning === rule);

const dryOf = ({ reagent }: Ingredient): string | undefined => reagent.substance?.constituents.dry;

/** Other amounts that only the words of a sample tell; `more zinc` is told where zinc is added to it. */
function othersOf(entry: Entry, index: number, { ingredients }: PotAmounts): readonly OtherAmount[] {
  const { differs, add = [], change = [], omit = [] } = entry.samples[index]!;
  if (differs === undefined) return [];
  const isTouched = add.length + change.length + omit.length > 0;
  const common = ingredients.filter(({ path }) => path[0] === 'reagents');
  const added = new Set(ingredients.filter(({ path }) => path[2] === 'add').flatMap((one) => dryOf(one) ?? []));
  return otherAmountsIn(differs, common).filter(({ of }) =>
    of === undefined ? !isTouched : !added.has(dryOf(of) ?? of.id),
  );
}

/** Whether what can be made hangs on it: flux, washes, water and what takes no part do not change that. */
const matters = ({ of }: OtherAmount, { limitation }: PotAmounts): boolean =>
  of === undefined || (takesPart(of) && !isWaterReagent(of.reagent) && !limitation?.takingNoPart.includes(of.taken.id));

function reasonOf(differs: string, others: readonly OtherAmount[]): string {
  const names = [...new Set(others.flatMap(({ of }) => of?.name ?? []))];
  const ofWhat = names.length === 0 ? '' : ` of ${names.join(' and ')}`;
  return `only its words (“${differs}”) tell what it had${ofWhat}, and words are not reckoned with`;
}

/** Looks through the words of one sample; undefined where they tell nothing otherwise. */
export function toldOtherwise(entry: Entry, index: number | undefined, pot: PotAmounts): ToldOtherwise | undefined {
  const others = index === undefined ? [] : othersOf(entry, index, pot);
  if (others.length === 0) return undefined;
  const decisive = isAccepted(entry) ? [] : others.filter((other) => matters(other, pot));
  const differs = entry.samples[index!]!.differs!;
  return { differs, others, ...(decisive.length > 0 && { noYield: reasonOf(differs, decisive) }) };
}

type Line = SampleAmounts['ingredients'][number];

/** One line of the weighing without what hangs on amounts that nobody wrote. */
function openLine(line: Line, { others, differs }: ToldOtherwise): Line {
  const { equivalents: _, left: __, ...rest } = line;
  // Whatever reacts may be what is short, and may be left over: later uses of the lot count with it.
  const open = { ...rest, limiting: false, ...(line.supplies && { tooClose: true }) };
  if (!others.some(({ of }) => of === undefined || of.id === line.id)) return open;
  const { mass: _m, volume: _v, amount: _a, pure: _p, cost: _c, ...unweighed } = open;
  return { ...unweighed, written: `“${differs}”` };
}

/**
 * A pot as far as it is told what went in: without all that hangs on amounts of which only words tell otherwise.
 * The same where they tell nothing.
 */
export function potAsFarAsTold(pot: PotAmounts, told: ToldOtherwise | undefined): PotAmounts {
  if (!told) return pot;
  const { wentIn: _w, cost: _c, ...rest } = pot;
  const unweighed = { ...rest, unpriced: [] };
  if (told.noYield === undefined) return unweighed;
  const { limitation: _l, possible: _p, theoretical: _t, ...open } = unweighed;
  return {
    ...open,
    dissolved: { ...pot.dissolved, equation: undefined, limitation: undefined, ingredients: [] },
    metals: { ...pot.metals, metals: [] },
    limits: { ingredients: pot.limits.ingredients.map((line) => openLine(line, told)) },
    besides: {},
  };
}

/** What words tell of an amount that is written for the sample too, and is another one there. */
export interface AgainstChange {
  readonly differs: string;
  readonly name: string;
  /** What the words come to, of what is written for all: `5.7 g`. */
  readonly told: string;
  readonly written: string;
}

/** Words and figures may be this far apart: what is told in words is round. Common practice, no source. */
const roundness = 0.05;

/**
 * Where the words of a sample and its `change:` tell of two amounts.
 * @param common the ingredients as they are written for all samples
 */
export function againstChange(
  { samples }: Entry,
  index: number,
  common: readonly Ingredient[],
  { ingredients }: PotAmounts,
): readonly AgainstChange[] {
  const { differs, change = [] } = samples[index]!;
  if (differs === undefined || change.length === 0) return [];
  return ingredients.flatMap((own): AgainstChange[] => {
    const before = own.path[0] === 'samples' ? common.find(({ id }) => id === own.id) : undefined;
    const told = before && otherAmountsIn(differs, [before]).find(({ amount }) => amount !== undefined)?.amount;
    const [meant, measured] = [told === undefined ? undefined : writtenQuantity(told), own.measure.amount];
    if (!meant || !measured || meant.dimension !== measured.dimension || measured.base.isZero()) return [];
    if (meant.base.div(measured.base).minus(1).abs().lte(roundness)) return [];
    return [{ differs, name: own.name, told: told!, written: measured.written }];
  });
}
