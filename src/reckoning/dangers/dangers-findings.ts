// What the proof has to know of an entry's dangers: looked for once all is foreseen; nothing is worded here.
import { gasesNamed, namesOutright, nameToAnswer } from '../../hazards/foresee/answers.js';
import type { Foreseen } from '../../hazards/foresee/contracts.js';
import { whyNoAnswer } from '../../hazards/index.js';
import type { Entry } from '../../journal/entry.js';
import { listWritten } from '../../journal/list-written.js';
import { placeOf, type Path } from '../../journal/place.js';
import type { Findings } from '../../remarks/findings.js';
import { once } from '../../once.js';
import { dryComposition, isPlural, meantBy, readHeat } from '../../reagents/index.js';
import { metalsTable } from '../../tables/compiled/chemistry/metals.js';
import type { BroughtIn } from '../told/brought-in.js';
import type { ForeseenInEntry, ReckoningContext } from '../contracts.js';
import type { SpokenOf } from './beside-the-work.js';
import type { ForeseenSomewhere } from './gathering.js';
import { worseByWater } from './answer-with-water.js';
import { goesAwayAsItIs, goesOntoGround, liquorGoingAway } from '../told/told-waste.js';
import { portionHeats } from './portion-heat.js';
import { inBaseUnit, type VesselItem } from '../vessels.js';

/** What was foreseen, and how it is answered. */
export interface ForeseenAndAnswered {
  readonly entry: Entry;
  readonly context: ReckoningContext;
  /** Hazards with their places, in the order of `foreseen`. */
  readonly hazards: readonly ForeseenSomewhere[];
  readonly foreseen: readonly ForeseenInEntry[];
  /** For each precaution, the positions in `foreseen` of the hazards that it names. */
  readonly named: readonly (readonly number[])[];
  readonly unknown: readonly { readonly name: string; readonly path: Path }[];
  readonly items: readonly VesselItem[];
  readonly brought: readonly BroughtIn[];
  readonly spokenOf: readonly SpokenOf[];
}

/** Looks through the dangers of an entry. */
export function findDangers(all: ForeseenAndAnswered, findings: Findings): void {
  findUnanswered(all, findings);
  findInPrecautions(all, findings);
  for (const { name, path } of all.unknown) {
    const meant = meantBy(name);
    const lot = all.items.find(({ reagent }) => reagent.name === name)?.use.lot;
    findings.add('not-judged', path, { name, actual: name, lot, ...(meant.length > 0 && { meant }) });
  }
  findBroughtIn(all, findings);
  findInHeatings(all.entry, findings);
  findInScale(all, findings);
  findWhatIsMissing(all, findings);
  for (const { path, words, titles } of worseByWater(all.entry, all.items))
    findings.add('answer-makes-worse', path, { words, titles: [...new Set(titles)], actual: words });
}

const isOpen = ({ severity, answered }: ForeseenInEntry): boolean => severity !== 'note' && answered.length === 0;
const isOpenDanger = (one: ForeseenInEntry): boolean => one.severity === 'danger' && isOpen(one);

/** What steps take that no reagent of the entry is; what they name in words, where something comes of it. */
function findBroughtIn({ brought, foreseen, spokenOf }: ForeseenAndAnswered, findings: Findings): void {
  const partners = new Set(foreseen.filter(({ severity }) => severity !== 'note').flatMap((one) => one.partners));
  for (const { how, item } of brought)
    if (how === 'with' || (how === 'words' && partners.has(item.reagent.name)))
      findings.add('step-brings-in', item.path, {
        ...(item.path.length > 0 && { step: (item.step ?? 0) + 1 }),
        name: item.id,
        inWords: how === 'words',
        actual: item.id,
      });
  findSpokenOf(spokenOf, findings);
}

/** What is only spoken of; at one place it is one remark, as of two of a rule the proof tells the first. */
function findSpokenOf(spokenOf: readonly SpokenOf[], findings: Findings): void {
  for (const where of new Set(spokenOf.map((one) => one.where))) {
    const all = spokenOf.filter((one) => one.where === where);
    const name = all.map((one) => one.name).join(' and ');
    const titles = [...new Set(all.flatMap((one) => one.titles))];
    const several = all.length > 1 || isPlural(name);
    findings.add('named-not-judged', all[0]!.path, { name, several, where, titles, actual: name });
  }
}

/** Where a portion of the product is heated, and hottest. */
function portionPath({ samples }: Entry): Path | undefined {
  const heats = samples.flatMap((sample, index) =>
    portionHeats(sample).map(({ toCelsius, path }) => ({ toCelsius, path: ['samples', index, ...path] as Path })),
  );
  return heats.sort((a, b) => b.toCelsius - a.toCelsius)[0]?.path;
}

