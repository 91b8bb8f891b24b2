// What meets in an entry beside the reagents that it lists: what of them could not be read, what a step takes that is
// none of them, what the product is washed with.
import { readReagentText, resolveReagent, resolveUse, unreadReagent } from '../reagents/index.js';
import { washesWritten, type Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import type { ReckoningContext } from './contracts.js';
import { cupboardOfContext, isWaterReagent } from './ingredients.js';
import { linesLeftOut } from './left-out.js';
import type { VesselItem } from './vessels.js';

/** Something that no reagent of the entry holds, and that meets them. */
export interface BroughtIn {
  readonly item: VesselItem;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  readonly how: 'left-out' | 'with' | 'wash';
}

type Step = NonNullable<Entry['steps']>[number];
type StepKeys = Exclude<Step, string>;

/** What stands in the pot already, by whatever name. */
const inThePot =
  /^(?:the )?(?:mixture|product|pigment|precipitate|solids?|filtrate|filter ?cake|cake|liquor|solution|residue|slurry|paste|batch|rest|all|everything|it)$/i;

const plain = (words: string): string => words.trim().toLowerCase();

function itemFrom(text: string, path: Path, context: ReckoningContext): VesselItem {
  const read = readReagentText(text);
  const reagent = read.ok ? resolveReagent(read.value, cupboardOfContext(context)) : unreadReagent(text);
  return { id: text, use: { reagent: text }, path, reagent };
}

/** Names by which a step may call what the entry uses. */
function namesOf({ id, reagent }: VesselItem): readonly string[] {
  const { name, written, substance } = reagent;
  return [id, name, written.plainName, written.name, substance?.formula, ...(written.alsoCalled ?? [])]
    .filter((one) => one !== undefined)
    .map(plain);
}

const dryOf = ({ reagent }: VesselItem): string | undefined => reagent.substance?.constituents.dry;

/** Whether something is among what the entry uses, under this name or another, or in words that are part of one. */
function isUsed(brought: VesselItem, used: readonly VesselItem[]): boolean {
  const called = plain(brought.id);
  const dry = dryOf(brought);
  return used.some((item) => {
    if (dry !== undefined && dryOf(item) === dry) return true;
    return namesOf(item).some((name) => name === called || (dry === undefined && name.includes(called)));
  });
}

/** With its amount, where the step takes nothing else. */
const withAmount = ({ with: ids = [], amount }: StepKeys, text: string): string =>
  amount === undefined || ids.length > 1 ? text : `${text} ${amount}`;

/** What steps take under `with:` that no reagent of the entry is. */
function fromSteps({ steps = [] }: Entry, used: readonly VesselItem[], context: ReckoningContext): BroughtIn[] {
  const seen = new Set<string>();
  return steps.flatMap((step, at) => {
    if (typeof step === 'string' || !step.with) return [];
    return step.with.flatMap((text, place): BroughtIn[] => {
      if (inThePot.test(text.trim()) || seen.has(plain(text))) return [];
      if (used.some((item) => namesOf(item).includes(plain(text)))) return [];
      const path: Path = ['steps', at, 'with', place];
      const item = { ...itemFrom(withAmount(step, text), path, context), id: text, step: at };
      if (isUsed(item, used) || isWaterReagent(item.reagent)) return [];
      seen.add(plain(text));
      return [{ item, how: 'with', ...(step.sample !== undefined && { sample: step.sample }) }];
    });
  });
}

/** What of its reagents could not be read, as far as its words tell. */
const fromLeftOut = ({ leftOut = [] }: Entry, context: ReckoningContext): BroughtIn[] =>
  leftOut.flatMap(linesLeftOut).map(({ line, path }) => ({ item: itemFrom(line, path, context), how: 'left-out' }));

type Wash = Exclude<NonNullable<Entry['washes']>, string>[number];

/** A wash with something else than water; what several washes alike come to is not told. */
function washed({ with: text, volume, times }: Wash, path: Path, context: ReckoningContext): VesselItem | undefined {
  const facts = { reagent: text, ...(times === 1 && { amount: volume }) };
  const reagent = resolveUse(facts, cupboardOfContext(context));
  if (isWaterReagent(reagent)) return undefined;
  return { id: text, use: { ...facts, role: 'wash' }, path: [...path, 'with'], reagent };
}

/** What the product is washed with, in each sample. */
function fromWashes(entry: Entry, context: ReckoningContext): BroughtIn[] {
  const indices = entry.samples.length > 0 ? entry.samples.map((_, index): number | undefined => index) : [undefined];
  return indices.flatMap((index) => {
    const washes = washesWritten(entry, index);
    const sample = index === undefined ? undefined : entry.samples[index]!;
    const above: Path = sample?.washes ? ['samples', index!, 'washes'] : ['washes'];
    if (washes === undefined || typeof washes === 'string') return [];
    return washes.flatMap((wash, at): BroughtIn[] => {
      const item = washed(wash, [...above, at], context);
      return item ? [{ item, how: 'wash', ...(sample && { sample: sample.sample }) }] : [];
    });
  });
}

const bringsIn = ({ leftOut, steps, washes, samples }: Entry): boolean =>
  leftOut !== undefined || steps !== undefined || washes !== undefined || samples.some((one) => one.washes);

/** All that meets in an entry beside the reagents that it lists. @param used what it lists, of all samples */
export function broughtIn(entry: Entry, used: readonly VesselItem[], context: ReckoningContext): readonly BroughtIn[] {
  if (!bringsIn(entry)) return nothing;
  return [...fromLeftOut(entry, context), ...fromSteps(entry, used, context), ...fromWashes(entry, context)];
}
const nothing: readonly BroughtIn[] = [];

/** `‘soda 8 g’ was not read as a reagent …` */
export const leftOutWords = ({ item, how }: BroughtIn): readonly string[] =>
  how === 'left-out' ? [`‘${item.id}’ was not read as a reagent; it was judged by its words, among the rest.`] : [];

/** `Step 3 takes battery acid, which no reagent holds: …`; undefined for what an entry says plainly itself. */
export function broughtInWords({ item, how }: BroughtIn): string | undefined {
  const { name } = item.reagent;
  if (how !== 'with') return undefined;
  const step = `Step ${(item.step ?? 0) + 1}`;
  return `${step} takes ${name}, which no reagent holds: it was judged in an amount that nothing tells.`;
}
