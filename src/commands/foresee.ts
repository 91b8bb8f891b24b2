// masstone foresee: what could go wrong when these are mixed or heated, with no entry needed.
import { parseQuantity } from '../chemistry/quantity/index.js';
import { actionOn } from '../hazards/foresee/action.js';
import { foresee } from '../hazards/foresee/foresee.js';
import type { Foreseen, Foresight, MixtureHeating, MixedReagent } from '../hazards/foresee/contracts.js';
import type { Outcome } from '../outcome.js';
import {
  contentsOf,
  readHeat,
  readReagentText,
  resolveReagent,
  unreadReagent,
  type Cupboard,
  type ReagentWritten,
} from '../reagents/index.js';
import { WrongUse, type Command } from './command.js';
import { cupboardAt } from './entry-reader.js';
import { foreseeInEntry, type ForeseenAtStep, type ForeseenInEntry } from './foresee/of-entry.js';

const standing = [
  'The list of rules is incomplete, and the amounts are those you gave. A worst-case sum is not an exposure ' +
    'assessment.',
  'Follow the safety data sheets, your local rules and licences; ask someone competent before going further.',
];
export const nothingMatched = 'Nothing on our list matched. The list is incomplete; that is no all-clear.';

const notHeated = 'No heat was given: drying and firing were not judged.';

/** `400 °C` or `cherry red`, or `product: 60 °C` for one thing only. */
function heatingOf(text: string): MixtureHeating {
  const [, of = 'mixture', words = text] = /^(.+?)\s*[:=]\s*(.+)$/.exec(text) ?? [];
  const heat = readHeat(/^-?[\d.]+$/.test(words.trim()) ? `${words} °C` : words);
  if (heat.known === 'not-known')
    throw new WrongUse(`--heat takes a temperature, like '400 °C' or 'cherry red', not '${text}'.`);
  return { of: of.trim(), toCelsius: heat.high.toNumber() };
}

function roomOf(text: string): string {
  const read = parseQuantity(/^[\d.]+$/.test(text.trim()) ? `${text} m3` : text);
  if (!read.ok || read.value.dimension !== 'volume' || !read.value.base.gt(0))
    throw new WrongUse(`--room takes a volume, like '25 m3', not '${text}'.`);
  return read.value.base.div('1e6').toFixed();
}

/** Its words tell a heat at which things are dried or fired. */
const isToldHot = ({ reagent }: MixedReagent): boolean => (contentsOf(reagent).celsius ?? 0) > driesFrom;
const driesFrom = 60;

interface Read {
  readonly text: string;
  readonly read: Outcome<ReagentWritten>;
}
const nameOf = ({ read }: Read): readonly string[] => (read.ok ? [read.value.name] : []);
const reagentOf = ({ text, read }: Read, cupboard: Cupboard): MixedReagent['reagent'] =>
  read.ok ? resolveReagent(read.value, cupboard) : unreadReagent(text);

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** One hazard for a tired reader; what the first line has said already is not said again. */
export function hazardWords(one: Foreseen, said: readonly string[] = []): string {
  const gas = one.gas ? ` (${one.gas}${one.gases ? `: ${one.gases.map(({ name }) => name).join(', ')}` : ''})` : '';
  const action = actionOn(one);
  const lines = [
    `${one.severity.toUpperCase()}: ${one.title}. ${upper(one.consequence)}${gas}.`,
    ...(action === undefined || said.some((line) => line.endsWith(action)) ? [] : [action]),
    `Do: ${one.precaution}.`,
    `Concerns: ${one.partners.join(', ')}.`,
    `When: ${one.condition}.`,
    ...(one.worstCase ? [`At worst: ${one.worstCase.words}`] : []),
    ...(one.severity !== 'note' && one.gases
      ? one.gases
          .filter(({ smellWarns }) => smellWarns !== '')
          .map(
            ({ name, smellWarns, late }) => `${upper(name)}: smell as a warning: ${smellWarns}. Harm later: ${late}.`,
          )
      : []),
    `Source: ${one.source}.`,
  ];
  return lines.map((line, at) => `${at === 0 ? '' : '  '}${line.replace(/\.\.$/, '.')}`).join('\n');
}

