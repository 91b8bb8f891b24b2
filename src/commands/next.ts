// masstone next: what the trade knows and the journal lacks, set against the shelf, with the dangers.
import type { Gap } from '../crosslinks/gaps.js';
import type { JournalModel } from '../crosslinks/model.js';
import { openedFor } from './opened.js';
import { WrongUse, type Command } from './command.js';

/** The shape of `--json`, which is a contract. */
const jsonOf = ({ pigment, formula, colourIndex, family, have, lack, dangers, tried }: Gap) => ({
  pigment,
  formula,
  colourIndex: colourIndex ?? null,
  family,
  have,
  lack,
  dangers,
  tried,
});

function gapText({ pigment, formula, colourIndex, family, have, lack, dangers, tried }: Gap): string {
  const what = [formula, colourIndex, family].filter((part) => part !== undefined).join(', ');
  return [
    `${pigment} (${what})`,
    ...dangers.map((sentence) => `    ! ${sentence}`),
    `    on the shelf: ${have.length > 0 ? have.join(', ') : 'nothing'}`,
    `    missing:      ${lack.length > 0 ? lack.join(', ') : 'nothing'}`,
    ...(tried.length > 0 ? [`    tried before: ${tried.map((number) => `entry ${number}`).join(', ')}`] : []),
    '',
  ].join('\n');
}

const openIdeas = ({ ideas }: JournalModel): string =>
  ideas
    .filter(({ closed }) => !closed)
    .map(({ number, idea, entry, takenUpBy }) => {
      const taken = takenUpBy.length > 0 ? `, taken up in ${takenUpBy.map((one) => one.number).join(', ')}` : '';
      return `${String(number).padStart(4)}  ${idea} (entry ${entry.number}${taken})\n`;
    })
    .join('');

const noProcedure =
  'What is named here is a gap, not a proposal, and no procedure. A list of dangers has gaps: read the safety data\n' +
  'sheets, keep to your local rules, and leave to licensed practice what is licensed.\n';

export const command: Command = {
  name: 'next',
  summary: 'what a series lacks, set against the shelf, with the dangers; open ideas',
  help: `
Use: masstone next [--element Mn] [--from-shelf]

Pigments that the trade knows and the journal has not made, in its series: what each would bring of
dangers, first; which of its reagents are on the shelf, which are missing, and which entries tried it and did
not get there. Those come first for which nothing is missing, then those for which the least is. Then the ideas
that are still open, by the number that 'masstone begin --idea N' takes. It offers no procedure.

  --element Mn   only pigments of this element, whether or not the journal has a series of it
  --from-shelf   only those for which nothing is missing

With --json: {gaps: [{pigment, formula, colourIndex, family, have: [ids of the shelf], lack: [names],
dangers: [sentences], tried: [numbers of entries]}]}; colourIndex is null where there is none.`,
  options: { element: { type: 'string' }, 'from-shelf': { type: 'boolean', default: false } },
  async run({ values, positionals, journal, json }, streams) {
    if (positionals.length > 0) throw new WrongUse('next takes no further words (masstone next --help).');
    const { elementSymbolOf } = await import('../reckoning/elements.js');
    const asked = values.element === undefined ? undefined : String(values.element);
    const element = asked === undefined ? undefined : elementSymbolOf(asked);
    if (asked !== undefined && element === undefined)
      throw new WrongUse(`--element takes the symbol of an element, such as Mn, not '${asked}'.`);
    const model = await openedFor(journal, json, streams);
    if (!model) return 1;
    const { gapsByShelf, gapsOf } = await import('../crosslinks/gaps.js');
    const gaps = gapsOf(model, { ...(element !== undefined && { element }), fromShelf: values['from-shelf'] === true });
    if (json) {
      streams.result(`${JSON.stringify({ gaps: gaps.map(jsonOf) })}\n`);
      return 0;
    }
    const none = 'Nothing that the table of known pigments has is lacking here.\n';
    const told = gapsByShelf(gaps).map((group) => `${group.words}\n\n${group.gaps.map(gapText).join('\n')}`);
    streams.result(`${told.length > 0 ? told.join('\n') : none}\n`);
    const ideas = element === undefined ? openIdeas(model) : '';
    if (ideas !== '') streams.result(`Open ideas (masstone begin --idea N "Title"):\n${ideas}\n`);
    streams.result(noProcedure);
    return 0;
  },
};
