// The hazards of one entry: the hazard box of what is used and made, and what can be foreseen of mixing and heating,
// with the entry's answers; an unanswered danger is an error.
import { composition } from '../chemistry/index.js';
import { answeredBy, gasesNamed, isAnswer, nameToAnswer } from '../hazards/answers.js';
import { foresee } from '../hazards/foresee.js';
import type { Foreseen, Foresight, Pot, PotHeating, PotIngredient } from '../hazards/foreseen.js';
import { assumedRoom } from '../hazards/gas-reckoning.js';
import { statedStrength } from '../hazards/ingredient-text.js';
import type { Entry } from '../journal/entry.js';
import { placeOf, type Path } from '../journal/place.js';
import { remark, type Remark, type Severity } from '../journal/remarks.js';
import type { Heating, Use } from '../journal/schema.js';
import { metalsTable } from '../tables/compiled/chemistry/metals.js';
import type {
  AmountsReckoning,
  DangersReckoning,
  ForeseenInEntry,
  IngredientAmounts,
  ReckoningContext,
} from './contracts.js';
import { reckonHazardBox } from './hazard-box.js';
import { usesOf } from './ingredients.js';
import { formulaOf, quantityOf } from './remembered.js';

export type { HazardBox, StatementShown } from '../hazards/hazard-box.js';

interface Item {
  readonly id: string;
  readonly use: Use;
  readonly path: Path;
  readonly ingredient: PotIngredient;
  /** g of the pure substance, where known. */
  readonly grams?: number;
}

const base = (text: string | undefined): { readonly value: string; readonly dimension: string } | undefined => {
  const read = text === undefined ? undefined : quantityOf(text);
  return read?.ok ? { value: read.value.base.toFixed(), dimension: read.value.dimension } : undefined;
};

function itemOf(
  { use, path }: { readonly use: Use; readonly path: Path },
  reckoned: IngredientAmounts | undefined,
  context: ReckoningContext,
): Item {
  const shelf = typeof use.reagent === 'string' ? context.shelf.get(use.reagent) : undefined;
  const described = typeof use.reagent === 'object' ? use.reagent : undefined;
  const lotName = use.lot ?? shelf?.lot;
  const lot = lotName === undefined ? undefined : context.lot(lotName);
  const stuff = described ?? shelf;
  const id = use.lot ?? (typeof use.reagent === 'string' ? use.reagent : (use.reagent?.name ?? 'unnamed'));
  const name = stuff?.name ?? lot?.name ?? id;
  const formula = stuff?.formula ?? lot?.formula;
  const strengthText = use.strength ?? stuff?.strength;
  const strength = strengthText === undefined ? undefined : quantityOf(strengthText);
  const stated = strength?.ok ? statedStrength(strength.value) : undefined;
  const density = base(use.density ?? stuff?.density);
  const amount = base(use.amount);
  const mol = reckoned?.amount?.value;
  return {
    id,
    use,
    path,
    ingredient: {
      name,
      ...(formula !== undefined && { formula }),
      ...(stated && { strength: stated }),
      ...(density?.dimension === 'density' && { density: density.value }),
      ...(mol !== undefined
        ? { mol }
        : amount?.dimension === 'mass'
          ? { grams: amount.value }
          : amount?.dimension === 'volume'
            ? { millilitres: amount.value }
            : amount?.dimension === 'amount'
              ? { mol: amount.value }
              : {}),
    },
    ...(reckoned?.pure
      ? { grams: Number(reckoned.pure.value) }
      : amount?.dimension === 'mass'
        ? { grams: Number(amount.value) }
        : {}),
  };
}

/** What stands together: by vessel; what is kept `separately` without a vessel stands alone; washes meet the product. */
function potsOf(items: readonly Item[]): {
  readonly main: readonly Item[];
  readonly apart: readonly (readonly Item[])[];
  readonly washes: readonly Item[];
} {
  const washes = items.filter(({ use }) => use.role === 'wash');
  const vessels = new Map<string, Item[]>();
  items
    .filter(({ use }) => use.role !== 'wash')
    .forEach((item, at) => {
      const vessel = item.use.vessel ?? (item.use.separately ? `apart ${at}` : '');
      vessels.set(vessel, [...(vessels.get(vessel) ?? []), item]);
    });
  const main = vessels.get('') ?? [];
  return { main, apart: [...vessels].filter(([vessel]) => vessel !== '').map(([, group]) => group), washes };
}

