// What entries refer to: reagents on the shelf, lots of other entries, entries that they follow or repeat.
import { onceFor } from '../once.js';
import type { Findings, Path } from '../remarks/findings.js';
import type { KnownNumbers } from '../remarks/rules/references.js';
import type { Catalogue } from './catalogue.js';
import { isSurelyAfter } from './dates.js';
import { isDraft, type Entry, type Shelf } from './entry.js';
import { misspelt, nearest } from './nearest.js';
import type { Use } from './schema.js';

interface PlacedUse {
  readonly use: Use;
  readonly path: Path;
}

/** Every use of a reagent or lot in an entry, with its path. */
const usesOf = onceFor((entry: Entry): readonly PlacedUse[] => {
  const placed = (uses: readonly Use[] | undefined, path: Path): PlacedUse[] =>
    (uses ?? []).map((use, at) => ({ use, path: [...path, at] }));
  return [
    ...placed(entry.reagents, ['reagents']),
    ...entry.samples.flatMap(({ add, change }, index) => [
      ...placed(add, ['samples', index, 'add']),
      ...placed(change, ['samples', index, 'change']),
    ]),
  ];
});

/** So many numbers are listed in a sentence. */
const mostListed = 12;

function knownNumbers({ byNumber }: Catalogue): KnownNumbers {
  const numbers = [...byNumber.keys()];
  return numbers.length <= mostListed ? { all: numbers } : { from: numbers[0]!, to: numbers.at(-1)! };
}

const isKnown = ({ byNumber, unreadNumbers }: Catalogue, number: number): boolean =>
  byNumber.has(number) || unreadNumbers.has(number);

/** Looks through what an entry refers to. */
export function findInReferences(entry: Entry, catalogue: Catalogue, findings: Findings): void {
  const described = describedIn(entry);
  for (const { use, path } of usesOf(entry)) {
    if (typeof use.reagent !== 'string' || !described.has(use.reagent)) findReagent(use, path, catalogue, findings);
    const lot = lotOf(use, catalogue);
    if (lot !== undefined) {
      const key = use.lot === undefined ? 'reagent' : 'lot';
      findLot(lot, entry, [...path, key], catalogue, findings);
    }
  }
  findInIncidents(entry, catalogue, findings);
  for (const key of ['follows', 'repeats'] as const)
    for (const [at, number] of entry[key].entries()) findFollowed(entry, key, number, [key, at], catalogue, findings);
  for (const [at, idea] of entry['takes-up'].entries()) findIdea(idea, ['takes-up', at], catalogue, findings);
}

/** Looks whether an idea that is taken up is there. */
function findIdea(idea: string, path: Path, catalogue: Catalogue, findings: Findings): void {
  const [entry = 0, place = 0] = idea.split('/').map(Number);
  const facts = { idea, entry, actual: idea };
  if (!isKnown(catalogue, entry)) findings.add('unknown-idea', path, { ...facts, numbers: knownNumbers(catalogue) });
  const ideas = catalogue.byNumber.get(entry)?.ideas.length;
  if (ideas !== undefined && place > ideas) findings.add('unknown-idea', path, { ...facts, ideas });
}

/** The lot that a use is of, itself or by the shelf. */
const lotOf = (use: Use, { shelf }: Pick<Catalogue, 'shelf'>): string | undefined =>
  use.lot ?? (typeof use.reagent === 'string' ? shelf.reagents.get(use.reagent)?.lot : undefined);

/** Lots that an entry uses, itself or by the shelf. */
export const lotsNamed = (entry: Entry, shelf: Shelf): readonly string[] =>
  usesOf(entry).flatMap(({ use }) => lotOf(use, { shelf }) ?? []);

/** The reagents on the shelf that go by this name. */
function reagentsNamed(
  name: string,
  { shelf, reagentIds }: Pick<Catalogue, 'shelf' | 'reagentIds'>,
): readonly string[] {
  const plain = name.toLowerCase();
  return reagentIds.filter((id) => {
    const { name: own, 'also-called': others = [] } = shelf.reagents.get(id)!;
    return [own, ...others].some((one) => one.toLowerCase() === plain);
  });
}

const slug = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');

