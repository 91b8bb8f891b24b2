// The words that pages show, for search: values in place, never markup.
import { looksWords } from '../../templates/parts/looks.js';
import type { Entry } from '../journal/entry.js';
import { statusReason } from '../journal/index.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { typesetOf } from '../reckoning/typeset.js';
import { valuesOf } from './values.js';

const formulaWords = (written: string): string =>
  typesetOf(written)
    .runs.map(({ text }) => text)
    .join('');

/**
 * A body's words as its page shows them: marks of Markdown left out, values and moments in place.
 * @example shownWords('It is **:value[A.yield]**.', values, []) // 'It is 91.2 ± 0.4 %.'
 */
export function shownWords(
  markdown: string,
  values: ReadonlyMap<string, string> = new Map(),
  moments: readonly { readonly at: string; readonly shows: string }[] = [],
): string {
  return markdown
    .replace(/<!--[\s\S]*?-->/g, ' ')
    .replace(/:chem\[((?:[^[\]]|\[[^[\]]*\])*)\]/g, (_, written: string) => formulaWords(written))
    .replace(/:value\[([^\]]*)\]/g, (_, name: string) => values.get(name.trim()) ?? '')
    .replace(/:moment\[([^\]]*)\]/g, (_, at: string) => moments.find((one) => one.at === at.trim())?.shows ?? at)
    .replace(/:swatch\[([^\]]*)\]/g, '$1')
    .replace(/!?\[([^\]]*)\](?:\([^)]*\)|\[[^\]]*\])/g, '$1')
    .replace(/^\[[^\]]+\]:.*$/gm, ' ')
    .replace(/\[\^[^\]]+\]:?/g, ' ')
    .replace(/^\s{0,3}(?:#{1,6}|>|[-*+]|\d+[.)])\s+/gm, ' ')
    .replace(/^[\s|:-]*-{3,}[\s|:-]*$/gm, ' ')
    .replace(/\\([!-/:-@[-`{-~])/g, '$1')
    .replace(/[*_`~|]+/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/ ([.,;:!?])/g, '$1')
    .trim();
}

const withStop = (part: string): string => (/[.!?…:;]$/.test(part) ? part : `${part}.`);

/** Parts as one text, each closed by a stop, so that an excerpt does not run them together. */
export const together = (parts: readonly (string | undefined)[]): string =>
  parts
    .filter((part): part is string => part !== undefined && part.trim() !== '')
    .map(withStop)
    .join(' ');

const stepWords = (step: NonNullable<Entry['steps']>[number]): readonly (string | undefined)[] =>
  typeof step === 'string' ? [step] : [step.do, step['look-for'], step.careful];

/** The words that the page of an entry shows, its title apart. */
export function entryWords(reckoned: ReckonedEntry): string {
  const { entry, amounts, appearance, dangers } = reckoned;
  const moments = entry.videos.flatMap((video) => video.moments);
  return together([
    entry.question,
    entry.answer,
    entry.withdrawn,
    statusReason(entry),
    shownWords(entry.body, valuesOf(reckoned), moments),
    ...(entry.steps ?? []).flatMap(stepWords),
    ...entry.samples.flatMap(({ sample, differs, note, looks }) => [
      differs && `${sample}: ${differs}`,
      looksWords(looks),
      note,
    ]),
    ...entry.corrections.map(({ what }) => what),
    ...entry.incidents.flatMap(({ what, learned }) => [what, learned]),
    ...entry.precautions.flatMap((one) => [`${one.against}: ${one.do}`]),
    entry['if-it-goes-wrong'],
    ...(dangers.foreseen ?? []).map(({ consequence, title }) => `${consequence}: ${title}`),
    ...(amounts.comparisons ?? []).map(({ verdict }) => verdict),
    ...appearance.samples.flatMap(({ sample, lampMove, opacity, tests = [] }) => [
      // That a colour hardly moves is nothing to find it by.
      lampMove && lampMove.directions.length > 0 ? `${sample} ${lampMove.text}` : undefined,
      opacity && `${sample} ${opacity.word}`,
      ...tests.map(({ name, text }) => `${name} ${text}`),
    ]),
    ...(appearance.pairs ?? []).flatMap(({ verdict, metameric }) => [verdict.words, metameric?.sentence]),
    entry.waste,
    ...entry.ideas,
    ...moments.map(({ shows }) => shows),
    ...entry.sources.map(({ cite }) => cite),
  ]);
}
