// What is left on the shelf of what was bought, what it is worth, and for which entry it will not be enough.
import { exact, withUncertainty, type Decimal, type Quantity } from '../chemistry/index.js';
import { isSurelyAfter } from '../journal/dates.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import type { ShelfReagent } from '../journal/schema.js';
import { onceFor } from '../once.js';
import { Findings, type Finding } from '../remarks/findings.js';
import type { Figure, JarTaken } from './contracts.js';
import { costOfAmount, moneyFigure } from './amounts/cost.js';
import { figure } from './figures.js';
import { usesOf } from './ingredients.js';
import { quantityOf } from './parse-cache.js';

/** What is left of a jar that was bought. Masses in g, volumes in mL. */
export interface JarStock {
  readonly bought: Figure;
  /** From this day on uses count. */
  readonly since: string;
  readonly used: Figure;
  /** What the entries that are planned will take. */
  readonly planned?: Figure;
  /** Below nothing where more was used than was bought. */
  readonly left: Figure;
  /** Numbers of entries that took an amount which is not known: then there is less. */
  readonly unknownIn: readonly number[];
  /** What was used of it cost; what is left of it cost. */
  readonly costUsed?: Figure;
  readonly costLeft?: Figure;
}

interface Taking {
  readonly entry: Entry;
  readonly taken: JarTaken;
  readonly amount?: Decimal;
}

interface Reckoned {
  readonly entry: Entry;
  readonly amounts: { readonly jarsTaken?: readonly JarTaken[] };
}

export interface ShelfUsed {
  readonly shelf: ReadonlyMap<string, ShelfReagent>;
  /** The journal's, for prices that leave it out. */
  readonly currency?: string | undefined;
  readonly reckoned: readonly Reckoned[];
}

type Bought = Quantity & { readonly dimension: 'mass' | 'volume' };

/** What a jar held, in g or mL. */
const boughtOf = onceFor(({ bought }: ShelfReagent): Bought | undefined => {
  const read = bought === undefined ? undefined : quantityOf(bought.amount);
  if (!read?.ok) return undefined;
  const { dimension } = read.value;
  return dimension === 'mass' || dimension === 'volume' ? { ...read.value, dimension } : undefined;
});

/** How much was taken, g or mL, by what the jar is measured in. */
const amountsOf = {
  mass: onceFor(({ mass }: JarTaken): Decimal | undefined => (mass === undefined ? undefined : exact(mass))),
  volume: onceFor(({ volume }: JarTaken): Decimal | undefined => (volume === undefined ? undefined : exact(volume))),
};

/** Days are written year first, so that their order is that of their signs. */
function byDay({ entry: one }: Taking, { entry: other }: Taking): number {
  if (one.date !== other.date) return one.date < other.date ? -1 : 1;
  return one.number - other.number;
}

/** Whether an entry has used what it names: not where it is planned, nor where it was decided against. */
const hasUsed = ({ status }: Entry): boolean => status !== 'planned' && status !== 'abandoned';

/** Everything that was taken of each jar, in order of day. */
function takingsOf({ shelf, reckoned }: ShelfUsed): ReadonlyMap<string, readonly Taking[]> {
  const takings = new Map<string, Taking[]>();
  for (const { entry, amounts } of reckoned)
    for (const taken of amounts.jarsTaken ?? []) {
      const jar = shelf.get(taken.jar);
      const bought = jar && boughtOf(jar);
      // Of an entry that is dated to its month it counts as after: what may be gone is not there.
      if (!bought || isSurelyAfter(jar.bought!.date, entry.date)) continue;
      const amount = amountsOf[bought.dimension](taken);
      const list = takings.get(taken.jar) ?? [];
      list.push({ entry, taken, ...(amount && { amount }) });
      takings.set(taken.jar, list);
    }
  for (const list of takings.values()) list.sort(byDay);
  return takings;
}

const places = 2;
const figureOf = (amount: Decimal, unit: string): Figure => ({
  value: amount.toFixed(),
  unit,
  text: `${amount.toFixed(places).replace('-', '−')} ${unit}`,
});

