// Text for a video's description: what was made, links that stay, moments, cautions.
import type { JournalModel } from '../crosslinks/model.js';
import { bad, good, type Outcome } from '../outcome.js';
import { splitAddress } from './context.js';
import { samplesByEntry } from '../../templates/parts/listed.js';

export interface Blurb {
  readonly address: string;
  readonly text: string;
}

/**
 * The blurb of an entry.
 * @param video which of the entry's videos, from 1
 */
export function blurb(model: JournalModel, number: number, video = 1): Outcome<Blurb> {
  const reckoned = model.entries.find(({ entry }) => entry.number === number);
  if (!reckoned)
    return bad({
      code: 'no-entry',
      message: `There is no entry ${number} in this journal.`,
      cure: `Entries go up to ${Math.max(0, ...model.entries.map(({ entry }) => entry.number))}.`,
    });
  const { entry, dangers, elements } = reckoned;
  if (entry.videos.length > 0 && !entry.videos[video - 1])
    return bad({
      code: 'no-video',
      message: `Entry ${number} has ${entry.videos.length} ${entry.videos.length === 1 ? 'video' : 'videos'}.`,
      cure: `Give --video a number from 1 to ${entry.videos.length}.`,
    });
  const { origin, base } = splitAddress(model.journal.settings.address);
  const at = (address: string): string => `${origin}${base}${address}`;
  const rows = samplesByEntry(model).get(number) ?? [];
  const links = model.links.get(number);
  const moments = entry.videos[video - 1]?.moments ?? [];
  const foreseen = (dangers.foreseen ?? []).filter((one) => one.severity !== 'note');
  const { box } = dangers;

  const paragraphs: (string | undefined)[] = [
    [entry.title, entry.question].filter(Boolean).join('\n'),
    [
      `Full write-up, amounts and results: ${at(`/${number}/`)}`,
      ...rows.map(
        (row) =>
          `Sample ${row.sample}${row.differs ? ` (${row.differs})` : ''}${row.amounts?.percentYield ? `, yield ${row.amounts.percentYield.text}` : ''}: ${at(`/${number}/#${row.sample}`)}`,
      ),
    ].join('\n'),
    entry.pigment
      ? [`Pigment: ${entry.pigment.name}`, entry.pigment.formula, entry.pigment['colour-index']]
          .filter(Boolean)
          .join(', ')
      : undefined,
    elements.length > 0
      ? elements
          .map(
            (symbol) =>
              `Series: ${model.series.find((one) => one.element === symbol)?.name ?? symbol} across the colours: ${at(`/series/${symbol}/`)}`,
          )
          .join('\n')
      : undefined,
    links && links.follows.length + links.repeats.length > 0
      ? [
          ...links.follows.map((one) => `Follows ${one.title}: ${at(`/${one.number}/`)}`),
          ...links.repeats.map((one) => `Repeats ${one.title}: ${at(`/${one.number}/`)}`),
        ].join('\n')
      : undefined,
    moments.length > 0 ? moments.map((moment) => `${moment.at} ${moment.shows}`).join('\n') : undefined,
    [
      'Cautions',
      ...(foreseen.length > 0
        ? foreseen.map(
            (one) => `- ${one.consequence}${one.partners.length > 0 ? `: ${one.partners.join(' with ')}` : ''}`,
          )
        : []),
      ...(box.signalWord
        ? [
            `- Hazard statements of what is used or made (signal word ${box.signalWord}): ${box.statements.map(({ code, text }) => `${code} ${text}`).join(' ')}`,
          ]
        : []),
      ...(box.unknown.length > 0 ? [`- No hazard data for ${box.unknown.join(', ')}: treat as hazardous.`] : []),
      ...model.journal.settings.cautions.map((caution) => `- ${caution}`),
      '- This is a record of what was done, not a procedure to follow. Read the safety data sheets, keep to your local rules, and leave to licensed practice what is licensed. What is not named here is not thereby safe.',
    ].join('\n'),
    model.journal.settings['support-link']
      ? `${model.journal.settings['support-link'].name}: ${model.journal.settings['support-link'].url}`
      : undefined,
  ];
  return good({ address: at(`/${number}/`), text: paragraphs.filter(Boolean).join('\n\n') });
}
