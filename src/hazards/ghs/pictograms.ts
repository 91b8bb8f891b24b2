// Which pictograms and which signal word a set of hazard classes carries, by the precedence of the GHS and of CLP.
import { labelOf } from './hazard-classes.js';
import type { HazardClass, SignalWord } from './contracts.js';

/** Names of the pictograms, as the UN GHS names their symbols. */
export const pictogramNames: Readonly<Record<string, string>> = {
  GHS01: 'exploding bomb',
  GHS02: 'flame',
  GHS03: 'flame over circle',
  GHS04: 'gas cylinder',
  GHS05: 'corrosion',
  GHS06: 'skull and crossbones',
  GHS07: 'exclamation mark',
  GHS08: 'health hazard',
  GHS09: 'environment',
};

const skinOrEyeIrritation = new Set(['Skin Irrit.', 'Eye Irrit.']);
const skinOrEyeCorrosion = new Set(['Skin Corr.', 'Eye Dam.']);

/**
 * Pictograms left after precedence, in order of number.
 * GHS06 drops GHS07; GHS05 for skin or eyes drops a GHS07 that stands for skin or eye irritation only; GHS08 for
 * respiratory sensitisation drops a GHS07 that stands for skin sensitisation, skin or eye irritation only.
 * GHS02, GHS03 beside GHS01 and GHS04 beside GHS02 or GHS06 may be left out of a label; here they stay.
 * Source: UN GHS 1.4.10.5.3.1 and CLP Article 26 (numbers from memory; checked there on the entries of Annex VI,
 * ATP17).
 * @example pictogramsOf([{ hazardClass: 'Acute Tox.', category: '3', route: 'oral', code: 'H301' }]) // ['GHS06']
 */
export function pictogramsOf(held: readonly HazardClass[]): readonly string[] {
  const reasons = new Map<string, HazardClass[]>();
  for (const one of held) {
    for (const pictogram of labelOf(one)?.pictograms ?? [])
      reasons.set(pictogram, [...(reasons.get(pictogram) ?? []), one]);
  }
  const corrodes = (reasons.get('GHS05') ?? []).some((one) => skinOrEyeCorrosion.has(one.hazardClass));
  const sensitises = (reasons.get('GHS08') ?? []).some((one) => one.hazardClass === 'Resp. Sens.');
  const covered = (one: HazardClass): boolean =>
    (skinOrEyeIrritation.has(one.hazardClass) && (corrodes || sensitises)) ||
    (one.hazardClass === 'Skin Sens.' && sensitises);
  if (reasons.has('GHS06') || (reasons.get('GHS07') ?? []).every(covered)) reasons.delete('GHS07');
  return [...reasons.keys()].sort();
}

/** The graver of several signal words. */
export function graverWord(words: readonly (SignalWord | undefined)[]): SignalWord | undefined {
  if (words.includes('Danger')) return 'Danger';
  return words.includes('Warning') ? 'Warning' : undefined;
}

/**
 * The one signal word: Danger if any class asks for it.
 * Source: CLP Article 20(3), UN GHS 1.4.10.5.3.2 (numbers from memory).
 * @example signalWordOf([]) // undefined
 */
export function signalWordOf(
  held: readonly HazardClass[],
  supplementary: readonly string[] = [],
): SignalWord | undefined {
  const words = [...held, ...supplementary.map((code): HazardClass => ({ hazardClass: '', category: '', code }))].map(
    (one) => labelOf(one)?.signalWord,
  );
  return graverWord(words);
}

/**
 * Statements left on one substance's label: H410 stands for H400, H314 for H318.
 * Source: CLP Article 27 and Annex III (numbers from memory; checked there on the entries of Annex VI, ATP17).
 */
export function labelCodesOf(codes: readonly string[]): readonly string[] {
  return codes.filter(
    (code) => !(code === 'H400' && codes.includes('H410')) && !(code === 'H318' && codes.includes('H314')),
  );
}