/** What an amount is off by where some of it was taken by the spoon: the doubts of several takings in quadrature. */
function withDoubtOf(amount: Decimal, takings: readonly Taking[], unit: string): Figure {
  const doubts = takings.flatMap(({ taken: { doubt }, amount: took }) => (doubt && took ? [doubt * Number(took)] : []));
  if (doubts.length === 0) return figureOf(amount, unit);
  return figure(withUncertainty(amount, Math.hypot(...doubts) / 2, 'taken by the spoon'), unit);
}

const sumOf = (takings: readonly Taking[]): Decimal =>
  takings.reduce((sum, { amount }) => (amount ? sum.plus(amount) : sum), exact(0));

function stockOf(jar: ShelfReagent, takings: readonly Taking[], currency: string | undefined): JarStock | undefined {
  const bought = boughtOf(jar);
  if (!bought) return undefined;
  const done = takings.filter(({ entry }) => hasUsed(entry));
  const toCome = takings.filter(({ entry }) => entry.status === 'planned');
  const planned = sumOf(toCome);
  const used = sumOf(done);
  const left = bought.base.minus(used);
  const unit = bought.baseUnit;
  const cost = (amount: Decimal): Figure | undefined => {
    const money = jar.price === undefined ? undefined : costOfAmount(jar.price, bought.dimension, amount, currency);
    return money && moneyFigure(money);
  };
  const [costUsed, costLeft] = [cost(used), left.isNegative() ? undefined : cost(left)];
  return {
    bought: figureOf(bought.base, unit),
    since: jar.bought!.date,
    used: withDoubtOf(used, done, unit),
    ...(!planned.isZero() && { planned: withDoubtOf(planned, toCome, unit) }),
    left: withDoubtOf(left, done, unit),
    unknownIn: [...new Set(done.filter(({ amount }) => !amount).map(({ entry }) => entry.number))],
    ...(costUsed && { costUsed }),
    ...(costLeft && { costLeft }),
  };
}

/** What is left of each jar of which it is written when how much was bought, by its id. */
export function stockOfShelf(used: ShelfUsed): ReadonlyMap<string, JarStock> {
  const takings = takingsOf(used);
  return new Map(
    [...used.shelf].flatMap(([id, jar]): readonly (readonly [string, JarStock])[] => {
      const stock = stockOf(jar, takings.get(id) ?? [], used.currency);
      return stock ? [[id, stock]] : [];
    }),
  );
}

/** Where a sample takes a jar: the place of the amount. */
function pathOf({ entry, taken }: Taking): Path {
  const index = entry.samples.findIndex((one) => one.sample === taken.sample);
  const found = usesOf(entry, index < 0 ? undefined : index).find(({ use }) => use.reagent === taken.jar);
  return found ? [...found.path, 'amount'] : ['reagents'];
}

/** The taking with which a jar runs out, what was done before what is planned; undefined where it suffices. */
function firstBeyond(
  bought: Decimal,
  takings: readonly Taking[],
): { readonly taking: Taking; readonly before: Decimal; readonly earlier: readonly Taking[] } | undefined {
  const done = takings.filter(({ entry }) => hasUsed(entry));
  const planned = takings.filter(({ entry }) => entry.status === 'planned');
  let rest = bought;
  const inOrder = [...done, ...planned];
  for (const [at, taking] of inOrder.entries()) {
    const before = rest;
    rest = rest.minus(taking.amount ?? 0);
    if (rest.isNegative()) return { taking, before, earlier: inOrder.slice(0, at) };
  }
  return undefined;
}

/** Jars that do not suffice: found at the use with which they run out, by the number of its entry. */
export function jarsThatRunOut(used: ShelfUsed): ReadonlyMap<number, readonly Finding[]> {
  const found = new Map<number, Findings>();
  for (const [id, takings] of takingsOf(used)) {
    const bought = boughtOf(used.shelf.get(id)!)!;
    const beyond = firstBeyond(bought.base, takings);
    if (!beyond) continue;
    const { taking, before, earlier } = beyond;
    const findings = found.get(taking.entry.number) ?? new Findings();
    found.set(taking.entry.number, findings);
    findings.add('shelf-runs-out', pathOf(taking), {
      id,
      sample: taking.taken.sample,
      needed: withDoubtOf(taking.amount!, [taking], bought.baseUnit).text,
      left: withDoubtOf(before, earlier, bought.baseUnit).text,
      planned: taking.entry.status === 'planned',
      actual: id,
    });
  }
  return new Map([...found].map(([entry, findings]) => [entry, findings.all]));
}