const celsius = (text: string): number | undefined => {
  const read = quantityOf(text);
  if (!read.ok || read.value.dimension !== 'temperature') return undefined;
  return (read.value.unit === 'K' ? read.value.base.minus('273.15') : (read.value.high ?? read.value.base)).toNumber();
};

function heatingOf(list: readonly Heating[], items: readonly Item[]): readonly PotHeating[] {
  return list.flatMap(({ of, to }) => {
    const toCelsius = celsius(to);
    if (toCelsius === undefined) return [];
    const item = items.find(({ id, ingredient }) =>
      [id, ingredient.name].some((name) => name.toLowerCase() === of.toLowerCase()),
    );
    // A word that names nothing here (`paste`, `filtrate`) is taken for the whole mixture.
    return [
      {
        of: item ? item.ingredient.name : /^(?:product|pigment|precipitate|solid)$/i.test(of) ? 'product' : 'mixture',
        toCelsius,
      },
    ];
  });
}

const rank: Readonly<Record<Foreseen['severity'], number>> = { danger: 0, warning: 1, note: 2 };

interface Gathered {
  foreseen: Foreseen;
  samples: Set<string>;
  paths: Path[];
}

/** The same rule in several pots and samples becomes one hazard: the most serious, with the largest bound. */
function gather(into: Map<string, Gathered>, found: Foreseen, sample: string, items: readonly Item[]): void {
  const paths = items.filter(({ ingredient }) => found.partners.includes(ingredient.name)).map(({ path }) => path);
  const before = into.get(found.rule);
  if (!before) {
    into.set(found.rule, { foreseen: found, samples: new Set(sample === '' ? [] : [sample]), paths });
    return;
  }
  if (sample !== '') before.samples.add(sample);
  before.paths.push(...paths);
  const partners = [...new Set([...before.foreseen.partners, ...found.partners])].sort();
  const worse =
    rank[found.severity] < rank[before.foreseen.severity] ||
    (found.severity === before.foreseen.severity &&
      Number(found.worstCase?.mol ?? 0) > Number(before.foreseen.worstCase?.mol ?? 0));
  before.foreseen = { ...(worse ? found : before.foreseen), partners };
}

/** Hot product that was precipitated in water: its salts matter only if they were not washed out. */
function leftovers(
  wet: boolean,
  heats: readonly PotHeating[],
  pot: Pot,
  already: readonly Foreseen[],
): readonly Foreseen[] {
  const hottest = Math.max(0, ...heats.filter(({ of }) => of === 'product').map(({ toCelsius }) => toCelsius));
  if (!wet || hottest < 100) return [];
  const known = new Set(already.map(({ rule }) => rule));
  const whole = foresee({ ...pot, heating: [{ of: 'mixture', toCelsius: hottest }] });
  return whole.foreseen
    .filter(
      ({ rule, severity, condition }) => severity === 'danger' && condition.includes('heated to') && !known.has(rule),
    )
    .map((one) => ({
      ...one,
      severity: 'note' as const,
      condition: `only if it was not washed out before heating; ${one.condition}`,
    }));
}

const watery = (item: Item): boolean =>
  item.ingredient.formula === 'H2O' ||
  /^water\b/i.test(item.ingredient.name) ||
  item.use.role === 'solvent' ||
  item.ingredient.strength !== undefined;

