// What each thing is by itself, whatever it meets: what its label would say.
import { reckonReagentBox } from '../../hazards/box-of-reagent.js';
import { othersDiffer, type HazardBox } from '../../hazards/ghs/index.js';
import type { ResolvedReagent } from '../../reagents/index.js';

const upTo = (words: string, last: string): string => `${words.replace(/\.$/, '')}${last}`;

/** `DANGER. Causes severe skin burns and eye damage. (H314)`; empty where nothing is classified. */
function statementsOf(box: HazardBox): string {
  const { statements, signalWord, notes = [] } = box;
  if (statements.length === 0) return '';
  const atFullStrength = notes.some(({ kind }) => kind === 'strength-not-given') ? ' (as undiluted)' : '';
  const signal = signalWord === undefined ? '' : `${signalWord.toUpperCase()}. `;
  const words = statements.map(({ text }) => upTo(text, '.')).join(' ');
  const elsewhere = othersDiffer(box).map(({ text }) => ` ${text}`);
  return `${atFullStrength}: ${signal}${words} (${statements.map(({ code }) => code).join(', ')})${elsewhere.join('')}`;
}

/**
 * What the labels of things would say, each in a line, those of which nothing is known in the last; empty where none of
 * them is classified.
 * @param reagents as resolved; what is not known by name is said elsewhere, and is left out
 * @example byThemselves([resolveNamed('barium chloride')])[1] // '  barium chloride: DANGER. Toxic if swallowed. …'
 */
export function byThemselves(reagents: readonly ResolvedReagent[]): readonly string[] {
  const known = new Map(reagents.filter(({ substance }) => substance).map((one) => [one.name, one]));
  const boxes = [...known.values()].map((one) => ({ name: one.name, box: reckonReagentBox(one) }));
  const told = boxes.flatMap(({ name, box }) => {
    const words = statementsOf(box);
    return words === '' ? [] : [`  ${name}${words}`];
  });
  const unknown = boxes.filter(({ box }) => box.unknown.length > 0).map(({ name }) => name);
  const lines = [
    ...told,
    ...(unknown.length > 0 ? [`  No hazard statements are known here of ${unknown.join(', ')}; see the sheet.`] : []),
  ];
  return lines.length > 0 ? ['By itself, whatever it meets, as a label would say:', ...lines] : [];
}
