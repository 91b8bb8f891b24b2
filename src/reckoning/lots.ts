// Lots: the products of samples as reagents of later entries; what is left of them, and where a sample comes from.
import { exact } from '../chemistry/index.js';
import { gases } from '../hazards/foresee/gases.js';
import { madeByFire } from '../hazards/foresee/made-by-fire.js';
import { washesWritten, type Entry } from '../journal/entry.js';
import type { Sample } from '../journal/schema.js';
import type { Path } from '../journal/place.js';
import { onceFor } from '../once.js';
import { Findings, type Finding } from '../remarks/findings.js';
import type { AmountsReckoning, Figure, LineageNode, LotFacts, LotStock, SampleAmounts } from './contracts.js';
import { assayedAs } from './treatment/assays.js';
import { isWaterWritten, judgedCelsius, namesInWords, resolveNamed, type CarriedReagent } from '../reagents/index.js';
import { isWaterReagent, usesOf, type Ingredient } from './ingredients.js';
import { wordsLeftOut } from './told/left-out.js';
import { heatsTold } from './told/told-heat.js';
import { tellsWashing } from './told/told-work.js';
import { equationOf, quantityOf } from './parse-cache.js';
import { heatOfStep, wordsOfStep } from './steps.js';

/** Steps that are kept; what lies further back is on the pages of the earlier entries. */
const deepest = 5;
const cut = (node: LineageNode, depth: number): LineageNode =>
  depth <= 0 && node.from.length > 0
    ? { ...node, from: [], further: true }
    : { ...node, from: node.from.map((child) => cut(child, depth - 1)) };

/** Where a sample comes from; undefined where nothing in it was made earlier. */
export function lineageOf(entry: Entry, sample: string, ingredients: readonly Ingredient[]): LineageNode | undefined {
  if (!ingredients.some(({ lotFacts }) => lotFacts)) return undefined;
  const from = ingredients
    .filter(({ reagent, use }) => !isWaterReagent(reagent) && use.role !== 'wash')
    .map((ingredient): LineageNode => {
      const { lotFacts, name, use } = ingredient;
      const before = lotFacts?.lineage;
      const taken = use.amount === undefined ? {} : { taken: use.amount };
      if (!lotFacts) return { name, ...taken, from: [] };
      return {
        name: lotFacts.name,
        lot: lotFacts.lot,
        entry: lotFacts.entry,
        sample: lotFacts.sample,
        ...taken,
        ...(lotFacts.obtained && { obtained: lotFacts.obtained.text }),
        ...(lotFacts.percentYield && { yield: lotFacts.percentYield.text }),
        from: before?.from ?? [],
        ...(before?.further && { further: true }),
      };
    });
  return cut(
    { name: entry.pigment?.name ?? entry.title, lot: `${entry.number}/${sample}`, entry: entry.number, sample, from },
    deepest,
  );
}

/** Roles of what is no longer there when the product is dry, or never reacted with it. */
const gone = new Set(['wash', 'solvent']);

/** What may be left in a sample of its own reagents: those in excess, where nothing says that it was washed. */
function carriedBy({ ingredients }: SampleAmounts, lot: string): readonly CarriedReagent[] {
  if (ingredients.some(({ role }) => role === 'wash')) return [];
  // Where weighing cannot tell what runs out first, any of these may be left.
  const undecided = ingredients.some(({ tooClose }) => tooClose);
  const isLeft = ({ excess, left, limiting, tooClose }: SampleAmounts['ingredients'][number]): boolean =>
    excess === true || tooClose === true || (limiting ? undecided : Number(left?.value ?? 0) > 0);
  return ingredients
    .filter(({ role, formula }) => !gone.has(role) && formula !== undefined && !isWaterWritten(formula))
    .filter(isLeft)
    .map(({ name, formula }) => ({ name, formula: formula!, lot }));
}

/** From here on a fire makes something else of salts; judgement. */
const firing = 350;

/** The hottest that a sample was, °C, by keys and words. */
function hottestOf(entry: Entry, sample: Sample | undefined): number {
  const keys = [...entry.heating, ...(sample?.heating ?? [])].map(({ to }) => judgedCelsius(to));
  const steps = (entry.steps ?? []).flatMap(heatOfStep);
  const told = heatsTold(entry).filter((one) => one.sample === undefined || one.sample === sample?.sample);
  return Math.max(0, ...keys, ...steps, ...told.map(({ celsius }) => celsius));
}

/** Elements of salts and of their partners of which a fire may leave something else that matters. */
const mayTurn = ['S', 'Se', 'N'];

