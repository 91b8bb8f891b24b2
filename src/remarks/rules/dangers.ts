// Rules on what can be foreseen of mixing and heating, and on how the entry answers it.
import { inYaml } from '../in-yaml.js';
import type { Paste } from '../paste.js';
import { rule } from '../rule.js';

/** How a list is written: in lines that are indented so far, in square brackets, as one text, or not at all. */
export type ListWritten =
  | { readonly how: 'lines'; readonly indent: number }
  | { readonly how: 'brackets' | 'text' | 'not' };

/** Lines that answer a hazard, ready to paste; with their key where the entry has none yet. */
export interface AnswerFacts {
  /** Words of `against:` that name it. */
  readonly against: string;
  /** The line brings the key `precautions:`, so that all the lines can be pasted one below the other. */
  readonly bringsKey: boolean;
  /** How the list of answers is written that the entry has. */
  readonly listed: ListWritten;
}
function answerTo({ against, bringsKey, listed }: AnswerFacts): Paste {
  const under = 'precautions';
  if (listed.how === 'brackets') return { with: `{ against: ${inYaml(against)}, do: … }`, under };
  const indent = ' '.repeat(listed.how === 'lines' ? listed.indent : 2);
  const lines = `${indent}- against: ${inYaml(against)}\n${indent}  do: …`;
  return bringsKey ? { with: `${under}:\n${lines}` } : { with: lines, under };
}
function linesToAdd(facts: AnswerFacts): string {
  const { listed } = facts;
  const { with: lines, under } = answerTo(facts);
  if (listed.how === 'brackets') return ` behind the [ of ${under!}: ${lines},`;
  if (listed.how === 'text') return ` under ${under!}, after a hyphen before what stands there:\n${lines}`;
  return `${under === undefined ? '' : ` under ${under}`}:\n${lines}`;
}

export interface ForeseenFacts extends AnswerFacts {
  readonly title: string;
  readonly consequence: string;
  readonly gas?: string;
  readonly partners: readonly string[];
  readonly precaution: string;
}
const hazardOf = ({ title, consequence, gas, partners }: ForeseenFacts): string =>
  `${title}: ${consequence}${gas === undefined ? '' : ` (${gas})`}, from ${partners.join(', ')}.`;

const nitrite = `reagents:
  - { reagent: nitrite, amount: 0.50 g }
  - { reagent: vinegar, amount: 0.8 mL }
waste: Kept apart.
if-it-goes-wrong: Step back.`;
const answered = `${nitrite}
precautions:
  - against: nitrogen oxides (nitrite with weak acid)
    do: Outdoors, upwind, a drop at a time.`;
const zinc = `reagents:
  - { reagent: { name: zinc, formula: Zn }, amount: 8.0 g }
  - { reagent: vinegar, amount: 200 mL }`;
const zincAgainst = (against: string, done = 'Outdoors, no flame anywhere near.'): string =>
  `${zinc}\nprecautions: [{ against: ${against}, do: "${done}" }]`;
const nitriteOf = (grams: string): string => nitrite.replace('0.50 g', grams);
const samplesOf = (grams: string): string => `${answered}
samples:
  - { sample: A }
  - { sample: B, differs: more nitrite, change: [{ reagent: nitrite, amount: ${grams} }] }`;
const withLead = (rest: string): string =>
  `reagents: [{ reagent: { name: litharge, formula: PbO }, amount: 1.00 g }]\n${rest}`;

const hotOil = (answer: string): string => `reagents: [{ reagent: { name: linseed oil }, amount: 200 mL }]
steps: [Heat the oil to 260 °C.]
precautions: [{ against: "oil, fat, wax or resin overheated", do: "Small, outdoors, lid beside it, watched." }]
if-it-goes-wrong: ${answer}`;

/** What only words bring in: a way out where it was never there. */
const unlessNotThere = (names: readonly string[] = []): string =>
  names.length === 0
    ? ''
    : ` ${names.join(' and ')} ${names.length > 1 ? 'stand' : 'stands'} only in the words of a step, of washes or of ` +
      'the waste: where something else is called so in short, write its whole name there (potassium chloride, a zinc ' +
      'dish); where it was not used, say so (without bleach).';

