// Lots: the products of samples as reagents of later entries; what is left of them, and where a sample comes from.
import { exact } from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import { Findings, type Finding } from '../remarks/findings.js';
import type { AmountsReckoning, Figure, LineageNode, LotFacts, LotStock, SampleAmounts } from './contracts.js';
import { isWaterWritten, type CarriedReagent } from '../reagents/index.js';
import { isWaterReagent, usesOf, type Ingredient } from './ingredients.js';

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
  return ingredients
    .filter(({ role, formula }) => !gone.has(role) && formula !== undefined && !isWaterWritten(formula))
    .filter(({ excess, left, limiting }) => excess || (!limiting && Number(left?.value ?? 0) > 0))
    .map(({ name, formula }) => ({ name, formula: formula!, lot }));
}

/** What an entry's samples are to later entries. */
export function lotsOf(entry: Entry, amounts: AmountsReckoning): LotFacts[] {
  return amounts.samples
    .filter(({ sample }) => sample !== '')
    .map((sample): LotFacts => {
      const bought = sample.ingredients.filter(({ formula, role }) => !isWaterWritten(formula) && role !== 'wash');
      const formula = amounts.product?.formula ?? entry.pigment?.formula;
      const name = entry.pigment?.name ?? entry.title;
      const lot = `${entry.number}/${sample.sample}`;
      const carries = carriedBy(sample, lot);
      return {
        lot,
        entry: entry.number,
        sample: sample.sample,
        name,
        ...(formula !== undefined && { formula }),
        ...(carries.length > 0 && { carries }),
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

interface Reckoned {
  readonly entry: Entry;
  readonly amounts: AmountsReckoning;
}

/**
 * Stock of every lot that is used, over the whole journal.
 * @param reckoned in the order in which the lots were used
 */
export function stockOfLots(reckoned: readonly Reckoned[]): ReadonlyMap<string, LotStock> {
  const obtained = new Map<string, Figure | undefined>(
    reckoned.flatMap(({ entry, amounts }) =>
      amounts.samples.map((sample): [string, Figure | undefined] => [
        `${entry.number}/${sample.sample}`,
        sample.obtained,
      ]),
    ),
  );
  const taken = new Map<string, LotStock['taken'][number][]>();
  for (const { entry, amounts } of reckoned) {
    for (const { lot, sample, mass } of amounts.lotsTaken ?? []) {
      const list = taken.get(lot);
      const one = { entry: entry.number, sample, ...(mass && { mass }) };
      if (list) list.push(one);
      else taken.set(lot, [one]);
    }
  }
  return new Map(
    [...taken].map(([lot, uses]) => {
      const had = obtained.get(lot);
      const all = uses.every(({ mass }) => mass);
      const left = had && all ? uses.reduce((rest, { mass }) => rest.minus(mass!.value), exact(had.value)) : undefined;
      const places = Math.max(
        2,
        ...uses.map(({ mass }) => (mass?.value.split('.')[1] ?? '').length),
        (had?.value.split('.')[1] ?? '').length,
      );
      return [
        lot,
        {
          lot,
          ...(had && { obtained: had }),
          taken: uses,
          overspent: left?.isNegative() ?? false,
          ...(left && {
            left: {
              value: left.toFixed(),
              unit: 'g',
              text: `${left.toFixed(Math.min(places, 4)).replace('-', '−')} g`,
            },
          }),
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

/** Lots of which more was taken than there was: found at the use that went beyond, by the number of its entry. */
export function overspentLots(reckoned: readonly Reckoned[]): ReadonlyMap<number, readonly Finding[]> {
  const entries = new Map(reckoned.map(({ entry }) => [entry.number, entry] as const));
  const found = new Map<number, Findings>();
  for (const stock of stockOfLots(reckoned).values()) {
    const beyond = firstBeyond(stock);
    if (!beyond) continue;
    const { lot, obtained } = stock;
    const { entry, sample, tooMuch } = beyond;
    const findings = found.get(entry) ?? new Findings();
    found.set(entry, findings);
    findings.add('lot-overspent', pathOf(entries.get(entry)!, lot, sample), {
      lot,
      obtained: obtained!.text.replace(/ ± .*? /, ' '),
      sample,
      tooMuch: `${tooMuch} g`,
      actual: lot,
    });
  }
  return new Map([...found].map(([entry, findings]) => [entry, findings.all]));
}

/** The use with which more of a lot was taken than there was, and by how much, g. */
function firstBeyond({
  obtained,
  taken,
  overspent,
}: LotStock): (LotStock['taken'][number] & { tooMuch: string }) | undefined {
  if (!overspent || !obtained) return undefined;
  let rest = exact(obtained.value);
  for (const use of taken) {
    rest = rest.minus(use.mass!.value);
    if (rest.isNegative()) return { ...use, tooMuch: rest.neg().toFixed() };
  }
  return undefined;
}
