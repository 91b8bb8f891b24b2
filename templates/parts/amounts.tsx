// The chemistry of an entry: what was weighed, what limits, what came out, where the metals went, what it cost and
// comes from.
import type { Element, ElementContent, Text } from 'hast';
import type {
  AmountsReckoning,
  Figure,
  IngredientAmounts,
  LotStock,
  MetalAccount,
  SampleAmounts,
} from '../../src/reckoning/contracts.js';
import { lineageDrawing } from '../pictures/lineage.js';
import { longDate } from '../dates.js';
import { formula } from './formula.js';
import { figuresTable, make, row, type Column } from './table.js';
import { treatmentContent } from './treatment.js';

const none = '–';
const namesOf = (samples: readonly string[]): string => {
  const named = samples.filter((sample) => sample !== '');
  if (named.length === 0) return '';
  return named.length === 1 ? `sample ${named[0]!}` : `samples ${named.slice(0, -1).join(', ')} and ${named.at(-1)!}`;
};
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A figure without its unit, which the head of the column names. */
const bare = (figure: Figure | undefined): string => (figure ? figure.text.replace(/\s*(?:g\/g|mmol|g|%)$/, '') : none);

/** Samples for which the same is shown, together, in their order. */
function together<T>(
  samples: readonly SampleAmounts[],
  of: (sample: SampleAmounts) => T,
  keyOf: (shown: T) => string = JSON.stringify,
): { readonly samples: readonly SampleAmounts[]; readonly shown: T }[] {
  if (samples.length === 1) return [{ samples, shown: of(samples[0]!) }];
  const groups = new Map<string, { samples: SampleAmounts[]; shown: T }>();
  for (const sample of samples) {
    const shown = of(sample);
    const key = keyOf(shown);
    const group = groups.get(key);
    if (group) group.samples.push(sample);
    else groups.set(key, { samples: [sample], shown });
  }
  return [...groups.values()];
}

const table = (caption: string, head: readonly (string | Column)[], rows: readonly Element[]): Element =>
  figuresTable({
    caption,
    rows,
    className: 'amounts-table',
    columns: head.map((one) => (typeof one === 'string' ? { head: one } : one)),
  });

/** The equation, set. */
export function reactionLine({ reaction }: AmountsReckoning): Element | null {
  if (!reaction) return null;
  if (!reaction.reactants || !reaction.products) return (<p class="reaction">{reaction.written}</p>) as Element;
  const side = (terms: NonNullable<typeof reaction.reactants>): ElementContent[] =>
    terms.flatMap(({ coefficient, formula: set }, index): ElementContent[] => [
      ...(index > 0 ? [{ type: 'text', value: ' + ' } as const] : []),
      coefficient === ''
        ? formula(set)
        : ((
            <span>
              {`${coefficient} `}
              {formula(set)}
            </span>
          ) as Element),
    ]);
  return (
    <p class="reaction">
      {side(reaction.reactants)}
      <span aria-hidden="true">{' → '}</span>
      <span class="hidden-label"> gives </span>
      {side(reaction.products)}
    </p>
  ) as Element;
}

/** What is left is the pure substance: said where more than that was weighed, a solution say. */
const ofWhat = ({ mass, pure, formula }: IngredientAmounts): string =>
  formula !== undefined && mass && pure && mass.value !== pure.value ? `of ${formula} ` : '';

/** That a lot was taken as if pure; where more of it was obtained than can be pure, what it is at most. */
const purityOfLot = ({ asIfPure, atMostPure }: IngredientAmounts): string =>
  asIfPure ? `, as if pure${atMostPure === undefined ? '' : `, though by its yield at most ${atMostPure}`}` : '';

/** What an ingredient is in the reaction, in words. */
function standing(one: IngredientAmounts): string[] {
  const { role, limiting, tooClose, excess, supplies, lot, left, written, assayed } = one;
  const part = role === 'reactant' && supplies !== undefined ? '' : role;
  const plain = role === 'reactant' && supplies === undefined ? 'reagent' : part;
  let share = '';
  if (limiting) share = 'limits';
  else if (tooClose) share = 'may limit';
  else if (excess) share = written === undefined || /excess/i.test(written) ? 'in excess' : 'taken as enough';
  const words = [
    share,
    plain,
    lot === undefined ? '' : `lot ${lot}${purityOfLot(one)}`,
    assayed === undefined ? '' : `${assayed.text} by assay`,
    left && (!limiting || left.within) && !quiet(one) ? `${bare(left)} g ${ofWhat(one)}left` : '',
  ];
  return words.filter((word) => word !== '');
}

