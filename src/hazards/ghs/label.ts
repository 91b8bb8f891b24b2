// What goes on the label of a pack, and what a small one may leave off. Rules: CLP Article 29 and Annex I 1.5, each
// with its basis in small-packages.csv.
import { labelSizesTable } from '../../tables/compiled/hazards/ghs/label-sizes.js';
import { smallPackagesTable, type SmallPackagesRow } from '../../tables/compiled/hazards/ghs/small-packages.js';
import type { HazardBox, LabelStatement, SignalWord } from './contracts.js';
import { byStatementCode } from './hazard-box.js';
import { classLabels, rootCode } from './hazard-classes.js';
import { precautionsFor } from './precautions.js';
import { wording } from './statements.js';

/** A pack and where its label stands. */
export interface Pack {
  /** What it holds at most, mL. */
  readonly millilitres: number;
  /** It reaches the general public, as what is posted to supporters does; then fewer statements may go. */
  readonly forPublic: boolean;
  /**
   * `one-label`: all on the pack. `inner-pack`: a fold-out label, a tag or an outer pack carries the full label, this
   * is what the pack itself must bear. `research-vial`: up to 10 mL for research or quality control in a labelled outer
   * pack.
   */
  readonly layout: 'one-label' | 'inner-pack' | 'research-vial';
}

/** A rule that was used, in words, with its place in CLP and whether that text was read. */
export interface LabelRule {
  readonly id: string;
  readonly text: string;
  readonly place: string;
  readonly basis: 'seen' | 'derived' | 'memory';
  readonly source: string;
  readonly url: string;
}

