// Sentences for what was assumed of a reagent, from its doubts.
import type { Doubt, DoubtCode, ResolvedReagent } from './contracts.js';

type Sentence = (facts: Readonly<Record<string, string>>) => string;

const sentences: Readonly<Record<DoubtCode, Sentence>> = {
  'strength-from-name': ({ percent, low, high, note }) => {
    const range = low === high ? `${low} %` : `${low} to ${high} %`;
    return `taken as ${percent} % by its name (${range})${note ? `: ${note}` : ''}.`;
  },
  'strength-from-density': ({ percent, density }) => `${density} is the density of a ${percent} % solution.`,
  'strength-not-given': () => 'no strength was given; at worst it is as strong as it is sold.',
  'density-from-table': ({ density }) => `its density was not given; ${density} g/mL was taken from a table.`,
  'density-assumed': ({ density }) =>
    `its density was not given and is in no table here; ${density} g/mL was taken, as for most of its kind.`,
  'density-does-not-fit': ({ density, table, percent }) =>
    `${density} does not go with ${percent} %, whose density is ${table} g/mL in the table. One of the two is wrong.`,
  'density-fits-two-strengths': ({ density, percents, percent }) =>
    `${density} fits more than one strength (${percents} %); ${percent} % was taken. Give the strength.`,
  'bulk-density': ({ low, usual, high }) =>
    `it was measured by volume; ${usual} g/mL (${low} to ${high} g/mL) was taken for what it weighs as it is poured.`,
  'beyond-table': ({ percent, upTo }) => `${percent} % lies beyond the table of densities, which ends at ${upTo} %.`,
  'drop-volume-assumed': ({ drop, low, high }) =>
    `a drop was taken as ${drop} mL (${low} to ${high} mL). Give its size.`,
  'taken-as': ({ formula, note, standsFor }) => `taken as ${standsFor ?? formula}${note ? ` (${note})` : ''}.`,
  'only-roughly-this': ({ formula, standsFor }) =>
    standsFor ? `judged as ${standsFor}.` : `${formula} is only roughly what it is made of.`,
  'counted-as-ammonia': () => 'its strength is counted as NH3, as the trade does.',
  'sold-as-several': ({ as }) => `the same name is sold as ${as}.`,
  'salt-of-two-states': ({ formula, other }) =>
    `its name does not tell whether it is ${formula!} or ${other!}; it is reckoned as ${formula!}.`,
  'words-not-used': ({ written, words }) => `not understood and not used in “${written}”: ${words}.`,
};

/** One doubt in a sentence, about what it is understood. */
export function doubtSentence({ code, facts }: Doubt): string {
  const sentence = sentences[code](facts);
  return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`;
}

/** The same with the name of the reagent before it. */
const namedSentence = (name: string, { code, facts }: Doubt): string => `${name}: ${sentences[code](facts)}`;

/** Codes that only say what was found, where nothing was doubtful. */
const onlyInformation: ReadonlySet<DoubtCode> = new Set(['taken-as']);

/** A density matters where a share by mass was poured; a strength by volume needs none. */
function densityMattered({ portion, taken }: ResolvedReagent): boolean {
  const poured = portion.amount?.dimension === 'volume' || portion.amount?.dimension === 'drops';
  const byMass = taken.strength.basis !== 'stated' || portion.strength?.dimension === 'mass-percent';
  return byMass === poured && portion.amount !== undefined && portion.amount.dimension !== 'amount';
}

/** Faults of a formula as it was typed that were read all the same. */
const misreadings = ({ name, substance }: ResolvedReagent): readonly string[] =>
  (substance?.parsed.doubts ?? [])
    .filter(({ code }) => code === 'zero-for-oxygen' || code === 'lost-dot')
    .map(({ message }) => `${name}: ${message}`);

/** What should be told of a reagent wherever a sum rests on it, as sentences. */
export const assumptionsOf = (reagent: ResolvedReagent): readonly string[] => [
  ...misreadings(reagent),
  ...reagent.doubts
    .filter(({ code }) => !onlyInformation.has(code))
    .filter(({ code }) => !code.startsWith('density-') || code.includes('fit') || densityMattered(reagent))
    .map((doubt) => namedSentence(reagent.name, doubt)),
];

const ofStrength: ReadonlySet<DoubtCode> = new Set([
  'strength-from-name',
  'strength-from-density',
  'density-from-table',
  'density-assumed',
  'density-does-not-fit',
  'density-fits-two-strengths',
  'beyond-table',
  'counted-as-ammonia',
]);

/**
 * What a strength in percent by mass rests on, as sentences; a density only where the strength was stated by volume.
 */
export function strengthAssumptionsOf({ doubts, portion, strength }: ResolvedReagent): readonly string[] {
  const byMass = strength.basis !== 'stated' || portion.strength?.dimension === 'mass-percent';
  return doubts
    .filter(({ code }) => ofStrength.has(code))
    .filter(({ code }) => !byMass || !(code === 'density-from-table' || code === 'density-assumed'))
    .map(doubtSentence);
}