/** Amounts of substance are not shown for what only dissolves, or has no known part in the reaction. */
const quiet = ({ supplies, role }: IngredientAmounts): boolean => supplies === undefined || role === 'solvent';

/** Name, formula, and below them what it is in the reaction. */
function nameCell(one: IngredientAmounts): ElementContent[] {
  const words = (value: string): Text => ({ type: 'text', value });
  const standings = standing(one);
  return [
    words(one.name),
    ...(one.formulaSet ? [words(' '), formula(one.formulaSet)] : []),
    ...(standings.length > 0
      ? [
          make(
            'span',
            standings.flatMap((word, at): ElementContent[] => [
              ...(at > 0 ? [words(', ')] : []),
              word === 'limits' ? make('strong', [words(word)]) : words(word),
            ]),
            'standing',
          ),
        ]
      : []),
  ];
}

const ingredientRow = (one: IngredientAmounts, reacts: boolean): Element =>
  row(
    [
      nameCell(one),
      one.written ?? 'not stated',
      ...(reacts ? [quiet(one) ? none : bare(one.amount), one.equivalents?.text ?? none] : []),
    ],
    one.limiting ? 'limits' : undefined,
  );

/** What tells a line of one sample's weighing from another's, put together once for each. */
function keysOfLines(): (one: IngredientAmounts) => string {
  const known = new Map<IngredientAmounts, string>();
  return (one) => {
    let key = known.get(one);
    if (key === undefined) {
      key = [one.name, one.written, one.amount?.text, one.equivalents?.text, ...standing(one)].join('\n');
      known.set(one, key);
    }
    return key;
  };
}

const takesPart = (one: IngredientAmounts): boolean =>
  one.equivalents !== undefined || (!quiet(one) && one.amount !== undefined);

/** A table of one row is a sentence: `What went in, every sample: Mars yellow FeO(OH), 2.40 g, 27.01 mmol; limits.` */
function weighingSentence(one: IngredientAmounts, caption: string): Element {
  const figures = [
    one.written ?? 'amount not stated',
    quiet(one) || !one.amount ? undefined : one.amount.text,
    one.equivalents && `${one.equivalents.text} ${one.equivalents.text === '1' ? 'equivalent' : 'equivalents'}`,
    ...standing(one),
  ].filter((part) => part !== undefined);
  return (
    <p>
      {`${caption}: ${one.name} `}
      {one.formulaSet ? formula(one.formulaSet) : null}
      {`, ${figures.join(', ')}.`}
    </p>
  ) as Element;
}

function weighingTable(ingredients: readonly IngredientAmounts[], whom: string): Element {
  const caption = whom === '' ? 'What went in' : `What went in, ${whom}`;
  if (ingredients.length === 1) return weighingSentence(ingredients[0]!, caption);
  const reacts = ingredients.some(takesPart);
  return table(
    caption,
    ['Reagent', 'Taken', ...(reacts ? ['mmol', 'Equiv.'] : [])],
    ingredients.map((one) => ingredientRow(one, reacts)),
  );
}

/** Where weighing cannot tell what limits: said once for the samples of which it holds, with the bounds of each. */
function undecidedVerdicts(samples: readonly SampleAmounts[]): readonly string[] {
  const undecided = samples.filter(({ tooCloseToCall }) => tooCloseToCall !== undefined);
  if (undecided.length === 0) return [];
  return together(undecided, ({ tooCloseToCall }) => tooCloseToCall!).map(({ samples: same, shown: words }) => {
    const whom = samples.length > 1 ? `${capital(namesOf(same.map(({ sample }) => sample)))}: ` : '';
    const bounds = together(same, (one) => one.undecided?.words ?? '').map(({ samples: alike, shown: own }, _, all) =>
      all.length > 1 ? `${alike.map(({ sample }) => sample).join(', ')}: ${own}` : own,
    );
    return [`${whom}${words}`, ...bounds].join(' ').trim();
  });
}

