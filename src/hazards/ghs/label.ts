// What goes on the label of a pack.
import { smallPacksTable } from '../../tables/compiled/hazards/ghs/small-packs.js';
import type { HazardBox, LabelStatement, SignalWord } from './contracts.js';
import { byStatementCode } from './hazard-box.js';
import { rootCode } from './hazard-classes.js';
import { precautionsFor } from './precautions.js';
import { wording } from './statements.js';

/** Label of a small pack. */
export interface LabelElements {
  readonly pictograms: readonly string[];
  readonly signalWord?: SignalWord;
  readonly statements: readonly LabelStatement[];
  readonly precautionary: readonly LabelStatement[];
  /** Statements that the rule allows to leave off this size of pack. */
  readonly leftOff: readonly string[];
  /** The rule used, with its basis. */
  readonly rules: readonly string[];
  readonly unknown: readonly string[];
}

const acuteFamilies = [
  ['H300', 'H310', 'H330'],
  ['H301', 'H311', 'H331'],
  ['H302', 'H312', 'H332'],
  ['H303', 'H313', 'H333'],
];

/** Acute toxicity of one category, by several routes, in one sentence: `H301+H311`. */
function combineFamily(statements: readonly LabelStatement[], family: readonly string[]): readonly LabelStatement[] {
  const parts = family.flatMap((code) => statements.find((one) => one.code === code) ?? []);
  const code = parts.map((part) => part.code).join('+');
  const text = parts.length > 1 ? wording(code) : undefined;
  if (!text) return statements;
  const together: LabelStatement = {
    code,
    text,
    from: [...new Set(parts.flatMap((part) => part.from))],
    origins: parts.flatMap((part) => part.origins ?? []),
  };
  return [...statements.filter((one) => !parts.includes(one)), together].sort(byStatementCode);
}

const combineAcute = (statements: readonly LabelStatement[]): readonly LabelStatement[] =>
  acuteFamilies.reduce(combineFamily, statements);

/**
 * What goes on the label of a pack: all of it above 125 mL; on a smaller one the statements of the milder classes may
 * be left off, never those of grave ones, of unknown substances, or the pictograms.
 * Source: CLP Article 29 and Annex I 1.5, from memory (each rule says so).
 * @param packMillilitres volume of the pack, mL
 * @param forPublic whether it goes to the public, as a vial posted to a supporter does; then fewer statements may go
 */
export function labelElements(box: HazardBox, packMillilitres: number, forPublic = true): LabelElements {
  const rows = smallPacksTable().filter((row) => packMillilitres <= row.up_to_ml && (row.public || !forPublic));
  const droppable = box.unknown.length > 0 ? [] : rows;
  const rulesFor = (one: LabelStatement) => droppable.filter((row) => row.code === rootCode(one.code));
  const off = box.statements.filter((one) => rulesFor(one).length > 0);
  const kept = box.statements.filter((one) => !off.includes(one));
  const withoutPictograms =
    off.length > 0 && box.statements.every((one) => rulesFor(one).some((row) => row.pictogram_too));
  const isWanted = (one: LabelStatement): boolean =>
    kept.some((left) => precautionsFor(left.code).some((row) => row.code === one.code)) ||
    (one.origins ?? []).some((origin) => origin.basis === 'sds');
  const noRule =
    packMillilitres <= 125
      ? 'CLP Annex I 1.5.2, from memory: nothing may be left off here'
      : 'full label: the pack is over 125 mL (CLP Annex I 1.5.2, from memory)';
  return {
    pictograms: withoutPictograms ? [] : box.pictograms,
    ...(box.signalWord && { signalWord: box.signalWord }),
    statements: combineAcute(kept),
    precautionary: box.precautionary.filter((one) => one.first && isWanted(one)),
    leftOff: off.map((one) => one.code),
    rules: off.length > 0 ? [...new Set(off.flatMap(rulesFor).map((row) => row.source))] : [noRule],
    unknown: box.unknown,
  };
}