export interface LabelElements {
  readonly pictograms: readonly string[];
  readonly signalWord?: SignalWord;
  readonly statements: readonly LabelStatement[];
  readonly precautionary: readonly LabelStatement[];
  /** Hazard statements that a rule allows to leave off this pack. */
  readonly leftOff: readonly string[];
  /** Hazard statements that stay however small the pack is. */
  readonly mustStay: readonly string[];
  /** A pictogram or the signal word is left off too. */
  readonly signalsLeftOff: boolean;
  readonly rules: readonly LabelRule[];
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

const ruleOf = (row: SmallPackagesRow): LabelRule => ({
  id: row.rule,
  text: row.text,
  place: `CLP ${row.place}`,
  basis: row.basis,
  source: row.source_title,
  url: row.source_url,
});

const fits = (row: SmallPackagesRow, { millilitres, forPublic }: Pack): boolean =>
  (row.up_to_ml === undefined || millilitres <= row.up_to_ml) && (row.public || !forPublic);

const rowsOf = (topic: SmallPackagesRow['topic'], pack: Pack): readonly SmallPackagesRow[] =>
  smallPackagesTable().filter((row) => row.topic === topic && fits(row, pack));

/** Rows about a statement. */
const about = (rows: readonly SmallPackagesRow[], { code }: LabelStatement): readonly SmallPackagesRow[] =>
  rows.filter((row) => row.codes.includes(rootCode(code)));

/** Beside what is not known, or only read across from other compounds, nothing is left off. */
const isAllKnown = ({ unknown, substances = [] }: HazardBox): boolean =>
  unknown.length === 0 && substances.every((one) => one.found !== 'by-element');

/** Precautionary statements that go with some hazard statements, or that a maker's sheet prints; the few of a label. */
const precautionsOf = (box: HazardBox, hazards: readonly LabelStatement[]): readonly LabelStatement[] =>
  box.precautionary.filter(
    (one) =>
      one.first &&
      (hazards.some((left) => precautionsFor(left.code).some((advice) => advice.code === one.code)) ||
        (one.origins ?? []).some((origin) => origin.basis === 'sds')),
  );

const pictogramsFor = (statements: readonly LabelStatement[]): ReadonlySet<string> => {
  const codes = new Set(statements.map(({ code }) => rootCode(code)));
  return new Set(classLabels().flatMap((label) => (codes.has(label.code) ? label.pictograms : [])));
};

/** Pictograms without those that only relieved statements ask for. */
function pictogramsLeft(
  box: HazardBox,
  relieved: readonly LabelStatement[],
  others: readonly LabelStatement[],
): readonly string[] {
  const [asked, stay] = [pictogramsFor(relieved), pictogramsFor(others)];
  return box.pictograms.filter((pictogram) => !asked.has(pictogram) || stay.has(pictogram));
}

/** All on one label, less what the size of the pack allows. */
function oneLabel(box: HazardBox, pack: Pack): LabelElements {
  const reliefs = isAllKnown(box) ? rowsOf('leave out', pack) : [];
  const leaves = (statement: LabelStatement, part: SmallPackagesRow['leaves_out'][number]): boolean =>
    about(reliefs, statement).some((row) => row.leaves_out.includes(part));
  const off = box.statements.filter((one) => leaves(one, 'H'));
  const kept = box.statements.filter((one) => !off.includes(one));
  const withAdvice = kept.filter((one) => !leaves(one, 'P'));
  const bare = box.statements.filter((one) => leaves(one, 'pictogram'));
  const dressed = box.statements.filter((one) => !bare.includes(one));
  const withoutWord = box.statements.length > 0 && box.statements.every((one) => leaves(one, 'signal word'));
  const pictograms = pictogramsLeft(box, bare, dressed);
  const used = box.statements.flatMap((one) => about(reliefs, one));
  const conditions = used.length > 0 ? rowsOf('condition', pack) : [];
  const noRelief = box.statements.flatMap((one) => about(rowsOf('no relief', pack), one));
  return {
    pictograms,
    ...(box.signalWord && !withoutWord && { signalWord: box.signalWord }),
    statements: combineAcute(kept),
    precautionary: precautionsOf(box, withAdvice),
    leftOff: off.map((one) => one.code),
    mustStay: kept.map((one) => one.code),
    signalsLeftOff: withoutWord || pictograms.length < box.pictograms.length,
    rules: [...new Set([...conditions, ...used, ...noRelief])].map(ruleOf),
    unknown: box.unknown,
  };
}

const bareOf = (box: HazardBox, pictograms: readonly string[], rows: readonly SmallPackagesRow[]): LabelElements => ({
  pictograms,
  statements: [],
  precautionary: [],
  leftOff: box.statements.map((one) => one.code),
  mustStay: [],
  signalsLeftOff: box.signalWord !== undefined || pictograms.length < box.pictograms.length,
  rules: rows.map(ruleOf),
  unknown: box.unknown,
});

/** Source: CLP Annex I 1.5.2.4.2, from memory. */
const onResearchVials = new Set(['GHS01', 'GHS05', 'GHS06', 'GHS08']);

/**
 * What goes on the label of a pack: all of it above 125 mL; on a smaller one the statements of the milder classes may
 * be left off, never those of grave ones. Beside what is unknown nothing is. `rules` says by which rule, and whether
 * its text was read; whoever labels decides whether even a tag or an outer pack cannot hold the full label.
 * @example labelElements(hazardBox([]), { millilitres: 10, forPublic: true, layout: 'one-label' }).statements // []
 */
export function labelElements(box: HazardBox, pack: Pack): LabelElements {
  const vial = rowsOf('research vial', pack);
  if (pack.layout === 'inner-pack') return bareOf(box, box.pictograms, rowsOf('layout', pack));
  if (pack.layout === 'research-vial' && vial.length > 0)
    return bareOf(
      box,
      box.pictograms.filter((pictogram) => onResearchVials.has(pictogram)),
      vial,
    );
  return oneLabel(box, pack);
}

/** What a pack needs besides its label. */
export interface PackagingNeeds {
  readonly tactileWarning: boolean;
  readonly childResistantClosure: boolean;
  readonly rules: readonly LabelRule[];
}

/**
 * A raised triangle and a child-resistant closure, which no small size waives. What is unknown needs both.
 * @example packagingNeeds(hazardBox([{ name: 'sodium hydroxide' }]), true).childResistantClosure // true
 */
export function packagingNeeds(box: HazardBox, forPublic: boolean): PackagingNeeds {
  const pack: Pack = { millilitres: 0, forPublic, layout: 'one-label' };
  const needed = (topic: SmallPackagesRow['topic']): readonly SmallPackagesRow[] =>
    forPublic
      ? rowsOf(topic, pack).filter(
          (row) => box.unknown.length > 0 || box.statements.some((one) => about([row], one).length > 0),
        )
      : [];
  const [tactile, closure] = [needed('tactile warning'), needed('child-resistant closure')];
  return {
    tactileWarning: tactile.length > 0,
    childResistantClosure: closure.length > 0,
    rules: [...tactile, ...closure].map(ruleOf),
  };
}

/** The least sizes on a label, mm. */
export interface LabelSizes {
  readonly label: { readonly width: number; readonly height: number };
  /** Sides of a pictogram's frame. */
  readonly pictogram: { readonly least: number; readonly ifPossible: number };
  /** Height of a small x, and from when on it is asked for. */
  readonly xHeight: { readonly least: number; readonly from: string };
  readonly note: string;
  readonly source: string;
  readonly basis: 'seen' | 'memory';
}

/**
 * The least sizes by what a pack holds. Source: CLP Annex I 1.2.1.4, Table 1.3.
 * @example labelSizes(10).pictogram // { least: 10, ifPossible: 16 }
 */
export function labelSizes(millilitres: number): LabelSizes {
  const row = labelSizesTable().find(({ up_to_ml: upTo }) => upTo === undefined || millilitres <= upTo)!;
  return {
    label: { width: row.label_width_mm, height: row.label_height_mm },
    pictogram: { least: row.pictogram_mm, ifPossible: row.pictogram_if_possible_mm },
    xHeight: { least: row.x_height_mm, from: row.x_height_from },
    note: row.note,
    source: row.source_title,
    basis: row.basis,
  };
}