/** What went into every sample in one table; what went into some of them only, in one table for each. */
function weighed({ samples }: AmountsReckoning): ElementContent[] {
  const keyOf = keysOfLines();
  const groups = together(
    samples,
    ({ ingredients }) => ingredients,
    (ingredients) => ingredients.map(keyOf).join('\n\n'),
  ).filter(({ shown }) => shown.length > 0);
  const [first] = groups;
  if (!first) return [];
  const short = samples.flatMap(({ short: all = [] }) => all.map(({ words }) => words));
  const verdicts = [...undecidedVerdicts(samples), ...new Set(short)].map(
    (words) => (<p class="verdict">{words}</p>) as Element,
  );
  if (groups.length === 1) return [weighingTable(first.shown, ''), ...verdicts];
  const inAll = new Set(
    first.shown.map(keyOf).filter((key) => groups.every(({ shown }) => shown.some((one) => keyOf(one) === key))),
  );
  const common = first.shown.filter((one) => inAll.has(keyOf(one)));
  return [
    ...(common.length > 0 ? [weighingTable(common, 'every sample')] : []),
    ...groups.flatMap(({ samples: same, shown }) => {
      const own = shown.filter((one) => !inAll.has(keyOf(one)));
      return own.length > 0 ? [weighingTable(own, namesOf(same.map(({ sample }) => sample)))] : [];
    }),
    ...verdicts,
  ];
}

interface ResultColumn {
  /** Name of the value in a write-up, `A.yield`, where a write-up can state it. */
  readonly said?: string;
  readonly name: string;
  readonly unit: string;
  readonly of: (sample: SampleAmounts) => string;
}

const weights: readonly ResultColumn[] = [
  { said: 'theoretical', name: 'Possible', unit: 'g', of: (sample) => bare(sample.theoreticalYield) },
  { said: 'obtained', name: 'Obtained', unit: 'g', of: (sample) => sample.obtainedWords ?? bare(sample.obtained) },
  { said: 'yield', name: 'Yield', unit: '%', of: (sample) => bare(sample.percentYield) },
  { name: 'Over all steps', unit: '%', of: (sample) => bare(sample.cumulativeYield) },
];
const expenses: readonly ResultColumn[] = [
  { name: 'Process mass intensity', unit: 'g/g', of: (sample) => bare(sample.massIntensity) },
  { name: 'Cost', unit: '', of: (sample) => sample.cost?.text ?? none },
  { name: 'Cost of 1 g', unit: '', of: (sample) => sample.costPerGram?.text ?? none },
];

const withUnit = (value: string, unit: string): string => (unit === '' || value === none ? value : `${value} ${unit}`);

/** One figure of all samples as words: `Cost: A 0.27 EUR, B 0.31 EUR`; once where it is the same for all. */
function inWords({ name, unit, of }: ResultColumn, samples: readonly SampleAmounts[]): string {
  const values = samples.map(of);
  // What nobody weighed (`250 mL`, `a jam jar full`) has no unit put behind it.
  const shown = samples.map(({ obtainedWords }, at) =>
    obtainedWords !== undefined && values[at] === obtainedWords ? values[at] : withUnit(values[at]!, unit),
  );
  if (shown.every((one) => one === shown[0])) return `${name} ${shown[0]!}${samples.length > 1 ? ' each' : ''}`;
  return `${name} ${samples.map(({ sample }, at) => `${sample} ${shown[at]!}`).join(', ')}`;
}

const paragraph = (sentences: readonly string[]): Element[] =>
  sentences.length > 0 ? [(<p>{sentences.map((one) => `${one}.`).join(' ')}</p>) as Element] : [];

/**
 * Yields as a table, or as a sentence where there is one sample; what the write-up states already is only pointed to.
 */
function yields(
  samples: readonly SampleAmounts[],
  said: ReadonlySet<string>,
): { readonly table: Element[]; readonly sentences: string[] } {
  const known = weights.filter(({ of }) => samples.some((sample) => of(sample) !== none));
  const told = known.filter(
    (column) =>
      column.said !== undefined &&
      samples.every((sample) => column.of(sample) === none || said.has(`${sample.sample}.${column.said}`)),
  );
  const left = known.filter((column) => !told.includes(column));
  const varying = left.filter(({ of }) => samples.some((sample) => of(sample) !== of(samples[0]!)));
  // A table of one column is a sentence.
  const columns = varying.length > 1 ? varying : [];
  const inSentences = left.filter((column) => !columns.includes(column));
  const pointer = told.map(({ name }) => name.toLowerCase()).join(', ');
  return {
    table:
      columns.length > 0
        ? [
            table(
              'What came out',
              ['Sample', ...columns.map(({ name, unit }) => `${name}, ${unit}`)],
              samples.map((sample) => row([sample.sample, ...columns.map(({ of }) => of(sample))])),
            ),
          ]
        : [],
    sentences: [
      ...inSentences.map((column) => inWords(column, samples)),
      ...(pointer ? [`${capital(pointer)}: in the write-up above`] : []),
    ],
  };
}