/** What a fire made in a sample and left there: the sulfide of a sulfate that was fired with charcoal. */
function madeInFire(
  entry: Entry,
  sample: Sample | undefined,
  { ingredients }: SampleAmounts,
  lot: string,
): CarriedReagent[] {
  const toCelsius = hottestOf(entry, sample);
  if (toCelsius < firing) return [];
  const reagents = ingredients.filter(({ role }) => role !== 'wash').map((one) => resolveNamed(one.name, one.formula));
  const holds = (symbol: string): boolean =>
    reagents.some(({ substance }) => substance?.constituents.atoms.has(symbol) ?? true);
  if (!mayTurn.some(holds)) return [];
  const heating = [{ of: 'mixture', toCelsius }];
  const made = madeByFire({ ingredients: reagents.map((reagent) => ({ reagent })), heating });
  const words = (entry.steps ?? []).map(wordsOfStep);
  const isWashed = (sample?.washes ?? entry.washes) !== undefined || words.some(tellsWashing);
  return made.map((one) => ({ ...one, lot, ...(!isWashed && { made: true as const }) }));
}

const saysWater = /\b(?:water|Wasser|eau|agua)\b/iu;

/** The last that words of a wash name, unless water came after it. */
function lastNamedIn(words: string, lot: string): CarriedReagent[] {
  const last = namesInWords(words).findLast(({ onlySpokenOf }) => !onlySpokenOf);
  const behind = last ? words.slice(words.lastIndexOf(last.text) + last.text.length) : '';
  return last && !saysWater.test(behind) && !saysWater.test(last.name) ? [{ name: last.name, lot }] : [];
}

/**
 * What a sample was washed with last, unless that was water, and what of its washes could not be read. Where something
 * was heated nothing tells whether that was before.
 */
function lastWashedWith(entry: Entry, index: number, lot: string): CarriedReagent[] {
  const washes = washesWritten(entry, index);
  const unread = (entry.leftOut ?? [])
    .filter(({ path }) => path[0] !== 'samples' || path[1] === index)
    .flatMap((one) => wordsLeftOut(one).filter(({ of }) => of === 'washes'))
    .flatMap(({ words }) => lastNamedIn(words, lot));
  if (typeof washes === 'string') return [...lastNamedIn(washes, lot), ...unread];
  const last = washes?.findLast(({ times }) => times > 0);
  if (!last || isPlainWater(last.with)) return unread;
  const isHeated = [...entry.heating, ...(entry.samples[index]?.heating ?? [])].length > 0;
  return [{ name: last.with, lot, ...(!isHeated && { wet: true }) }, ...unread];
}

const isPlainWater = (text: string): boolean => isWaterReagent(resolveNamed(text));

/** What the maker says that a sample may still hold, by ids of the entry's reagents, or described. */
function saidToCarry(written: Sample | undefined, { ingredients }: SampleAmounts, lot: string): CarriedReagent[] {
  return (written?.carries ?? []).map((one): CarriedReagent => {
    // A jar that is none of the entry's is looked up where the lot is used.
    const { name, formula } =
      typeof one === 'string' ? (ingredients.find(({ id }) => id === one) ?? { name: one, formula: undefined }) : one;
    return { name, lot, ...(formula !== undefined && { formula }) };
  });
}

/** The only product of the reaction that is neither water nor gas; undefined where there are several, or none. */
const onlyProductOf = onceFor(({ reaction }: Entry): string | undefined => {
  const equation = reaction === undefined ? undefined : equationOf(reaction);
  if (!equation?.ok) return undefined;
  const [product, ...others] = equation.value.products.filter(
    ({ label, formula }) => formula.state !== 'g' && !gases().has(label) && !isWaterWritten(label),
  );
  return others.length === 0 ? product?.label : undefined;
});

const isWaterUntold = ({ pigment, heating }: Entry, sample: Sample | undefined): boolean =>
  pigment?.formula === undefined &&
  sample?.formula === undefined &&
  heating.length === 0 &&
  (sample?.heating ?? []).length === 0;

