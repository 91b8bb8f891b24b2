// masstone foresee: what could go wrong when these are mixed or heated, with no entry needed.
import { foresee } from '../hazards/foresee/foresee.js';
import { foreseenOnce } from '../hazards/foresee/told-once.js';
import type { MixtureHeating, MixedReagent } from '../hazards/foresee/contracts.js';
import { roomOf } from '../chemistry/quantity/index.js';
import type { Workspace } from '../hazards/foresee/workspace.js';
import { assumedRoom } from '../hazards/foresee/worst-case-gas.js';
import type { Outcome } from '../outcome.js';
import {
  contentsOf,
  grAsGrams,
  isFormula,
  materialNamed,
  readHeat,
  readReagentText,
  resolveReagent,
  strengthNamed,
  unreadReagent,
  whyGrams,
  type Cupboard,
  type ReagentWritten,
} from '../reagents/index.js';
import { WrongUse, type Command } from './command.js';
import { cupboardAt, workspaceAt } from './entry-reader.js';
import { byThemselves } from './foresee/by-themselves.js';
import { foreseeInEntry, type EntryAnswer } from './foresee/of-entry.js';
import { answerWords, nothingMatched, stepsWords } from './foresee/words.js';

const standing = [
  'What is not named here is not thereby safe. A worst-case sum is not an exposure assessment.',
  'Follow the safety data sheets, your local rules and licences; ask someone competent before going further.',
];
/** Lines by themselves, without the one that says what they are, and not set in. */
const withoutHead = (lines: readonly string[]): readonly string[] => lines.slice(1).map((line) => line.trim());

const notHeated = 'No heat was given: drying and firing were not judged.';