const upToStop = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

/** Why a sample has no yield, and what a yield rests on that nobody measured, each once for all that share it. */
function withoutYield(samples: readonly SampleAmounts[]): Element[] {
  const missing = samples.filter(({ noYield }) => noYield !== undefined);
  const enough = [...new Set(samples.flatMap(({ takenAsEnough }) => takenAsEnough ?? []))];
  return [
    ...together(missing, ({ noYield }) => noYield!).flatMap(({ samples: same, shown }) => {
      const whom = namesOf(same.map(({ sample }) => sample));
      return missing.length > 0
        ? [(<p class="verdict">{upToStop(`No yield${whom === '' ? '' : ` of ${whom}`}: ${shown}`)}</p>) as Element]
        : [];
    }),
    ...enough.map(
      (words) => (<p class="small quiet">{`Reckoned as if there had been enough ${words}.`}</p>) as Element,
    ),
  ];
}

function results({ samples }: AmountsReckoning, said: ReadonlySet<string>): ElementContent[] {
  const shown = samples.filter(({ obtained, theoreticalYield, cost }) => obtained ?? theoreticalYield ?? cost);
  if (shown.length === 0) return withoutYield(samples);
  const known = expenses.filter(({ of }) => shown.some((sample) => of(sample) !== none));
  const unpriced = [...new Set(shown.flatMap((sample) => sample.unpriced ?? []))];
  const over = shown.filter(({ overHundred }) => overHundred);
  const told = yields(shown, said);
  return [
    ...told.table,
    ...paragraph([...told.sentences, ...known.map((column) => inWords(column, shown))]),
    ...together(over.length > 0 ? over : [], ({ overHundred }) => overHundred!).map(
      ({ samples: same, shown: words }) =>
        (
          <p class="verdict">
            <strong>{`${capital(namesOf(same.map(({ sample }) => sample)))}: `}</strong>
            {words}
          </p>
        ) as Element,
    ),
    ...withoutYield(samples),
    ...(unpriced.length > 0 && shown.some(({ obtained }) => obtained)
      ? [
          (
            <p class="small quiet">{`No cost is given, since the shelf has no price for ${unpriced.join(', ')}.`}</p>
          ) as Element,
        ]
      : []),
  ];
}

/** How what was taken stands to the composition that is aimed at; once where it is the same for all. */
function targets(samples: readonly SampleAmounts[]): Element[] {
  const aimed = samples.filter(({ target }) => target);
  const groups = together(aimed, ({ target }) => target!.words);
  return aimed.length === 0
    ? []
    : groups.map(({ samples: same, shown }) => {
        const whom = groups.length > 1 ? `${capital(namesOf(same.map(({ sample }) => sample)))}: ` : '';
        return (<p>{`${whom}${shown}`}</p>) as Element;
      });
}

/** What acid and alkali left of each other; once where it is the same for all. */
function liquors(samples: readonly SampleAmounts[]): Element[] {
  const told = samples.filter(({ acidAndAlkali }) => acidAndAlkali);
  if (told.length === 0) return [];
  const groups = together(told, ({ acidAndAlkali }) => acidAndAlkali!.words);
  return groups.map(({ samples: same, shown }) => {
    const whom = groups.length > 1 ? `${capital(namesOf(same.map(({ sample }) => sample)))}: ` : '';
    return (<p>{`${whom}${shown}`}</p>) as Element;
  });
}

/** Repeats of one recipe, with mean and scatter; what a verdict says of all of them is not said twice. */
function repeated({ repeats = [], comparisons = [] }: AmountsReckoning): Element[] {
  if (repeats.length === 0 || (comparisons.length > 0 && comparisons.length <= mostVerdicts)) return [];
  const told = repeats.map(({ samples, measure, mean, deviation, n }) => {
    const what = measure === 'percent yield' ? 'yield' : 'mass';
    return `${capital(namesOf(samples))} repeat one recipe: mean ${what} ${mean}, s ${deviation}, n ${n}.`;
  });
  return [(<p>{told.join(' ')}</p>) as Element];
}

/** So many verdicts are read one after the other; more are folded. */
const mostVerdicts = 3;