/** What an entry's samples are to later entries. */
export function lotsOf(entry: Entry, amounts: AmountsReckoning): LotFacts[] {
  return amounts.samples
    .filter(({ sample }) => sample !== '')
    .map((sample): LotFacts => {
      const bought = sample.ingredients.filter(({ formula, role }) => !isWaterWritten(formula) && role !== 'wash');
      const own = sample.heatedPast?.left ?? entry.samples.find((one) => one.sample === sample.sample)?.formula;
      const formula = own ?? amounts.product?.formula ?? entry.pigment?.formula ?? onlyProductOf(entry);
      const name = entry.pigment?.name ?? entry.title;
      const lot = `${entry.number}/${sample.sample}`;
      const written = entry.samples.find((one) => one.sample === sample.sample);
      const freeAcid = written?.['free-acid'];
      const said = saidToCarry(written, sample, lot);
      const ofFire = madeInFire(entry, written, sample, lot);
      const saidNames = new Set(said.map((one) => one.name));
      const washedWith = lastWashedWith(
        entry,
        entry.samples.findIndex((one) => one === written),
        lot,
      );
      const ofOwn = ofFire.filter((one) => one.formula !== formula);
      const known = [...carriedBy(sample, lot), ...ofOwn, ...washedWith].filter((one) => !saidNames.has(one.name));
      const carries = [...known, ...said];
      return {
        lot,
        entry: entry.number,
        sample: sample.sample,
        name,
        ...(formula !== undefined && { formula }),
        ...(formula !== undefined && isWaterUntold(entry, written) && { waterUntold: true }),
        ...(carries.length > 0 && { carries }),
        ...(sample.assayed && assayedAs(sample.assayed)),
        ...(freeAcid !== undefined && { freeAcid }),
        ...(sample.obtained && { obtained: sample.obtained }),
        ...(sample.percentYield && { percentYield: sample.percentYield }),
        ...(sample.cost && { cost: sample.cost }),
        ...((sample.cumulativeYield ?? sample.percentYield) && {
          cumulativeYield: sample.cumulativeYield ?? sample.percentYield,
        }),
        lineage: sample.lineage ?? {
          name,
          lot,
          entry: entry.number,
          sample: sample.sample,
          from: bought.map((one) => ({
            name: one.name,
            ...(one.written !== undefined && { taken: one.written }),
            from: [],
          })),
        },
      };
    });
}

/** What is asked of each entry: what its samples came to, and what they took. */
interface Reckoned {
  readonly entry: Entry;
  readonly amounts: Pick<AmountsReckoning, 'lotsTaken'> & {
    readonly samples: readonly Pick<SampleAmounts, 'sample' | 'obtained'>[];
  };
}

type Taken = LotStock['taken'][number];
type Sent = LotStock['sent'][number];

/** Mass of a portion as it is written, without its uncertainty. */
function massOf(written: string): Figure | undefined {
  const read = quantityOf(written);
  if (!read.ok || read.value.dimension !== 'mass') return undefined;
  return { value: read.value.base.toFixed(), unit: 'g', text: written };
}

/** Portions of each sample that were sent away, by lot. */
function sentByLot(reckoned: readonly Reckoned[]): ReadonlyMap<string, readonly Sent[]> {
  const byLot = new Map<string, readonly Sent[]>();
  for (const { entry } of reckoned) for (const [lot, sent] of sentOf(entry)) byLot.set(lot, sent);
  return byLot;
}

/** What was sent away of the samples of an entry. */
const sentOf = onceFor(({ number, samples }: Entry): readonly (readonly [lot: string, sent: readonly Sent[]])[] =>
  samples
    .filter(({ sent = [] }) => sent.length > 0)
    .map(({ sample, sent = [] }) => [
      `${number}/${sample}`,
      sent.map(({ date, to, amount }) => {
        const mass = massOf(amount);
        return { date, to, ...(mass && { mass }) };
      }),
    ]),
);

function takenByLot(reckoned: readonly Reckoned[]): ReadonlyMap<string, readonly Taken[]> {
  const taken = new Map<string, Taken[]>();
  for (const { entry, amounts } of reckoned)
    for (const { lot, sample, mass } of amounts.lotsTaken ?? []) {
      const one = { entry: entry.number, sample, ...(mass && { mass }) };
      const list = taken.get(lot);
      if (list) list.push(one);
      else taken.set(lot, [one]);
    }
  return taken;
}

const placesOf = (figure: Figure | undefined): number => (figure?.value.split('.')[1] ?? '').length;
const mostPlaces = 4;

/** What is left of a lot, g; undefined where something of it is not known. */
function leftOf(obtained: Figure | undefined, gone: readonly { readonly mass?: Figure }[]): Figure | undefined {
  if (!obtained || !gone.every(({ mass }) => mass)) return undefined;
  const left = gone.reduce((rest, { mass }) => rest.minus(mass!.value), exact(obtained.value));
  const places = Math.max(2, placesOf(obtained), ...gone.map(({ mass }) => placesOf(mass)));
  return {
    value: left.toFixed(),
    unit: 'g',
    text: `${left.toFixed(Math.min(places, mostPlaces)).replace('-', '−')} g`,
  };
}