/** Reckons what can be foreseen in each sample, gathered over all of them. */
function foreseeEntry(
  entry: Entry,
  context: ReckoningContext,
  amounts: AmountsReckoning,
): {
  readonly gathered: readonly Gathered[];
  readonly unknown: readonly { readonly name: string; readonly path: Path }[];
  readonly cautions: readonly string[];
  readonly items: readonly Item[];
} {
  const gathered = new Map<string, Gathered>();
  const unknown = new Map<string, Path>();
  const cautions = new Set<string>();
  const all: Item[] = [];
  const wasted = new Map<string, string>();
  const volume = base(context.settings.workspace?.volume);
  const room = {
    ...(volume?.dimension === 'volume' && { roomCubicMetres: String(Number(volume.value) / 1e6) }),
    ...(context.settings.workspace?.extraction !== undefined && { extraction: context.settings.workspace.extraction }),
  };
  const indices = entry.samples.length > 0 ? entry.samples.map((_, index): number | undefined => index) : [undefined];
  for (const [turn, index] of indices.entries()) {
    const uses = usesOf(entry, index);
    const reckoned = amounts.samples[turn]?.ingredients ?? [];
    const items = uses.map((placed, at) =>
      itemOf(placed, reckoned.length === uses.length ? reckoned[at] : undefined, context),
    );
    all.push(...items);
    const sample = index === undefined ? '' : entry.samples[index]!.sample;
    const heats = heatingOf(
      [...entry.heating, ...(index === undefined ? [] : (entry.samples[index]!.heating ?? []))],
      items,
    );
    const { main, apart, washes } = potsOf(items);
    const product: readonly PotIngredient[] = entry.pigment
      ? [
          {
            name: entry.pigment.name,
            ...(entry.pigment.formula !== undefined && { formula: entry.pigment.formula }),
            made: 'product',
          },
        ]
      : [];
    const knownProduct = product.filter(({ formula }) => formula !== undefined);
    const wet = main.some(watery);
    const precipitated = wet && knownProduct.length > 0 && entry.reaction !== undefined;
    // Fired dry, or of something unknown: the heat of the product is the heat of everything in the pot.
    const heating = precipitated ? heats : heats.map((one) => (one.of === 'product' ? { ...one, of: 'mixture' } : one));
    const hear = (foresight: Foresight, among: readonly Item[]): void => {
      for (const found of foresight.foreseen) gather(gathered, found, sample, among);
      for (const name of foresight.unknown)
        if (!product.some((one) => one.name === name))
          unknown.set(name, among.find(({ ingredient }) => ingredient.name === name)?.path ?? ['reagents']);
      for (const caution of foresight.cautions) cautions.add(caution);
    };
    const mainPot: Pot = {
      ...room,
      ingredients: [...main.map(({ ingredient }) => ingredient), ...knownProduct],
      heating,
      ...(entry.reaction !== undefined && { reaction: entry.reaction }),
    };
    if (main.length > 0 || knownProduct.length > 0) {
      const foresight = foresee(mainPot);
      hear(foresight, main);
      for (const found of leftovers(precipitated, heats, mainPot, foresight.foreseen))
        gather(gathered, found, sample, main);
    }
    for (const group of apart)
      hear(
        foresee({
          ...room,
          ingredients: group.map(({ ingredient }) => ingredient),
          heating: heats.filter(({ of }) => of !== 'product' && of !== 'mixture'),
        }),
        group,
      );
    if (washes.length > 0)
      hear(foresee({ ...room, ingredients: [...washes.map(({ ingredient }) => ingredient), ...knownProduct] }), washes);
    if (washes.length > 0 || apart.length > 0) {
      for (const { rule, severity, title, partners } of foresee({
        ingredients: items.map(({ ingredient }) => ingredient),
      }).foreseen) {
        if (severity === 'danger')
          wasted.set(rule, `In one waste bottle ${partners.join(', ')} would meet: ${title}. Keep their waste apart.`);
      }
    }
  }
  for (const [rule, words] of wasted) if (!gathered.has(rule)) cautions.add(words);
  return {
    gathered: [...gathered.values()],
    unknown: [...unknown].map(([name, path]) => ({ name, path })),
    cautions: [...cautions].sort(),
    items: all,
  };
}

let hazardousMetals: ReadonlySet<string> | undefined;
function hazardousMetalsOf(items: readonly Item[]): readonly string[] {
  hazardousMetals ??= new Set(
    metalsTable()
      .filter((row) => row.hazardous)
      .map((row) => row.symbol),
  );
  const found = new Set<string>();
  for (const { ingredient } of items) {
    const formula = ingredient.formula === undefined ? undefined : formulaOf(ingredient.formula);
    if (formula?.ok)
      for (const symbol of composition(formula.value).keys()) if (hazardousMetals.has(symbol)) found.add(symbol);
  }
  return [...found].sort();
}

/** A partner of a danger that one sample uses more than ten times as much of as another: its largest use. */
function tenfold(items: readonly Item[], partners: ReadonlySet<string>): Item | undefined {
  for (const name of partners) {
    const uses = items
      .filter(({ ingredient, grams }) => ingredient.name === name && grams !== undefined && grams > 0)
      .sort((a, b) => a.grams! - b.grams!);
    const largest = uses.at(-1);
    if (largest && largest.grams! > 10 * uses[0]!.grams!) return largest;
  }
  return undefined;
}