/** What weighing cannot tell of samples that it tells apart. */
const madeOnce =
  'Samples told apart by weighing were made once: that tells these batches apart, and not whether what was done ' +
  'differently made the difference; repeats could.';

function verdicts({ comparisons = [] }: AmountsReckoning): Element[] {
  const told = comparisons.map(({ verdict }) => (<p class="verdict">{verdict}</p>) as Element);
  const byWeighing = comparisons.some(({ basis, differs }) => differs && basis === 'weighing');
  const all = byWeighing ? [...told, (<p class="small quiet">{madeOnce}</p>) as Element] : told;
  if (told.length <= mostVerdicts) return all;
  const differing = comparisons.filter(({ differs }) => differs).length;
  const shown = differing === 0 ? 'In none' : `In ${differing}`;
  return [
    (
      <details class="behind">
        <summary>{`${shown} of ${told.length} comparisons a difference in yield is shown`}</summary>
        {all}
      </details>
    ) as Element,
  ];
}

/**
 * What stands behind ±, and what the verdicts on yield leave out: what is so of this entry, and the way to what is so
 * of all.
 */
function doubts({ comparisons = [], samples }: AmountsReckoning, how: string): Element {
  const taken = samples.flatMap(({ ingredients }) => ingredients.filter((one) => one.purityNotStated));
  const names = [...new Set(taken.map(({ name }) => name))];
  const rough = new Set(samples.flatMap((sample) => sample.ingredients.flatMap((one) => one.roughlyStated ?? [])));
  const ofRepeats = comparisons.filter(({ basis }) => basis !== 'weighing');
  return (
    <details class="behind">
      <summary>What ± holds, and what it leaves out</summary>
      {names.length > 0 ? <p>{`${names.join(', ')}: as if pure; purity was not stated.`}</p> : null}
      {[...rough].map((words) => (
        <p>{words}</p>
      ))}
      {[...new Set(ofRepeats.flatMap(({ leavesOut, madeOnce = [] }) => [leavesOut].concat(madeOnce)))].map((words) => (
        <p>{words}</p>
      ))}
      <p>
        <a href={how}>How yields are reckoned</a>
      </p>
    </details>
  ) as Element;
}

/** What went to the waste, of each metal in one sentence. */
function wasteWords(samples: readonly SampleAmounts[]): string[] {
  const byMetal = new Map<string, string[]>();
  for (const { sample, metals: accounts = [] } of samples)
    for (const { name, rest, restShare, wasteLine } of accounts)
      if (wasteLine !== undefined)
        byMetal.set(name, [...(byMetal.get(name) ?? []), `${sample} ${rest.text} (${restShare.text} of what went in)`]);
  return [...byMetal].map(([name, parts]) => `Filtrate, washings and losses hold ${name}: ${parts.join('; ')}.`);
}

/** What is not in the product; less than nothing is so much more than went in. */
const restCell = ({ rest, exceeds }: MetalAccount): string =>
  exceeds ? `none: ${bare(rest).replace(/^[-−]/, '')} too much` : bare(rest);

/** Shares are left out: that of the product is the yield, that of the rest stands in the sentence above. */
const accountRow = ({ sample }: SampleAmounts, metal: MetalAccount): Element =>
  row([`${sample}, ${metal.name}`, bare(metal.in), bare(metal.inProduct), restCell(metal)]);

function metals({ samples }: AmountsReckoning): ElementContent[] {
  const shown = samples.filter((sample) => sample.metals !== undefined);
  if (shown.length === 0) return [];
  const exceeding = shown.flatMap(({ sample, metals: accounts = [] }) =>
    accounts
      .filter(({ exceeds }) => exceeds)
      .map(
        ({ name }) =>
          `${sample}: more ${name} than went in, by this account: the product is not all what its formula says.`,
      ),
  );
  return [
    ...[...wasteWords(shown), ...exceeding].map((words) => (<p>{words}</p>) as Element),
    (
      <details class="behind">
        <summary>Where the metal went</summary>
        {table(
          'Metal account',
          ['', 'In, g', 'Product, g', 'Rest, g'],
          shown.flatMap((sample) => sample.metals!.map((metal) => accountRow(sample, metal))),
        )}
        <p class="small quiet">
          The product is reckoned as the pure compound of its formula; water or salts left in it would leave more metal
          in the rest.
        </p>
      </details>
    ) as Element,
  ];
}