export const dangerRules = {
  'danger-unanswered': rule<
    ForeseenFacts & { worstCase?: string; withdrawn: boolean; onlyInWords?: readonly string[] }
  >({
    when: 'A danger is foreseen, and no precaution answers it.',
    severity: { among: ['error', 'note'], of: ({ withdrawn }) => (withdrawn ? 'note' : 'error') },
    found: (facts) =>
      `Foreseen and not answered: ${hazardOf(facts)}${facts.worstCase === undefined ? '' : ` ${facts.worstCase}`}`,
    advice: 'Write what is done about it, under precautions:, with `against` and `do`.',
    paste: (facts) => (facts.listed.how === 'text' ? undefined : answerTo(facts)),
    cure: (facts) =>
      `Write what is done about it (${facts.precaution.replace(/\.$/, '')}).${unlessNotThere(facts.onlyInWords)} ` +
      `Add${linesToAdd(facts)}`,
    subject: 'title',
    fires: nitrite,
    silent: answered,
  }),
  'warning-unanswered': rule<ForeseenFacts>({
    when: 'Something less than a danger is foreseen, and no precaution answers it.',
    severity: 'note',
    found: (facts) => `Foreseen: ${hazardOf(facts)}`,
    advice: 'Take the precaution; to answer it in the entry, write it under precautions:.',
    paste: (facts) => (facts.listed.how === 'text' ? undefined : answerTo(facts)),
    cure: (facts) => `${facts.precaution} To answer it in the entry, add${linesToAdd(facts)}`,
    subject: 'title',
    fires: zinc,
    silent: zincAgainst('hydrogen'),
  }),
  'precaution-says-nothing': rule<{
    against: string;
    /** What stands under `do:`. */
    words: string;
    why: 'nothing' | 'too-short';
    /** Titles of the dangers that it names and that have no other answer. */
    leftOpen: readonly string[];
  }>({
    when: 'A precaution does not say what is done: its words say nothing of it, or are fewer than four.',
    severity: { among: ['error', 'warning'], of: ({ leftOpen }) => (leftOpen.length > 0 ? 'error' : 'warning') },
    found: ({ against, words, why, leftOpen }) =>
      `'${words}' ${why === 'nothing' ? 'says nothing' : 'says too little'} of what is done against ${against}` +
      `${leftOpen.length > 0 ? `, and leaves a danger unanswered: ${leftOpen.join('; ')}` : ''}.`,
    advice: 'Write what is done, in four words or more.',
    subject: 'against',
    fires: zincAgainst('hydrogen', 'ok'),
    silent: zincAgainst('hydrogen'),
  }),
  'answer-taken-for': rule<{ against: string; titles: readonly string[] }>({
    when: 'A precaution names a hazard in words of its own; which one they were taken to mean.',
    severity: 'note',
    found: ({ against, titles }) => `'${against}' is taken as the answer to: ${titles.join('; ')}.`,
    advice: 'If it is meant for something else, name that by its gas or by the title of its rule.',
    subject: 'against',
    fires: zincAgainst('fire'),
    silent: zincAgainst('hydrogen'),
  }),
  'precaution-answers-nothing': rule<{
    against: string;
    /** Names of hazards that it may mean. */
    meant: readonly string[];
    /** A danger has no answer. */
    dangerOpen: boolean;
  }>({
    when: 'A precaution names none of the hazards foreseen, while one has no answer, or though it names a gas.',
    severity: { among: ['warning', 'note'], of: ({ dangerOpen }) => (dangerOpen ? 'warning' : 'note') },
    found: ({ against }) => `'${against}' names none of the hazards foreseen here.`,
    advice: 'It is printed all the same. If it is meant as an answer, name the hazard.',
    cure: ({ meant }) =>
      `It is printed all the same. If it is meant as an answer, name the ` +
      `hazard: ${meant.map((one) => `'${one}'`).join(', ')}.`,
    subject: 'against',
    fires: zincAgainst('chlorine'),
    silent: zincAgainst('hydrogen'),
  }),
  'not-judged': rule<{ name: string; lot?: string; meant?: readonly string[] }>({
    when: 'A substance was not recognised, so that nothing can be foreseen of it.',
    severity: 'warning',
    found: ({ name }) =>
      `What ${name} is was not recognised: what it does when mixed or heated cannot be foreseen, ` +
      'and the entry cannot be called safe.',
    advice: 'Give its formula on the shelf or where it is used.',
    cure: ({ lot, meant = [] }) => {
      if (lot !== undefined)
        return `See what is said of entry ${lot.split('/')[0]}, if anything is, or give it a pigment with its formula.`;
      return meant.length > 0 ? `If ${meant.join(' or ')} is meant, write that; if not, give its formula.` : undefined;
    },
    subject: 'name',
    mendedOnce: true,
    fires: 'reagents: [{ reagent: { name: grandmother’s powder }, amount: 1.00 g }]',
    silent: 'reagents: [{ reagent: { name: grandmother’s powder, formula: NaCl }, amount: 1.00 g }]',
  }),
  'named-not-judged': rule<{ name: string; several: boolean; where: string; titles: readonly string[] }>({
    when: 'Something is spoken of that would be a danger in the pot, and nothing says plainly whether it is there.',
    severity: 'note',
    found: ({ name, several, where, titles }) =>
      `${name} ${several ? 'are' : 'is'} spoken of in ${where} and not judged, as nothing says plainly that ` +
      `${several ? 'they are' : 'it is'} there. If so: ${titles.join('; ')}.`,
    advice: 'Add it under `reagents:` if it is there.',
    subject: 'name',
    fires: 'reagents: [{ reagent: { name: ammonia } }]\nsteps: [Soda crystals instead of bleach.]',
    silent: 'reagents: [{ reagent: { name: ammonia } }]\nsteps: [Soda crystals instead of chalk.]',
  }),
  'step-brings-in': rule<{ step?: number; name: string; inWords: boolean }>({
    when: 'A step takes or names something that is none of the reagents; it is judged as if it were one of them.',
    severity: 'warning',
    found: ({ step, name, inWords }) => {
      const where = step === undefined ? 'The write-up' : `Step ${step}`;
      return (
        `${where} ${inWords ? 'names' : 'takes'} ${name}, which no reagent of the entry is; its dangers are judged ` +
        'in any amount.'
      );
    },
    advice:
      'Add it under `reagents:` with its amount, or write the id of the reagent that is meant. Where something else ' +
      'is called so in short, write its whole name: potassium chloride, a zinc dish.',
    subject: 'name',
    fires: 'reagents: [{ reagent: soda, amount: 5 g }]\nsteps: [{ do: Rinse., with: [vinegar] }]',
    silent: 'reagents: [{ reagent: vinegar, amount: 5 mL }]\nsteps: [{ do: Rinse., with: [vinegar] }]',
  }),
  'heat-in-words': rule<{ to: string; word: string; low: string; high: string; source: string }>({
    when: 'A heating is told in words; it is judged at the top of what the words mean.',
    severity: 'note',
    found: ({ to, word, low, high }) => {
      const meant = to === word ? `'${to}'` : `'${to}' (${word})`;
      return `${meant} is taken as ${low} to ${high} °C, and its dangers are judged at ${high} °C.`;
    },
    advice: 'Write a temperature if you have one.',
    cure: ({ source }) => `Write a temperature if you have one. (Source of the range: ${source}.)`,
    subject: 'to',
    mendedOnce: true,
    fires: 'heating: [{ to: cherry red }]',
    silent: 'heating: [{ to: 700 °C }]',
  }),
  'heat-without-heating': rule<{ words: string; celsius: string; titles: readonly string[] }>({
    when: 'The write-up or the steps tell of more heat than `heating:` says, and it matters for what is in the pot.',
    severity: 'warning',
    found: ({ words, celsius, titles }) =>
      `'${words}' is told, and no heating: says how hot that was, so its dangers were not judged. ` +
      `At up to ${celsius} °C: ${titles.join('; ')}.`,
    advice: 'Add heating: with to:, in degrees or in words (red heat, oven, boiling).',
    subject: 'words',
    fires: 'reagents: [{ reagent: { name: copperas, formula: FeSO4·7H2O }, amount: 5.00 g }]\n---\nIt was calcined.',
    silent:
      'reagents: [{ reagent: { name: copperas, formula: FeSO4·7H2O }, amount: 5.00 g }]\n---\nIt was never calcined.',
  }),
  'heat-of-steps': rule<{ words: string; celsius: string }>({
    when: 'Words of a step or a sample tell of more heat than any key; it is judged at the top of what they mean.',
    severity: 'note',
    found: ({ words, celsius }) => `'${words}' is told in words, and its dangers are judged at ${celsius} °C.`,
    advice: 'Where it was less hot, write there how hot it was: dried at 60 °C.',
    subject: 'words',
    fires: 'reagents: [{ reagent: soda, amount: 5 g }]\nsteps: [Red heat for an hour.]',
    silent: 'reagents: [{ reagent: soda, amount: 5 g }]\nsteps: [Without red heat.]',
  }),
  'heat-not-known': rule<{ to: string; high: string }>({
    when: 'A heating is told in words that say nothing of how hot; it is judged at its worst.',
    severity: 'warning',
    found: ({ to, high }) =>
      `'${to}' does not tell how hot it was: its dangers are judged as if it had been fired at ${high} °C.`,
    advice: 'Write a temperature or a word of heat: boiling, water bath, oven, red heat, cone 6, gas mark 4.',
    subject: 'to',
    fires: 'heating: [{ to: as long as it takes }]',
    silent: 'heating: [{ to: boiling }]',
  }),
  'start-smaller': rule<{ grams: string; name: string; smallAmount: string }>({
    when: 'A first run with a foreseen danger uses more than the journal’s small amount.',
    severity: 'note',
    found: ({ grams, name, smallAmount }) =>
      `A first run with a foreseen danger uses ${grams} g of ${name}; the journal's small amount is ${smallAmount}.`,
    advice: 'Start smaller, or name the entry that it repeats or follows. (Common practice, no source.)',
    subject: 'name',
    fires: nitriteOf('5.00 g'),
    silent: answered,
  }),
  'more-than-tenfold': rule<{ name: string }>({
    when: 'With a danger foreseen, one sample uses more than ten times as much of a partner as another.',
    severity: 'note',
    found: ({ name }) =>
      `One sample uses more than ten times the ${name} of another, and a danger is foreseen: ` +
      'heat, froth and gas grow faster than amounts.',
    advice: 'Go up in smaller steps. (Common practice, no source.)',
    subject: 'name',
    fires: samplesOf('5.10 g'),
    silent: samplesOf('5.00 g'),
  }),
  'no-plan-for-trouble': rule<Record<never, never>>({
    when: 'A danger is foreseen, and nothing says what to do if it goes wrong.',
    severity: 'warning',
    found: () => 'A danger is foreseen, and nothing says what to do if it goes wrong.',
    advice: 'Add `if-it-goes-wrong:` with what to do, in the order in which it is done.',
    fires: answered.replace('if-it-goes-wrong: Step back.\n', ''),
    silent: answered,
  }),
  'answer-makes-worse': rule<{ words: string; titles: readonly string[] }>({
    when: 'What is said to be done if it goes wrong puts water where it brings on another danger.',
    severity: 'warning',
    found: ({ words, titles }) => `‘${words}’ would make it worse: ${titles.join('; ')}.`,
    advice:
      'Hot oil and wax: lid on, heat off, leave. Burning metal: dry sand. Hot acid: heat off, out, let it cool. ' +
      'Water on skin and in eyes is right: say that it is for them.',
    subject: 'words',
    fires: hotOil('A bucket of water stands ready for flames.'),
    silent: hotOil('Lid on, heat off, out. Never water. Burns on the skin are cooled under running water.'),
  }),
  'no-waste': rule<{
    /** Symbols of the hazardous elements used. */
    elements: readonly string[];
    danger: boolean;
  }>({
    when: 'A danger is foreseen or hazardous elements are used, and nothing says where the waste goes.',
    severity: 'warning',
    found: ({ elements, danger }) =>
      danger
        ? 'A danger is foreseen, and nothing says where the waste goes.'
        : `Hazardous elements are used (${elements.join(', ')}), and nothing says where the waste goes.`,
    advice: 'Add `waste:` with what is kept apart, how it is made harmless and where it is taken.',
    fires: withLead(''),
    silent: withLead('waste: Kept as lead waste, taken to the collection point.'),
  }),
  'waste-poured-away': rule<{ elements: readonly string[] }>({
    when: 'Hazardous elements are used, and all that is said of the waste is that it is poured or thrown away.',
    severity: 'warning',
    found: ({ elements }) =>
      `Hazardous elements are used (${elements.join(', ')}), and all that is said of the waste is that it goes away.`,
    advice: 'Say what is kept apart, how it is made harmless and where it is taken; ask the local water authority.',
    fires: withLead('waste: Down the sink with plenty of water.'),
    silent: withLead('waste: Kept as lead waste; only rinsings of clean glass go down the sink.'),
  }),
  'poison-onto-ground': rule<{ elements: readonly string[] }>({
    when: 'Waste with elements that build up in soil goes to the ground, to plants or to animals.',
    severity: 'error',
    found: ({ elements }) =>
      `What may hold ${elements.join(', ')} goes onto the ground or to plants. It stays there for good, and whoever ` +
      'eats or digs there takes it in.',
    advice:
      'Pour none of it there: collect it, bring it down (soda, sulfate), and take it to the collection point. ' +
      'Eat nothing that grew where some went.',
    fires: withLead('waste: The first washings feed the tomatoes.'),
    silent: withLead('waste: Kept as lead waste, nothing of it on the garden.'),
  }),
  'liquor-poured-away': rule<{ elements: readonly string[] }>({
    when: 'A step pours washings or a filtrate that may hold elements that build up in soil down a drain.',
    severity: 'warning',
    found: ({ elements }) => `A step pours a liquor that may hold ${elements.join(', ')} away as it is.`,
    advice: 'Collect it, bring down what it holds, and take that to the collection point.',
    fires: withLead('steps: [Washings tipped down the sink.]'),
    silent: withLead('steps: [Washings kept in the lead can.]'),
  }),
};