/** The jar that a reagent named otherwise than by its id can only mean: `washing soda`, or its name on the shelf. */
function jarMeant(id: string, catalogue: Pick<Catalogue, 'shelf' | 'reagentIds'>): string | undefined {
  if (catalogue.shelf.reagents.has(id)) return undefined;
  return catalogue.shelf.reagents.has(slug(id)) ? slug(id) : reagentsNamed(id, catalogue)[0];
}

/** Reagents that an entry describes, by their names. */
const describedIn = ({ reagents }: Pick<Entry, 'reagents'>): ReadonlyMap<string, NonNullable<Use['reagent']>> =>
  new Map(reagents.flatMap(({ reagent }) => (typeof reagent === 'object' ? [[reagent.name, reagent]] : [])));

/**
 * An entry with the jars that it names otherwise than by their ids, and with what it describes wherever it names that
 * again; the same where it names none so.
 */
export function withJars(entry: Entry, shelf: Shelf): Entry {
  const catalogue = { shelf, reagentIds: [...shelf.reagents.keys()] };
  const described = describedIn(entry);
  const jar = (id: string): string => jarMeant(id, catalogue) ?? id;
  // What the entry describes needs to be described once.
  const meaning = (id: string): NonNullable<Use['reagent']> => described.get(id) ?? jar(id);
  if (!usesOf(entry).some(({ use }) => typeof use.reagent === 'string' && meaning(use.reagent) !== use.reagent))
    return entry;
  const meant = (uses: readonly Use[]): Use[] =>
    uses.map((use) => (typeof use.reagent === 'string' ? { ...use, reagent: meaning(use.reagent) } : use));
  const samples = entry.samples.map((sample) => ({
    ...sample,
    ...(sample.add && { add: meant(sample.add) }),
    ...(sample.change && { change: meant(sample.change) }),
    ...(sample.omit && { omit: sample.omit.map(jar) }),
  }));
  return { ...entry, reagents: meant(entry.reagents), samples };
}

/** Water is on no shelf, and nothing is mended by saying so of every entry. */
const plainWater =
  /^(?:(?:tap|rain|cold|warm|hot|boiling|distilled|de-?ioni[sz]ed|demineralised) )?(?:water|wasser|eau|agua|acqua)$/i;

function findReagent({ reagent: id }: Use, path: Path, catalogue: Catalogue, findings: Findings): void {
  if (typeof id !== 'string' || catalogue.shelf.reagents.has(id)) return;
  const meant = jarMeant(id, catalogue);
  const near = meant ?? misspelt(id, catalogue.reagentIds);
  if (near === undefined && plainWater.test(id.trim())) return;
  const expected = near === undefined ? {} : { expected: [near] };
  const others = meant === undefined ? [] : reagentsNamed(id, catalogue).filter((one) => one !== meant);
  const of = meant === undefined ? 'use' : 'jar-by-name';
  const facts = { id, near, of, ...(others.length > 0 && { others }), actual: id, ...expected } as const;
  findings.add('unknown-reagent', [...path, 'reagent'], facts);
}

function findInIncidents({ incidents, reagents }: Entry, { shelf, reagentIds }: Catalogue, findings: Findings): void {
  const isUsed = (id: string): boolean =>
    reagents.some(({ lot, reagent }) => lot === id || (typeof reagent === 'object' && reagent.name === id));
  for (const [index, incident] of incidents.entries()) {
    for (const [at, id] of (incident.reagents ?? []).entries()) {
      if (shelf.reagents.has(id) || isUsed(id)) continue;
      const near = nearest(id, reagentIds);
      const expected = near === undefined ? {} : { expected: [near] };
      const facts = { id, near, of: 'incident', actual: id, ...expected } as const;
      findings.add('unknown-reagent', ['incidents', index, 'reagents', at], facts);
    }
  }
}