/** What to do now, before all else: of the worst. */
const firstLine = (foreseen: readonly Foreseen[]): readonly string[] =>
  foreseen.slice(0, 1).flatMap((worst) => actionOn({ ...worst, precaution: '' }) ?? []);

function words({ foreseen, unknown, cautions }: Foresight): string {
  const first = firstLine(foreseen);
  return [
    ...first,
    ...foreseen.map((one) => hazardWords(one, first)),
    ...(foreseen.length === 0 ? [nothingMatched] : []),
    ...(unknown.length > 0
      ? [
          `Not recognised: ${unknown.join(', ')}. With these the mixture cannot be called safe: give a ` +
            'formula, or look them up in their safety data sheets.',
        ]
      : []),
    ...(cautions.length > 0 ? [cautions.join('\n')] : []),
    '',
  ].join('\n\n');
}

/** One hazard of an entry: in which samples, and whether only with what is added. */
const inEntryWords = (one: ForeseenInEntry, said: readonly string[]): string => {
  const where = one.samples.length > 0 ? `  Samples: ${one.samples.join(', ')}.` : '';
  const begins = one.step === undefined ? '' : `  Begins at step ${one.step}.`;
  const added = one.added ? '  Only with what is added.' : '';
  return [hazardWords(one, said), where, begins, added].filter((line) => line !== '').join('\n');
};

/** One step: what is done, what is in the pot, how hot it is, what begins there. */
function stepWords({ step, do: done, sample, inThePot, heat, begins }: ForeseenAtStep): string {
  const lines = [
    `${step}. ${sample === undefined ? '' : `${sample}: `}${done}`,
    `In the pot: ${inThePot.length === 0 ? 'nothing that is known' : inThePot.join(', ')}.`,
    ...(heat ? [`Heat: ${heat.written}, judged at ${heat.toCelsius} °C.`] : []),
    ...begins.map(({ severity, title }) => `Begins here: ${severity.toUpperCase()}: ${title}.`),
  ];
  return lines.map((line, at) => `${at === 0 ? '' : '   '}${line}`).join('\n');
}

const stepsWords = (steps: readonly ForeseenAtStep[]): readonly string[] =>
  steps.length === 0
    ? []
    : [
        'Step by step. What no step names is taken to be in the pot from the first, and what was poured off or ' +
          'washed out to be there still; what stands above holds for the whole of it.',
        ...steps.map(stepWords),
      ];

type Run = Command['run'];

/** `foresee 14`, and what if something were added. */
async function ofEntry(
  { values, positionals, journal, json }: Parameters<Run>[0],
  streams: Parameters<Run>[1],
): Promise<0 | 1> {
  const added = [...positionals.slice(1), ...((values.reagent as string[] | undefined) ?? [])];
  const heating = ((values.heat as string[] | undefined) ?? []).map(heatingOf);
  const room = typeof values.room === 'string' ? { roomCubicMetres: roomOf(values.room) } : {};
  const answer = await foreseeInEntry({ number: Number(positionals[0]), added, heating, ...room }, journal);
  if (!answer.ok) {
    const { message, cure } = answer.fault;
    if (json) streams.result(`${JSON.stringify({ error: answer.fault })}\n`);
    else streams.aside(`${message}${cure === undefined ? '' : ` ${cure}`}\n`);
    return 1;
  }
  const { entry, title, foreseen, unknown, cautions, steps = [] } = answer.value;
  if (json) streams.result(`${JSON.stringify({ ...answer.value, cautions: [...cautions, ...standing] })}\n`);
  else {
    const first = firstLine(foreseen);
    const what = added.length > 0 ? `, if ${added.join(' and ')} were added` : ', as it stands';
    streams.result(
      [
        `Entry ${entry}, ${title}${what}:`,
        ...first,
        ...foreseen.map((one) => inEntryWords(one, first)),
        ...(foreseen.length === 0 ? [nothingMatched] : []),
        ...(unknown.length > 0 ? [`Not recognised: ${unknown.join(', ')}. With these it cannot be called safe.`] : []),
        ...stepsWords(steps),
        [...cautions, ...standing].join('\n'),
        '',
      ].join('\n\n'),
    );
  }
  return unknown.length > 0 ? 1 : 0;
}