const quoted = (text: string): string => (/[:#{}[\]&*!|>'"%@`]|^[-?\s]/.test(text) ? JSON.stringify(text) : text);

/** The line to add, ready to paste; with its key where the entry has none yet. */
export function lineToAdd(one: Foreseen, { keyed }: { readonly keyed: boolean }): string {
  return `${keyed ? '' : 'precautions:\n'}  - against: ${quoted(nameToAnswer(one))}\n    do: …`;
}

/**
 * What of an entry is dangerous: the box of its substances and what can be foreseen of mixing and heating, each with the
 * precautions that answer it. Remarks: an unanswered danger (error), names not recognised, answers that name nothing,
 * a first run that could be smaller, a tenfold step between samples, missing `if-it-goes-wrong` and `waste`.
 */
export function reckonDangers(
  entry: Entry,
  context: ReckoningContext,
  amounts: AmountsReckoning,
): { dangers: DangersReckoning; remarks: Remark[] } {
  const { box, remarks: ofBox } = reckonHazardBox(entry, context);
  const remarks: Remark[] = [...ofBox];
  const say = (severity: Severity, rule: string, path: Path, found: string, cure: string, actual?: string): void => {
    remarks.push(
      remark({ place: placeOf(entry, path), severity, rule, found, cure, ...(actual !== undefined && { actual }) }),
    );
  };
  const { gathered: inPots, unknown, cautions, items } = foreseeEntry(entry, context, amounts);
  const gathered = [...inPots].sort(
    (a, b) => rank[a.foreseen.severity] - rank[b.foreseen.severity] || (a.foreseen.rule < b.foreseen.rule ? -1 : 1),
  );
  const list = gathered.map(({ foreseen }) => foreseen);
  const answers = entry.precautions.map((precaution) => ({ precaution, names: answeredBy(precaution.against, list) }));
  const foreseen: ForeseenInEntry[] = gathered.map(({ foreseen: one, samples }, at) => ({
    ...one,
    samples: [...samples],
    answered: answers
      .filter(({ precaution, names }) => names.includes(at) && isAnswer(precaution.do))
      .map(({ precaution }) => ({ against: precaution.against, do: precaution.do })),
  }));
  const open = foreseen.filter(({ severity, answered }) => severity === 'danger' && answered.length === 0);
  const pathOf = (one: Foreseen): Path =>
    gathered.find(({ foreseen: same }) => same.rule === one.rule)!.paths[0] ??
    (entry.heating.length > 0 ? ['heating'] : ['reagents']);
  const unanswered = foreseen.filter(({ severity, answered }) => severity !== 'note' && answered.length === 0);
  // The first that a reader comes to brings the key `precautions:`, so that all the lines can be pasted one below the other.
  const lineOf = (one: Foreseen): number => placeOf(entry, pathOf(one)).line ?? 0;
  const bringsKey =
    entry.precautions.length > 0
      ? undefined
      : (open.length > 0 ? open : unanswered).reduce<Foreseen | undefined>(
          (first, one) => (first === undefined || lineOf(one) < lineOf(first) ? one : first),
          undefined,
        );
  const toPaste = (one: Foreseen): string =>
    `${bringsKey?.rule === one.rule ? '' : ' under precautions'}:\n${lineToAdd(one, { keyed: bringsKey?.rule !== one.rule })}`;
  for (const one of open) {
    const path = pathOf(one);
    const worst = one.worstCase ? ` ${one.worstCase.words}` : '';
    say(
      entry.status === 'withdrawn' ? 'note' : 'error',
      'danger-unanswered',
      path,
      `Foreseen and not answered: ${one.title}: ${one.consequence}${one.gas ? ` (${one.gas})` : ''}, from ${one.partners.join(', ')}.${worst}`,
      `Write what is done about it (${one.precaution.replace(/\.$/, '')}). Add${toPaste(one)}`,
    );
  }
  answers.forEach(({ precaution, names }, at) => {
    if (!isAnswer(precaution.do))
      say(
        'warning',
        'precaution-says-nothing',
        ['precautions', at, 'do'],
        `The precaution against ${precaution.against} does not say what is done.`,
        'Write what is done about it.',
        precaution.do,
      );
    // Dust, splashes and hot crucibles are no matter of mixing; an answer is looked for where one is missing, or where a gas is named.
    else if (
      names.length === 0 &&
      list.length > 0 &&
      (foreseen.some(({ severity, answered }) => severity !== 'note' && answered.length === 0) ||
        gasesNamed(precaution.against).size > 0)
    ) {
      const meant = (open.length > 0 ? open : list).slice(0, 4).map((one) => `'${nameToAnswer(one)}'`);
      say(
        open.length > 0 ? 'warning' : 'note',
        'precaution-answers-nothing',
        ['precautions', at, 'against'],
        `'${precaution.against}' names none of the hazards foreseen here.`,
        `It is printed all the same. If it is meant as an answer, name the hazard: ${[...new Set(meant)].join(', ')}.`,
        precaution.against,
      );
    }
  });
  for (const one of foreseen) {
    if (one.severity === 'warning' && one.answered.length === 0) {
      say(
        'note',
        'warning-unanswered',
        pathOf(one),
        `Foreseen: ${one.title}: ${one.consequence}${one.gas ? ` (${one.gas})` : ''}, from ${one.partners.join(', ')}.`,
        `${one.precaution} To answer it in the entry, add${toPaste(one)}`,
      );
    }
  }
  for (const { name, path } of unknown) {
    say(
      'warning',
      'not-judged',
      path,
      `What ${name} is was not recognised: what it does when mixed or heated cannot be foreseen, and the entry cannot be called safe.`,
      'Give its formula on the shelf or where it is used.',
      name,
    );
  }
  const dangerous = foreseen.some(({ severity }) => severity === 'danger');
  const undone = entry.status === 'withdrawn';
  if (dangerous && !undone && entry.repeats.length === 0 && entry.follows.length === 0) {
    const most = base(context.settings['small-amount'] ?? '1 g');
    const limit = most?.dimension === 'mass' ? Number(most.value) : 1;
    const partners = new Set(foreseen.filter(({ severity }) => severity === 'danger').flatMap((one) => one.partners));
    const largest = items
      .filter(
        ({ ingredient, grams, use }) =>
          partners.has(ingredient.name) && grams !== undefined && grams > limit && use.role !== 'solvent',
      )
      .sort((a, b) => b.grams! - a.grams!)[0];
    if (largest)
      say(
        'note',
        'start-smaller',
        largest.path,
        `A first run with a foreseen danger uses ${Number(largest.grams!.toPrecision(2))} g of ${largest.ingredient.name}; the journal's small amount is ${context.settings['small-amount'] ?? '1 g'}.`,
        'Start smaller, or name the entry that it repeats or follows. (Common practice, no source.)',
      );
  }
  const jump = dangerous
    ? tenfold(items, new Set(foreseen.filter(({ severity }) => severity === 'danger').flatMap((one) => one.partners)))
    : undefined;
  if (jump)
    say(
      'note',
      'more-than-tenfold',
      jump.path,
      `One sample uses more than ten times the ${jump.ingredient.name} of another, and a danger is foreseen: heat, froth and gas grow faster than amounts.`,
      'Go up in smaller steps. (Common practice, no source.)',
    );
  const metals = hazardousMetalsOf(items);
  if (dangerous && !undone && !entry['if-it-goes-wrong'])
    say(
      'warning',
      'no-plan-for-trouble',
      ['title'],
      'A danger is foreseen, and nothing says what to do if it goes wrong.',
      'Add `if-it-goes-wrong:` with what to do, in the order in which it is done.',
    );
  if ((dangerous || metals.length > 0) && items.length > 0 && !entry.waste)
    say(
      'warning',
      'no-waste',
      ['title'],
      dangerous
        ? 'A danger is foreseen, and nothing says where the waste goes.'
        : `Hazardous elements are used (${metals.join(', ')}), and nothing says where the waste goes.`,
      'Add `waste:` with what is kept apart, how it is made harmless and where it is taken.',
    );
  const stated = context.settings.workspace?.volume;
  const volume = base(stated);
  return {
    dangers: {
      box,
      foreseen,
      notJudged: unknown.map(({ name }) => name),
      cautions,
      room: {
        cubicMetres: volume?.dimension === 'volume' ? String(Number(volume.value) / 1e6) : assumedRoom,
        stated: volume?.dimension === 'volume',
        extraction: context.settings.workspace?.extraction === true,
      },
    },
    remarks,
  };
}
