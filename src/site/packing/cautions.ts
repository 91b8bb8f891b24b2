// The cautions of what is packed, in plain text: whoever gets the pack has no page to read them on.
import type { JournalModel } from '../../crosslinks/model.js';
import { softwareVersion } from '../../package-folder.js';
import type { ForeseenInEntry, ReckonedEntry } from '../../reckoning/contracts.js';
import { foreseenWords, recordWords } from '../blurb.js';

/** The file of cautions at the root of a pack. */
export const cautionsFile = 'CAUTIONS.txt';

function ofForeseen(one: ForeseenInEntry): readonly string[] {
  return [
    `  ${one.severity.toUpperCase()}: ${foreseenWords(one)}`,
    `    ${one.condition}`,
    `    Do: ${one.precaution}`,
    ...one.answered.map((answer) => `    Answered in the entry: ${answer.do}`),
  ];
}

/** What is not known, said before what is. */
const unknownOf = ({ box, notJudged = [] }: ReckonedEntry['dangers']): readonly string[] => [
  ...notJudged.map((name) => `  Not recognised: ${name}. What it does when mixed or heated cannot be foreseen.`),
  ...box.unknown.map((name) => `  No hazard data for ${name}: treat it as hazardous.`),
];

function ofEntry({ entry, dangers }: ReckonedEntry): string {
  const { box, foreseen = [] } = dangers;
  const statements = box.statements.map(({ code, text, from }) => `  ${code} ${text} (${from.join(', ')})`);
  const nothing = statements.length + foreseen.length === 0;
  return [
    `Entry ${entry.number}, ${entry.title}`,
    `  ${recordWords(entry)}`,
    ...unknownOf(dangers),
    ...(box.signalWord ? [`  Signal word: ${box.signalWord}`] : []),
    ...statements,
    ...foreseen.flatMap(ofForeseen),
    ...(nothing ? ['  Nothing is named here, which does not make it safe.'] : []),
  ].join('\n');
}

/**
 * What the entries of a pack are marked with and what was foreseen in them, with what the journal itself cautions of.
 * @param numbers the entries that are packed
 */
export function cautionsText({ journal, entries }: JournalModel, numbers: ReadonlySet<number>): string {
  const { title, cautions } = journal.settings;
  const packed = entries.filter(({ entry }) => numbers.has(entry.number));
  const standing =
    `Reckoned by Masstone ${softwareVersion()} from the files beside this one: an aid with gaps. What is not named ` +
    'here as a hazard is not thereby safe. The safety data sheets, local rules and licensed practice come first.';
  return [
    `${title}: cautions`,
    standing,
    ...cautions,
    ...packed.sort((a, b) => a.entry.number - b.entry.number).map(ofEntry),
    '',
  ].join('\n\n');
}