/** Dangers and warnings that no precaution answers, each with the lines that would. */
function findUnanswered({ entry, hazards, foreseen, brought }: ForeseenAndAnswered, findings: Findings): void {
  const inWords = brought.filter(({ how }) => how === 'words' || how === 'waste' || how === 'wash' || how === 'aside');
  const namesInWords = new Set(inWords.map(({ item }) => item.reagent.name));
  const pathOf = (one: Foreseen): Path => {
    const { paths } = hazards.find(({ foreseen: same }) => same.rule === one.rule)!;
    return paths[0] ?? (entry.heating.length > 0 ? ['heating'] : (portionPath(entry) ?? ['reagents']));
  };
  const dangers = foreseen.filter(isOpenDanger);
  const open = foreseen.filter(isOpen);
  const listed = listWritten(entry.matter, 'precautions');
  const keyed = listed.how === 'not' ? firstInFile(dangers.length > 0 ? dangers : open, entry, pathOf) : undefined;
  for (const one of open) {
    const { title, consequence, gas, partners, precaution, worstCase } = one;
    const against = nameToAnswer(one);
    const bringsKey = keyed?.rule === one.rule;
    const facts = { title, consequence, gas, partners, precaution, against, bringsKey, listed };
    if (one.severity === 'danger')
      findings.add('danger-unanswered', pathOf(one), {
        ...facts,
        ...(partners.some((name) => namesInWords.has(name)) && {
          onlyInWords: partners.filter((name) => namesInWords.has(name)),
        }),
        worstCase: worstCase?.words,
        withdrawn: entry.status === 'withdrawn',
      });
    else findings.add('warning-unanswered', pathOf(one), facts);
  }
}

/** The one that a reader of the file comes to first. */
function firstInFile(
  list: readonly ForeseenInEntry[],
  entry: Entry,
  pathOf: (one: Foreseen) => Path,
): ForeseenInEntry | undefined {
  const lines = list.map((one) => placeOf(entry, pathOf(one)).line);
  return list[lines.indexOf(Math.min(...lines))];
}

function findInPrecautions({ entry, foreseen, named }: ForeseenAndAnswered, findings: Findings): void {
  const open = foreseen.filter(isOpenDanger);
  const meant = (open.length > 0 ? open : foreseen).slice(0, 4).map(nameToAnswer);
  // Dust, splashes and hot crucibles are no matter of mixing; an answer is looked for where one is missing, or where a
  // gas is named.
  const isMissed = (against: string): boolean =>
    foreseen.length > 0 && (foreseen.some(isOpen) || gasesNamed(against).size > 0);
  entry.precautions.forEach(({ against, do: done }, at) => {
    const meets = named[at]!.map((place) => foreseen[place]!);
    const why = whyNoAnswer(done, against);
    if (why) {
      const leftOpen = meets.filter(isOpenDanger).map(({ title }) => title);
      const withdrawn = entry.status === 'withdrawn';
      findings.add('precaution-says-nothing', ['precautions', at, 'do'], {
        against,
        words: done.trim().replace(/\.$/, ''),
        why,
        leftOpen: withdrawn ? [] : leftOpen,
        actual: done,
      });
    } else if (meets.length > 0) findWhatIsMeant(against, meets, ['precautions', at, 'against'], findings);
    else if (isMissed(against))
      findings.add('precaution-answers-nothing', ['precautions', at, 'against'], {
        against,
        meant: [...new Set(meant)],
        dangerOpen: open.length > 0,
        actual: against,
      });
  });
}

/** Which hazards a maker's own words, `brown fumes` or `fire`, were taken to mean. */
function findWhatIsMeant(against: string, meets: readonly Foreseen[], path: Path, findings: Findings): void {
  const guessed = meets.filter((one) => !namesOutright(against, one)).map(({ title }) => title);
  if (guessed.length > 0)
    findings.add('answer-taken-for', path, { against, titles: [...new Set(guessed)], actual: against });
}

/** Every heating of an entry with its place. */
export function heatingsOf({ heating, samples }: Entry): readonly { readonly to: string; readonly path: Path }[] {
  return [
    ...heating.map(({ to }, at) => ({ to, path: ['heating', at, 'to'] as Path })),
    ...samples.flatMap((sample, index) => [
      ...(sample.heating ?? []).map(({ to }, at) => ({ to, path: ['samples', index, 'heating', at, 'to'] as Path })),
      ...portionHeats(sample).flatMap(({ to, path }) =>
        to === undefined ? [] : [{ to, path: ['samples', index, ...path] as Path }],
      ),
    ]),
  ];
}

/** Heats that are told in words: what they are taken for, each word once. */
function findInHeatings(entry: Entry, findings: Findings): void {
  const seen = new Set<string>();
  for (const { to, path } of heatingsOf(entry)) {
    if (seen.has(to)) continue;
    seen.add(to);
    const { known, word = to, low, high, source = '' } = readHeat(to);
    const ends = { low: low.toFixed(0), high: high.toFixed(0) };
    if (known === 'word') findings.add('heat-in-words', path, { to, word, ...ends, source, actual: to });
    if (known === 'not-known') findings.add('heat-not-known', path, { to, high: ends.high, actual: to });
  }
}