/** Looks at a lot. @param user the entry that uses it; undefined for a lot on the shelf */
export function findLot(
  lot: string,
  user: Entry | undefined,
  path: Path,
  catalogue: Catalogue,
  findings: Findings,
): void {
  const [numberText = '', sample = ''] = lot.split('/');
  const number = Number(numberText);
  const source = catalogue.byNumber.get(number);
  const named = { lot, actual: lot };
  if (!source) {
    if (!isKnown(catalogue, number))
      findings.add('unknown-lot', path, { ...named, entry: number, numbers: knownNumbers(catalogue) });
    return;
  }
  const samples = source.samples.map((one) => one.sample);
  if (!samples.includes(sample)) {
    const expected = samples.map((one) => `${number}/${one}`);
    const mayBe = !user || (source.number !== user.number && !isSurelyAfter(source.date, user.date));
    const only = mayBe && expected.length === 1 ? { only: expected[0]! } : {};
    findings.add('unknown-lot', path, { ...named, entry: number, sample, samples, ...only, expected });
  } else if (user && source.number === user.number) findings.add('lot-of-itself', path, named);
  else if (user && isSurelyAfter(source.date, user.date))
    findings.add('lot-later', path, { ...named, made: source.date, used: user.date });
  else if (isLeftOut(source, user, catalogue))
    findings.add('lot-of-draft', path, { ...named, entry: number, status: source.status });
}

/** An entry that is not shown, though what refers to it is. */
export const isLeftOut = (entry: Entry, from: Entry | undefined, { drafts }: Catalogue): boolean =>
  !drafts && isDraft(entry) && !(from && isDraft(from));

function findFollowed(
  entry: Entry,
  key: 'follows' | 'repeats',
  number: number,
  path: Path,
  catalogue: Catalogue,
  findings: Findings,
): void {
  const other = catalogue.byNumber.get(number);
  const facts = { key, entry: number, actual: String(number) };
  if (number === entry.number) findings.add('unknown-entry', path, facts);
  else if (!isKnown(catalogue, number))
    findings.add('unknown-entry', path, { ...facts, numbers: knownNumbers(catalogue) });
  else if (other && isSurelyAfter(other.date, entry.date))
    findings.add('follows-later', path, { ...facts, date: other.date, ownDate: entry.date });
  else if (other && isLeftOut(other, entry, catalogue))
    findings.add('link-to-draft', path, { of: key, entry: number, status: other.status, actual: String(number) });
}

/** Entries whose lots lead back to themselves, one for each ring, with the path of a lot they use. */
export function lotRings(catalogue: Catalogue): readonly { readonly entry: Entry; readonly path: Path }[] {
  const sources = new Map<number, Set<number>>();
  for (const entry of catalogue.entries) {
    const from = usesOf(entry).map(({ use }) => Number(lotOf(use, catalogue)?.split('/')[0]));
    const others = from.filter((number) => !Number.isNaN(number) && number !== entry.number);
    if (others.length > 0) sources.set(entry.number, new Set([...(sources.get(entry.number) ?? []), ...others]));
  }
  return ringsIn(sources).flatMap((number) => {
    const entry = catalogue.byNumber.get(number);
    if (!entry) return [];
    const use = usesOf(entry).find((one) => one.use.lot !== undefined);
    return [{ entry, path: use ? [...use.path, 'lot'] : ['reagents'] }];
  });
}

const none: ReadonlySet<number> = new Set();

/** Numbers that can be come back to, one for each ring. */
function ringsIn(next: ReadonlyMap<number, ReadonlySet<number>>): number[] {
  const done = new Set<number>();
  const rings = new Set<number>();
  for (const start of next.keys()) if (!done.has(start)) walkFrom(start, next, done, rings);
  return [...rings];
}

/** Walks every way from a number, without recursion: a chain of lots may be as long as the journal. */
function walkFrom(
  start: number,
  next: ReadonlyMap<number, ReadonlySet<number>>,
  done: Set<number>,
  rings: Set<number>,
): void {
  const way = [{ number: start, left: (next.get(start) ?? none).values() }];
  const onWay = new Set([start]);
  for (let here = way.at(-1); here; here = way.at(-1)) {
    const step = here.left.next();
    if (step.done) {
      way.pop();
      onWay.delete(here.number);
      done.add(here.number);
    } else if (onWay.has(step.value)) rings.add(step.value);
    else if (!done.has(step.value)) {
      onWay.add(step.value);
      way.push({ number: step.value, left: (next.get(step.value) ?? none).values() });
    }
  }
}