/** `; 1.04 g left.`, or by how much more was taken than there was. */
export function leftWords({ left, overspent }: LotStock): string {
  if (!left) return '.';
  return overspent ? `; ${left.text.replace('−', '')} more than there was.` : `; ${left.text} left.`;
}

function takenBy({ entry, sample, mass }: LotStock['taken'][number]): Element {
  const which = sample === '' ? '' : `/${sample}`;
  return (
    <span>
      {mass ? `${mass.text} to ` : 'an unknown amount to '}
      <a href={`../${entry}/${sample === '' ? '' : `#${sample}`}`}>{`no. ${entry}${which}`}</a>
    </span>
  ) as Element;
}

const sentTo = ({ date, to, mass }: LotStock['sent'][number]): Element =>
  (<span>{`${mass ? mass.text : 'an unknown amount'} sent to ${to} on ${longDate(date)}`}</span>) as Element;

/** Who took of it and what is left, folded; empty where nobody did. */
export function stockContent({ stock: lots = [] }: AmountsReckoning): Element[] {
  if (lots.length === 0) return [];
  return [
    (
      <details class="behind">
        <summary>What is left of it</summary>
        <ul>
          {lots.map((lot) => (
            <li>
              {`Lot ${lot.lot}: ${lot.obtained ? `${lot.obtained.text.replace(/ ± [\d.]+/, '')} obtained; ` : ''}`}
              {[...lot.taken.map(takenBy), ...lot.sent.map(sentTo)].flatMap((portion, index): ElementContent[] => [
                ...(index > 0 ? [{ type: 'text', value: ', ' } as const] : []),
                portion,
              ])}
              {leftWords(lot)}
            </li>
          ))}
        </ul>
      </details>
    ) as Element,
  ];
}

/** What it is reckoned with, as one line. */
function basis({ product, atomEconomy, assumed }: AmountsReckoning): Element | null {
  const labels: Readonly<Record<string, string>> = { O2: 'oxygen of the air', H2O: 'water' };
  const parts: ElementContent[][] = [
    ...(product?.formulaSet && product.molarMass
      ? [[formula(product.formulaSet), { type: 'text', value: ` ${product.molarMass.text}` } as const]]
      : []),
    ...(atomEconomy ? [[{ type: 'text', value: `atom economy ${atomEconomy.text}` } as const]] : []),
    ...(assumed
      ? [
          [
            {
              type: 'text',
              value: `taken to be ample: ${assumed.map((label) => labels[label] ?? label).join(', ')}`,
            } as const,
          ],
        ]
      : []),
  ];
  if (parts.length === 0) return null;
  return (<p>{parts.flatMap((part, at) => (at > 0 ? ['; ', ...part] : part))}.</p>) as Element;
}

/**
 * What an entry's page shows of its amounts; empty where there is nothing to show.
 * @param how address of the page that tells how yields are reckoned
 * @param said reckoned values that the write-up states itself, by name: they are not told again
 */
export function amountsContent(
  amounts: AmountsReckoning,
  how: string,
  said: ReadonlySet<string> = new Set(),
): ElementContent[] {
  const { reaction } = amounts;
  const tables = [...weighed(amounts), ...results(amounts, said)];
  const treated = amounts.samples.some(({ treatment }) => treatment);
  if (!reaction && !treated && tables.length === 0) return [];
  const content: (ElementContent | null)[] = [
    reactionLine(amounts),
    reaction?.fault ? ((<p class="verdict">{`This reaction is not reckoned. ${reaction.fault}`}</p>) as Element) : null,
    basis(amounts),
    ...tables,
    ...targets(amounts.samples),
    ...liquors(amounts.samples),
    ...treatmentContent(amounts.samples, amounts.heldWaterYields),
    ...repeated(amounts),
    ...verdicts(amounts),
    ...metals(amounts),
    tables.length > 0 ? doubts(amounts, how) : null,
  ];
  return content.filter((one) => one !== null);
}

/** From which lots made here it was made; empty where from none. */
export function lineageContent({ samples }: AmountsReckoning): Element[] {
  const groups = together(
    samples.filter((sample) => sample.lineage),
    ({ lineage: node }) => node!.from,
  );
  return groups.map(({ samples: same, shown }) =>
    lineageDrawing({
      title: groups.length > 1 ? capital(namesOf(same.map(({ sample }) => sample))) : 'This',
      root: { ...same[0]!.lineage!, from: shown },
    }),
  );
}