const dangersIn = (foreseen: readonly ForeseenInEntry[]): readonly ForeseenInEntry[] =>
  foreseen.filter(({ severity }) => severity === 'danger');

/** Whether a dangerous preparation could begin smaller, or go up in smaller steps. */
function findInScale({ entry, context, foreseen, items }: ForeseenAndAnswered, findings: Findings): void {
  const partners = new Set(dangersIn(foreseen).flatMap((one) => one.partners));
  const first = entry.status !== 'withdrawn' && entry.repeats.length === 0 && entry.follows.length === 0;
  const smallAmount = context.settings['small-amount'] ?? '1 g';
  const largest = first ? largestUse(items, partners, smallAmount) : undefined;
  if (largest)
    findings.add('start-smaller', largest.path, {
      grams: String(Number(largest.grams!.toPrecision(2))),
      name: largest.reagent.name,
      smallAmount,
    });
  const jump = tenfold(items, partners);
  if (jump) findings.add('more-than-tenfold', jump.path, { name: jump.reagent.name });
}

/** The largest use of a partner above a small amount. */
function largestUse(
  items: readonly VesselItem[],
  partners: ReadonlySet<string>,
  smallAmount: string,
): VesselItem | undefined {
  const most = inBaseUnit(smallAmount);
  const limit = most?.dimension === 'mass' ? Number(most.value) : 1;
  return items
    .filter(({ reagent, grams = 0, use }) => partners.has(reagent.name) && grams > limit && use.role !== 'solvent')
    .sort((a, b) => b.grams! - a.grams!)[0];
}

/** A partner of a danger that one sample uses more than ten times as much of as another: its largest use. */
function tenfold(items: readonly VesselItem[], partners: ReadonlySet<string>): VesselItem | undefined {
  for (const name of partners) {
    const uses = items
      .filter(({ reagent, grams = 0 }) => reagent.name === name && grams > 0)
      .sort((a, b) => a.grams! - b.grams!);
    const largest = uses.at(-1);
    if (largest && largest.grams! > 10 * uses[0]!.grams!) return largest;
  }
  return undefined;
}

function findWhatIsMissing({ entry, foreseen, items }: ForeseenAndAnswered, findings: Findings): void {
  const danger = dangersIn(foreseen).length > 0;
  if (danger && entry.status !== 'withdrawn' && !entry['if-it-goes-wrong'])
    findings.add('no-plan-for-trouble', ['title'], {});
  const elements = hazardousElements(items);
  if ((danger || elements.length > 0) && items.length > 0 && !entry.waste)
    findings.add('no-waste', ['title'], { elements, danger });
  if (elements.length > 0) findPouredAway(entry, elements, findings);
}

/** What is said to go down the drain or onto the ground, in the waste and in the steps. */
function findPouredAway(entry: Entry, elements: readonly string[], findings: Findings): void {
  const poisons = metalsTable().flatMap((row) => (row.builds_up && elements.includes(row.symbol) ? [row.symbol] : []));
  const { waste = '' } = entry;
  const onGround = poisons.length > 0 && waste !== '' && goesOntoGround(waste);
  if (onGround) findings.add('poison-onto-ground', ['waste'], { elements: poisons, actual: waste });
  else if (waste !== '' && goesAwayAsItIs(waste))
    findings.add('waste-poured-away', ['waste'], { elements, actual: waste });
  if (poisons.length === 0) return;
  const liquors = liquorGoingAway(entry);
  const [ground, drain] = [liquors.find(goesOntoGround), liquors.find((words) => !goesOntoGround(words))];
  const path = entry.steps ? ['steps'] : ['title'];
  if (ground !== undefined && !onGround)
    findings.add('poison-onto-ground', path, { elements: poisons, actual: ground });
  if (drain !== undefined) findings.add('liquor-poured-away', path, { elements: poisons, actual: drain });
}

/** So little of it dissolves that it poisons nothing: blanc fixe is drunk before an X-ray. */
const harmlessSalt = once(() => dryComposition('BaSO4'));

let hazardous: ReadonlySet<string> | undefined;

/** Symbols of the hazardous elements in what is used. */
function hazardousElements(items: readonly VesselItem[]): readonly string[] {
  hazardous ??= new Set(
    metalsTable()
      .filter((row) => row.hazardous)
      .map((row) => row.symbol),
  );
  const found = new Set<string>();
  for (const { reagent } of items)
    if (reagent.substance?.constituents.dry !== harmlessSalt())
      for (const symbol of reagent.substance?.constituents.atoms.keys() ?? [])
        if (hazardous.has(symbol)) found.add(symbol);
  return [...found].sort();
}