/** `400 °C` or `cherry red`, or `product: 60 °C` for one thing only; undefined where it tells no heat. */
function heatingOf(text: string): MixtureHeating | undefined {
  const [, of = 'mixture', words = text] = /^(.+?)\s*[:=]\s*(.+)$/.exec(text) ?? [];
  const heat = readHeat(/^-?[\d.]+$/.test(words.trim()) ? `${words} °C` : words);
  if (heat.known === 'not-known') return undefined;
  return { of: of.trim(), toCelsius: heat.high.toNumber() };
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

const quotesMissing = 'Put each thing with its amount in quotes: here every word was judged by itself.';

function isKnownThing(thing: string): boolean {
  const read = readReagentText(thing);
  if (!read.ok) return false;
  const { name } = read.value;
  return isFormula(name) || materialNamed(name) !== undefined || strengthNamed([name]) !== undefined;
}

const bareFigure = /^[~≈]?\d[\d.,/]*$/;
const amountEnd = /(?<=(?:^|\s)[~≈]?[\d.,/]+\s?(?:kg|mg|g|mL|ml|L|l|tsp|tbsp|oz|drops?|%)\s)/;

/**
 * `foresee sodium nitrite 5 g vinegar`, without quotes: the shell hands over a figure and its unit as words of their
 * own. Words are put together up to the end of each amount; a strength stays with what follows or goes before.
 */
function withoutQuotes(words: readonly string[]): {
  readonly things: readonly string[];
  readonly said: readonly string[];
} {
  if (words.length < 3 || words.some((word) => /\s/.test(word)) || !words.some((word) => bareFigure.test(word)))
    return { things: words, said: [] };
  const things = words
    .join(' ')
    .split(amountEnd)
    .map((thing) => thing.trim());
  // Where one of them would be no known thing, the words may be several: each is judged by itself.
  if (!things.every(isKnownThing)) return { things: words, said: [quotesMissing] };
  const shown = things.map((thing) => `'${thing}'`).join(' ');
  return {
    things,
    said: [`Without quotes round each, this was read as ${shown}; if that is wrong, put them in quotes.`],
  };
}

/** `sodium nitrite 5 g, vinegar 10 mL` in one pair of quotes: each by itself, where each has its amount. */
function severalIn(text: string): readonly string[] {
  const whole = readReagentText(text);
  if (whole.ok) return [text];
  const parts = text.split(/\s*;\s*|,\s+|\s+(?:\+|and|und)\s+/).filter((part) => part !== '');
  const isEach = parts.every((part) => {
    const read = readReagentText(part);
    return read.ok && read.value.amount !== undefined;
  });
  return parts.length > 1 && isEach ? parts : [text];
}

/** What was given beside the reagents; what of it could not be read does not keep the rest from its answer. */
interface Surroundings {
  readonly heating: readonly MixtureHeating[];
  readonly room: { readonly roomCubicMetres?: string };
  readonly notRead: readonly string[];
  /** What is said of a room without a unit. */
  readonly bareRoom: readonly string[];
}

/** Where it is judged to stand, and what is said of that. */
interface Place {
  readonly room: Workspace;
  readonly said: readonly string[];
}

/** The room that was given, else that of the journal, where nobody said that these stand there. */
function placeOf(given: Surroundings['room'], own: Workspace, withExtraction: boolean): Place {
  const isGiven = given.roomCubicMetres !== undefined;
  const ofJournal = own.roomCubicMetres;
  const extraction = withExtraction || own.extraction === true;
  return {
    room: { ...(isGiven ? given : { ...own, placeUntold: true }), extraction },
    said: [
      ...(!isGiven && ofJournal !== undefined ? [placeOfJournal(ofJournal)] : []),
      ...(!isGiven && ofJournal === undefined ? [placeNotTold] : []),
      ...(withExtraction ? ['Extraction was stated; the sums do not count on it.'] : []),
      ...(extraction && !withExtraction
        ? ['The journal’s workspace has extraction; the sums do not count on it.']
        : []),
    ],
  };
}
const placeOfJournal = (cubicMetres: string): string =>
  `Judged in the journal’s workspace, a closed room of ${cubicMetres} m³, unless words say outdoors; --room takes ` +
  `another.`;
const placeNotTold =
  `No room was given: vapour was judged as in a closed room of ${assumedRoom} m³, unless words say outdoors; give ` +
  `one with --room.`;

function surroundingsOf(values: Parameters<Command['run']>[0]['values'], own: Workspace): Surroundings {
  const heats = ((values.heat as string[] | undefined) ?? []).map((text) => ({ text, heating: heatingOf(text) }));
  const written = typeof values.room === 'string' ? values.room : undefined;
  const cubicMetres = written === undefined ? undefined : roomOf(written);
  return {
    heating: heats.flatMap(({ heating }) => heating ?? []),
    room: cubicMetres === undefined ? {} : { roomCubicMetres: cubicMetres },
    bareRoom: written !== undefined && /^\s*[\d.,]+\s*$/.test(written) ? [roomBare(written)] : [],
    notRead: [
      ...heats.flatMap(({ text, heating }) => (heating ? [] : [heatNotRead(text)])),
      ...(written === undefined || cubicMetres !== undefined ? [] : [roomNotRead(written, own.roomCubicMetres)]),
    ],
  };
}

const heatNotRead = (text: string): string =>
  `--heat ‘${text}’ was not read, so that heat is NOT judged: give a temperature, like '400 °C' or 'cherry red'.`;
const roomBare = (written: string): string =>
  `--room ${written.trim()} has no unit, and is read as ${written.trim()} m³.`;
const roomNotRead = (text: string, instead = assumedRoom): string =>
  `--room ‘${text}’ was not read, so that sums are for ${instead} m³: give a volume, like '25 m3', or length x ` +
  `width x height, like '2 x 3 x 2.4 m'.`;

const bodyNotRead =
  'The write-up below the front matter was looked through for what it names and puts in: what it tells in other ' +
  'ways was not judged.';

/** What the maker's entry says itself, where it is told about. */
function ownWords({ notToRepeat, precautions = [], foreseen }: EntryAnswer): readonly string[] {
  const ended =
    notToRepeat === undefined
      ? []
      : [
          `This entry is ${notToRepeat.status}: it is no recipe, and what was taken out of it was not judged.` +
            `${notToRepeat.reason === undefined ? '' : ` ${notToRepeat.reason}`}`,
        ];
  const grave = foreseen.some(({ severity }) => severity !== 'note');
  const own = precautions.map(({ against, do: done }) => `  ${against}: ${done}`);
  return [...ended, ...(grave || own.length === 0 ? [] : [`The maker’s own precautions:\n${own.join('\n')}`])];
}

type Run = Command['run'];

/** `foresee 14`, and what if something were added. */
async function ofEntry(
  { values, positionals, journal, json }: Parameters<Run>[0],
  streams: Parameters<Run>[1],
): Promise<0 | 1> {
  const added = [...positionals.slice(1), ...((values.reagent as string[] | undefined) ?? [])];
  const { heating, room, notRead, bareRoom } = surroundingsOf(values, await workspaceAt(journal));
  const answer = await foreseeInEntry({ number: Number(positionals[0]), added, heating, ...room }, journal);
  if (!answer.ok) {
    const { message, cure } = answer.fault;
    if (json) streams.result(`${JSON.stringify({ error: answer.fault })}\n`);
    else streams.aside(`${message}${cure === undefined ? '' : ` ${cure}`}\n`);
    return 1;
  }
  const { entry, title, foreseen, unknown, steps = [], notRead: ofEntryNotRead = [], toldNotJudged } = answer.value;
  const cautions = [...notRead, ...answer.value.cautions, ...bareRoom, bodyNotRead, ...standing];
  const isToldAbove = new Set(toldNotJudged);
  if (json) streams.result(`${JSON.stringify({ ...answer.value, cautions })}\n`);
  else {
    const what = added.length > 0 ? `, if ${added.join(' and ')} were added` : ', as it stands';
    streams.result(
      [
        `Entry ${entry}, ${title}${what}:`,
        ...(ofEntryNotRead.length > 0 ? [ofEntryNotRead.join('\n')] : []),
        ...ownWords(answer.value),
        ...answerWords(foreseen, unknown, ofEntryNotRead.length > 0, toldNotJudged),
        ...stepsWords(steps),
        cautions.filter((one) => !isToldAbove.has(one)).join('\n'),
        '',
      ].join('\n\n'),
    );
  }
  return unknown.length > 0 || notRead.length > 0 || ofEntryNotRead.length > 0 ? 1 : 0;
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
--room VOLUME        of the closed room, or its three sides: --room '2 x 3 x 2.4 m'; where it is not given, the
                     workspace of the journal, else 30 m3
--extraction         there is extraction; it is said, not reckoned with
--reaction EQUATION  its gases and by-products count too
--product NAME       what is made, which meets the rest and may be heated

Exit code 0 when all could be judged, 1 when a name was not recognised, or a heat, a room or part of the entry not read.
Nothing found is no all-clear.
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
    const { things, said: joinedWords } = withoutQuotes(positionals);
    const lines = [...things, ...((values.reagent as string[] | undefined) ?? [])];
    const named = lines.map(grAsGrams).flatMap(severalIn);
    const inGrams = lines.filter((line) => grAsGrams(line) !== line).map((line) => `‘${line}’: ${whyGrams}.`);
    const readings = named.map(read);
    const made = typeof values.product === 'string' ? read(values.product) : undefined;
    const cupboard = await cupboardAt(journal, [...readings, ...(made ? [made] : [])].flatMap(nameOf));
    const unread = readings.flatMap(({ text, read: { ok, ...rest } }) =>
      ok || !('fault' in rest) ? [] : [`${text}: ${rest.fault.message} ${rest.fault.cure ?? ''}`.trim()],
    );
    const ingredients: readonly MixedReagent[] = [
      ...readings.map((one) => ({ reagent: reagentOf(one, cupboard) })),
      ...(made ? [{ reagent: reagentOf(made, cupboard), made: 'product' as const }] : []),
    ];
    const own = await workspaceAt(journal);
    const { heating, room: given, notRead, bareRoom } = surroundingsOf(values, own);
    const { room, said } = placeOf(given, own, values.extraction === true);
    const foresight = foresee({
      ingredients,
      heating,
      ...room,
      ...(typeof values.reaction === 'string' && { reaction: values.reaction }),
    });
    const { unknown } = foresight;
    const foreseen = foreseenOnce(foresight.foreseen);
    const cautions = [
      ...notRead,
      ...joinedWords,
      ...inGrams,
      ...unread,
      ...(values.heat === undefined && !ingredients.some(isToldHot) ? [notHeated] : []),
      ...foresight.cautions,
      ...bareRoom,
      ...said,
      ...standing,
    ];
    const alone = byThemselves(ingredients.map(({ reagent }) => reagent));
    const told = [
      ...(foreseen.length === 0 ? [nothingMatched] : []),
      ...(unknown.length > 0 ? [`cannot be called safe: not recognised: ${unknown.join(', ')}`] : []),
    ];
    streams.result(
      json
        ? `${JSON.stringify({ foreseen, unknown, cautions: [...told, ...withoutHead(alone), ...cautions] })}\n`
        : [
            ...answerWords(foreseen, unknown),
            ...(alone.length > 0 ? [alone.join('\n')] : []),
            cautions.join('\n'),
            '',
          ].join('\n\n'),
    );
    return unknown.length > 0 || notRead.length > 0 ? 1 : 0;
  },
};