export const command: Command = {
  name: 'foresee',
  summary: 'what could go wrong when these are mixed or heated, with no entry needed',
  help: `
Use: masstone foresee REAGENT… [--heat TEMPERATURE] [--room VOLUME] [--extraction] [--reaction EQUATION] [--json]
     masstone foresee NUMBER [--reagent REAGENT]… [--heat TEMPERATURE] [--room VOLUME] [--json]

Everything named is taken to meet. A reagent is a name, a formula or an id of the shelf, with its strength and amount
where they are known; what is not said is taken at its worst.

  masstone foresee 'sodium nitrite 5 g' 'acetic acid 60 % 10 mL' --room '25 m3'
  masstone foresee 'Cu(NO3)2·3H2O 10 g' --heat '400 °C'
  masstone foresee bleach vinegar
  masstone foresee 'sulfuric acid (dilute)' 'CdS 2 g'

With an entry's number it judges that entry as it stands; with --reagent, what if that were added to each sample. An
entry that has steps is told step by step too: what is in the pot by then, how hot it is, which danger begins there.

  masstone foresee 14
  masstone foresee 14 --reagent 'vinegar 20 mL'

--reagent REAGENT    what is added to the entry; may be repeated
--heat TEMPERATURE   the whole mixture, or one thing: --heat 'product: 60 °C'; in words too: --heat 'gas mark 4';
                     may be repeated
--room VOLUME        of the closed room; 30 m3 where it is not given
--extraction         there is extraction; it is said, not reckoned with
--reaction EQUATION  its gases and by-products count too
--product NAME       what is made, which meets the rest and may be heated

Exit code 0 when all could be judged, 1 when a name was not recognised. Nothing found is no all-clear.
`,
  options: {
    reagent: { type: 'string', multiple: true },
    heat: { type: 'string', multiple: true },
    room: { type: 'string' },
    extraction: { type: 'boolean', default: false },
    reaction: { type: 'string' },
    product: { type: 'string' },
  },
  run: async ({ values, positionals, journal, json }, streams) => {
    if (positionals.length === 0)
      throw new WrongUse("Name what is mixed or heated: masstone foresee 'sodium nitrite 5 g' 'vinegar 20 mL'.");
    if (/^\d{1,9}$/.test(positionals[0]!)) return ofEntry({ values, positionals, journal, json }, streams);
    const read = (text: string): Read => ({ text, read: readReagentText(text) });
    const readings = [...positionals, ...((values.reagent as string[] | undefined) ?? [])].map(read);
    const made = typeof values.product === 'string' ? read(values.product) : undefined;
    const cupboard = await cupboardAt(journal, [...readings, ...(made ? [made] : [])].flatMap(nameOf));
    const unread = readings.flatMap(({ text, read: { ok, ...rest } }) =>
      ok || !('fault' in rest) ? [] : [`${text}: ${rest.fault.message} ${rest.fault.cure ?? ''}`.trim()],
    );
    const ingredients: readonly MixedReagent[] = [
      ...readings.map((one) => ({ reagent: reagentOf(one, cupboard) })),
      ...(made ? [{ reagent: reagentOf(made, cupboard), made: 'product' as const }] : []),
    ];
    const heating = ((values.heat as string[] | undefined) ?? []).map(heatingOf);
    const foresight = foresee({
      ingredients,
      heating,
      extraction: values.extraction === true,
      ...(typeof values.room === 'string' && { roomCubicMetres: roomOf(values.room) }),
      ...(typeof values.reaction === 'string' && { reaction: values.reaction }),
    });
    const cautions = [
      ...(foresight.foreseen.length === 0 ? [nothingMatched] : []),
      ...(foresight.unknown.length > 0
        ? [`cannot be called safe: not recognised: ${foresight.unknown.join(', ')}`]
        : []),
      ...unread,
      ...(heating.length === 0 && !ingredients.some(isToldHot) ? [notHeated] : []),
      ...foresight.cautions,
      ...(values.extraction === true ? ['Extraction was stated; the sums do not count on it.'] : []),
      ...standing,
    ];
    const { foreseen, unknown } = foresight;
    if (json) streams.result(`${JSON.stringify({ foreseen, unknown, cautions })}\n`);
    else
      streams.result(
        words({
          ...foresight,
          cautions: cautions.filter((text) => text !== nothingMatched && !text.startsWith('cannot be called safe')),
        }),
      );
    return foresight.unknown.length > 0 ? 1 : 0;
  },
};