/** g by which there may have been more, or less may have been taken: `1 tbsp` of a powder is no weighing. */
const doubtIn = (obtained: Figure | undefined, gone: readonly { readonly mass?: Figure }[]): string =>
  [obtained, ...gone.map(({ mass }) => mass)].reduce((sum, one) => sum.plus(one?.uncertainty ?? 0), exact(0)).toFixed();

/**
 * Stock of every lot of which something was used or sent away, over the whole journal.
 * @param reckoned in the order in which the lots were used
 */
export function stockOfLots(reckoned: readonly Reckoned[]): ReadonlyMap<string, LotStock> {
  const [takenOf, sentOf] = [takenByLot(reckoned), sentByLot(reckoned)];
  const lots = new Set([...takenOf.keys(), ...sentOf.keys()]);
  const obtained = new Map<string, Figure | undefined>();
  for (const { entry, amounts } of reckoned)
    for (const one of amounts.samples) {
      const lot = `${entry.number}/${one.sample}`;
      if (lots.has(lot)) obtained.set(lot, one.obtained);
    }
  return new Map(
    [...lots].map((lot): [string, LotStock] => {
      const [had, taken, sent] = [obtained.get(lot), takenOf.get(lot) ?? [], sentOf.get(lot) ?? []];
      const left = leftOf(had, [...taken, ...sent]);
      return [
        lot,
        {
          lot,
          ...(had && { obtained: had }),
          taken,
          sent,
          overspent:
            left !== undefined &&
            exact(left.value)
              .plus(doubtIn(had, [...taken, ...sent]))
              .isNegative(),
          ...(left && { left }),
        },
      ];
    }),
  );
}

/** Where a sample takes a lot: the place of the use. */
function pathOf(entry: Entry, lot: string, sample: string): Path {
  const index = entry.samples.findIndex((one) => one.sample === sample);
  const use = usesOf(entry, index < 0 ? undefined : index).find((one) => one.use.lot === lot);
  return use ? [...use.path, 'amount'] : ['reagents'];
}

/**
 * Lots of which more went than there was: found where it went beyond, by the number of the entry.
 * @param stocks of every lot, where they are known
 */
export function overspentLots(
  reckoned: readonly Reckoned[],
  stocks: Iterable<LotStock> = stockOfLots(reckoned).values(),
): ReadonlyMap<number, readonly Finding[]> {
  const entries = new Map(reckoned.map(({ entry }) => [entry.number, entry] as const));
  const found = new Map<number, Findings>();
  const findingsOf = (entry: number): Findings => {
    const findings = found.get(entry) ?? new Findings();
    found.set(entry, findings);
    return findings;
  };
  for (const stock of stocks) {
    const beyond = firstBeyond(stock);
    if (!beyond) continue;
    const { lot, obtained } = stock;
    const facts = {
      lot,
      obtained: obtained!.text.replace(/ ± .*? /, ' '),
      tooMuch: `${beyond.tooMuch} g`,
      actual: lot,
    };
    if ('to' in beyond.portion) {
      const [entry = 0, sample = ''] = [Number(lot.split('/')[0]), lot.split('/')[1]];
      const at = entries.get(entry)!.samples.findIndex((one) => one.sample === sample);
      findingsOf(entry).add('lot-sent-beyond', ['samples', at, 'sent'], facts);
      continue;
    }
    const { entry, sample } = beyond.portion;
    const before = otherTakersOf(stock, beyond.portion);
    const others = before === '' ? {} : { others: before };
    findingsOf(entry).add('lot-overspent', pathOf(entries.get(entry)!, lot, sample), { ...facts, sample, ...others });
  }
  return new Map([...found].map(([entry, findings]) => [entry, findings.all]));
}

/** Who else took of a lot, each with how much: `entry 2 (1.50 g)`. */
const otherTakersOf = ({ taken }: LotStock, portion: Taken): string =>
  taken
    .filter((one) => one !== portion && (one.entry !== portion.entry || one.sample !== portion.sample))
    .map(
      ({ entry, sample, mass }) => `entry ${entry}${sample === '' ? '' : `/${sample}`}${mass ? ` (${mass.text})` : ''}`,
    )
    .join(', ');

/** The portion with which more of a lot went than there was, uses before what was sent, and by how much, g. */
function firstBeyond({
  obtained,
  taken,
  sent,
  overspent,
}: LotStock): { readonly portion: Taken | Sent; readonly tooMuch: string } | undefined {
  if (!overspent || !obtained) return undefined;
  let rest = exact(obtained.value);
  for (const portion of [...taken, ...sent]) {
    rest = rest.minus(portion.mass!.value);
    if (rest.isNegative()) return { portion, tooMuch: rest.neg().toFixed() };
  }
  return undefined;
}
