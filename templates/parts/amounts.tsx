// The chemistry of an entry: what was weighed, what limits, what came out, where the metals went, what it cost and comes from.
import type { Element, ElementContent, Text } from 'hast';
import type {
  AmountsReckoning,
  Figure,
  IngredientAmounts,
  MetalAccount,
  SampleAmounts,
} from '../../src/reckoning/contracts.js';
import { lineageDrawing, type LineageStep } from '../pictures/lineage.js';
import { formula } from './formula.js';
import { figuresTable, make, row, type Column } from './table.js';

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

function reactionLine({ reaction }: AmountsReckoning): Element | null {
  if (!reaction) return null;
  if (!reaction.reactants || !reaction.products) return (<p class="reaction">{reaction.written}</p>) as Element;
  const side = (terms: NonNullable<typeof reaction.reactants>): ElementContent[] =>
    terms.flatMap(({ coefficient, formula: set }, index): ElementContent[] => [
      ...(index > 0 ? [{ type: 'text', value: ' + ' } as const] : []),
      (
        <span class="nowrap">
          {coefficient === '' ? '' : `${coefficient} `}
          {formula(set)}
        </span>
      ) as Element,
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

/** What an ingredient is in the reaction, in words. */
function standing({ role, limiting, tooClose, excess, supplies, lot }: IngredientAmounts): string {
  const words = [
    limiting ? 'limits' : tooClose ? 'may limit' : excess ? 'in excess' : '',
    role === 'reactant' ? (supplies === undefined ? 'reagent' : '') : role,
    lot === undefined ? '' : `lot ${lot}`,
  ];
  return words.filter((word) => word !== '').join(', ') || 'reactant';
}

/** Amounts of substance are not shown for what only dissolves, or has no known part in the reaction. */
const quiet = ({ supplies, role }: IngredientAmounts): boolean => supplies === undefined || role === 'solvent';

function ingredientRow(one: IngredientAmounts, reacts: boolean, withLeft: boolean): Element {
  const quietly = quiet(one);
  const words = (value: string): Text => ({ type: 'text', value });
  return row(
    [
      one.formulaSet ? [words(`${one.name} `), formula(one.formulaSet)] : one.name,
      one.written ?? 'not stated',
      ...(reacts ? [quietly ? none : bare(one.amount), one.equivalents?.text ?? none] : []),
      ...(withLeft ? [quietly ? none : bare(one.left)] : []),
      one.limiting ? [make('strong', [words(standing(one))])] : standing(one),
    ],
    one.limiting ? 'limits' : undefined,
  );
}

function weighed({ samples }: AmountsReckoning): ElementContent[] {
  const groups = together(
    samples,
    ({ ingredients, tooCloseToCall }) => ({ ingredients, tooCloseToCall }),
    ({ ingredients, tooCloseToCall }) =>
      [
        ...ingredients.map((one) =>
          [one.name, one.written, one.amount?.text, one.equivalents?.text, one.left?.text, standing(one)].join(),
        ),
        tooCloseToCall,
      ].join('\n'),
  );
  return groups
    .filter(({ shown }) => shown.ingredients.length > 0)
    .flatMap(({ samples: same, shown }) => {
      const withLeft = shown.ingredients.some(({ left }) => left);
      const reacts = shown.ingredients.some(
        (one) => one.equivalents !== undefined || (!quiet(one) && one.amount !== undefined),
      );
      const whom = groups.length > 1 ? namesOf(same.map(({ sample }) => sample)) : '';
      return [
        table(
          whom === '' ? 'What went in' : `What went in, ${whom}`,
          [
            'Reagent',
            'Taken',
            ...(reacts ? ['mmol', 'Equivalents'] : []),
            ...(withLeft ? ['Left, g'] : []),
            { head: 'As', words: true },
          ],
          shown.ingredients.map((one) => ingredientRow(one, reacts, withLeft)),
        ),
        ...(shown.tooCloseToCall ? [(<p class="verdict">{shown.tooCloseToCall}</p>) as Element] : []),
      ];
    });
}

function results({ samples }: AmountsReckoning): ElementContent[] {
  const shown = samples.filter(({ obtained, theoreticalYield, cost }) => obtained ?? theoreticalYield ?? cost);
  if (shown.length === 0) return [];
  const all: readonly (readonly [string, (sample: SampleAmounts) => string])[] = [
    ['Possible, g', (sample) => bare(sample.theoreticalYield)],
    ['Obtained, g', (sample) => bare(sample.obtained)],
    ['Yield, %', (sample) => bare(sample.percentYield)],
    ['Yield over all steps, %', (sample) => bare(sample.cumulativeYield)],
    ['Process mass intensity, g/g', (sample) => bare(sample.massIntensity)],
    ['Cost', (sample) => sample.cost?.text ?? none],
    ['Cost of 1 g', (sample) => sample.costPerGram?.text ?? none],
  ];
  const known = all.filter(([, of]) => shown.some((sample) => of(sample) !== none));
  // Of several samples, what is the same for each is said once.
  const same = shown.length > 2 ? known.filter(([, of]) => shown.every((sample) => of(sample) === of(shown[0]!))) : [];
  const columns = known.filter((column) => !same.includes(column));
  const inWords = ([words, of]: (typeof all)[number]): string => {
    const [what, unit] = words.split(', ');
    return `${what!.charAt(0).toLowerCase()}${what!.slice(1)} ${of(shown[0]!)}${unit === undefined ? '' : ` ${unit}`}`;
  };
  const unpriced = [...new Set(shown.flatMap((sample) => sample.unpriced ?? []))];
  return [
    table(
      known.every(([words]) => words.startsWith('Cost')) ? 'What it cost' : 'What came out',
      ['Sample', ...columns.map(([words]) => words)],
      shown.map((sample) =>
        row([sample.sample === '' ? 'as planned' : sample.sample, ...columns.map(([, of]) => of(sample))]),
      ),
    ),
    ...(same.length > 0
      ? [(<p class="small">{`The same for every sample: ${same.map(inWords).join('; ')}.`}</p>) as Element]
      : []),
    ...shown
      .filter(({ overHundred }) => overHundred)
      .map(
        (sample) =>
          (
            <p class="verdict">
              <strong>{`Sample ${sample.sample}: `}</strong>
              {sample.overHundred!}
            </p>
          ) as Element,
      ),
    ...(unpriced.length > 0 && shown.some(({ obtained }) => obtained)
      ? [
          (
            <p class="small quiet">{`No cost is given, since the shelf has no price for ${unpriced.join(', ')}.`}</p>
          ) as Element,
        ]
      : []),
  ];
}

function verdicts({ comparisons = [] }: AmountsReckoning): Element | null {
  if (comparisons.length === 0) return null;
  const left = [...new Set(comparisons.map(({ leavesOut }) => leavesOut))];
  return (
    <section class="amounts-part">
      <h3>Do the yields differ?</h3>
      {comparisons.map(({ verdict }) => (
        <p class="verdict">{verdict}</p>
      ))}
      {left.map((words) => (
        <p class="small quiet">{words}</p>
      ))}
    </section>
  ) as Element;
}

function metals({ samples }: AmountsReckoning): Element | null {
  const shown = samples.filter((sample) => sample.metals !== undefined);
  if (shown.length === 0) return null;
  const account = ({ sample }: SampleAmounts, metal: MetalAccount): Element =>
    row([
      `${sample}, ${metal.name}`,
      bare(metal.in),
      bare(metal.inProduct),
      bare(metal.inProductShare),
      bare(metal.rest),
      bare(metal.restShare),
    ]);
  // Of several samples of which the same is said with other figures, it is said once.
  const told = shown.flatMap((sample) =>
    sample.metals!.flatMap(({ wasteLine }) => (wasteLine === undefined ? [] : [{ sample: sample.sample, wasteLine }])),
  );
  const parts = told.map(({ sample, wasteLine }) => ({ sample, parts: /^(\D+)(\d.*)\.$/s.exec(wasteLine) }));
  const beginning = parts[0]?.parts?.[1];
  const together = told.length > 2 && beginning !== undefined && parts.every((one) => one.parts?.[1] === beginning);
  const lines = shown.flatMap((sample) =>
    sample.metals!.flatMap((metal) => [
      ...(metal.wasteLine && !together
        ? [
            (
              <li>
                <strong>{`${sample.sample}: `}</strong>
                {metal.wasteLine}
              </li>
            ) as Element,
          ]
        : []),
      ...(metal.exceeds
        ? [
            (
              <li>
                <strong>{`${sample.sample}: `}</strong>
                {`more ${metal.name} than went in, by this account: the product is not all what its formula says.`}
              </li>
            ) as Element,
          ]
        : []),
    ]),
  );
  return (
    <section class="amounts-part">
      <h3>Where the metal went</h3>
      {table(
        'Metal account',
        ['Sample', 'In, g', 'Product, g', 'Product, %', 'Rest, g', 'Rest, %'],
        shown.flatMap((sample) => sample.metals!.map((metal) => account(sample, metal))),
      )}
      {together ? (
        <p class="waste-lines">{`${beginning.trim()}: ${parts.map((one) => `${one.sample} ${one.parts![2]!}`).join('; ')}.`}</p>
      ) : null}
      {lines.length > 0 ? <ul class="waste-lines">{lines}</ul> : null}
      <p class="small quiet">
        The product is reckoned as the pure compound of its formula; water or salts left in it would leave more metal in
        the rest.
      </p>
    </section>
  ) as Element;
}

/** The same as a list, with links to the entries of the lots. */
function lineageList(steps: readonly LineageStep[]): Element {
  return (
    <ul>
      {steps.map((one) => (
        <li>
          {one.entry === undefined ? (
            one.name
          ) : (
            <a href={`../${one.entry}/#${one.sample ?? ''}`}>{`${one.name}, no. ${one.lot ?? ''}`}</a>
          )}
          {[
            one.taken === undefined ? '' : `, ${one.taken} taken`,
            one.yield === undefined ? '' : `, yield ${one.yield}`,
            one.further ? ', made from earlier lots' : '',
          ].join('')}
          {one.from.length > 0 ? lineageList(one.from) : null}
        </li>
      ))}
    </ul>
  ) as Element;
}

function lineage({ samples }: AmountsReckoning): Element | null {
  const groups = together(
    samples.filter((sample) => sample.lineage),
    ({ lineage: node }) => node!.from,
  );
  if (groups.length === 0) return null;
  return (
    <section class="amounts-part">
      <h3>What it was made from</h3>
      {groups.flatMap(({ samples: same, shown }) => {
        const whom = capital(namesOf(same.map(({ sample }) => sample)));
        return [
          (
            <div
              class="scroll"
              tabindex="0"
              role="region"
              aria-label={`Drawing of what ${whom === '' ? 'it' : whom} was made from`}
            >
              {lineageDrawing({ title: whom, root: { ...same[0]!.lineage!, from: shown } })}
            </div>
          ) as Element,
          (
            <details class="behind">
              <summary>{`${whom === '' ? 'It' : whom} step by step`}</summary>
              {lineageList(shown)}
            </details>
          ) as Element,
        ];
      })}
    </section>
  ) as Element;
}

function stock({ stock: lots = [] }: AmountsReckoning): Element | null {
  if (lots.length === 0) return null;
  return (
    <section class="amounts-part">
      <h3>What is left of it</h3>
      <ul>
        {lots.map(({ lot, obtained, taken, left, overspent }) => (
          <li>
            {`Lot ${lot}: ${obtained ? `${obtained.text.replace(/ ± [\d.]+/, '')} obtained; ` : ''}`}
            {taken.flatMap(({ entry, sample, mass }, index): ElementContent[] => [
              ...(index > 0 ? [{ type: 'text', value: ', ' } as const] : []),
              (
                <span>
                  {mass ? `${mass.text} to ` : 'an unknown amount to '}
                  <a
                    href={`../${entry}/${sample === '' ? '' : `#${sample}`}`}
                  >{`no. ${entry}${sample === '' ? '' : `/${sample}`}`}</a>
                </span>
              ) as Element,
            ])}
            {left ? (overspent ? `; ${left.text.replace('−', '')} more than there was.` : `; ${left.text} left.`) : '.'}
          </li>
        ))}
      </ul>
    </section>
  ) as Element;
}

/** The section of an entry's page; nothing where there is nothing to show. */
export function amountsSection(amounts: AmountsReckoning): Element | null {
  const { product, atomEconomy, assumed, reaction } = amounts;
  const tables = [...weighed(amounts), ...results(amounts)];
  if (!reaction && tables.length === 0 && !amounts.stock) return null;
  const facts: [string, ElementContent | string][] = [
    ...(product?.formulaSet && product.molarMass
      ? [
          [
            'Molar mass',
            (
              <span>
                {formula(product.formulaSet)}
                {`: ${product.molarMass.text}`}
              </span>
            ) as Element,
          ] as [string, Element],
        ]
      : []),
    ...(atomEconomy ? [['Atom economy', atomEconomy.text] as [string, string]] : []),
    ...(assumed
      ? [
          [
            'Taken to be ample',
            assumed
              .map((label) => (label === 'O2' ? 'oxygen of the air' : label === 'H2O' ? 'water' : label))
              .join(', '),
          ] as [string, string],
        ]
      : []),
  ];
  return (
    <section class="amounts" aria-labelledby="amounts">
      <h2 id="amounts">Amounts and yields</h2>
      {reactionLine(amounts)}
      {reaction?.fault ? <p class="verdict">{`This reaction is not reckoned. ${reaction.fault}`}</p> : null}
      {facts.length > 0 ? (
        <dl class="facts">
          {facts.map(([name, value]) => (
            <div>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      {tables}
      {verdicts(amounts)}
      {metals(amounts)}
      {lineage(amounts)}
      {stock(amounts)}
      {tables.length > 0 ? (
        <p class="small quiet">
          Behind ± stands the expanded uncertainty (k = 2, about 95 %) from weighing, stated purity and atomic weights.
          Losses and impurities that nobody stated are not in it.
        </p>
      ) : null}
    </section>
  ) as Element;
}
