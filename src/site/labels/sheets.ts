// Sheets of labels: which labels stand on which sheet, and what must be said with them.
import { bad, good, type Outcome } from '../../outcome.js';
import {
  isOnlyOfUn,
  othersDiffer,
  packRules,
  type Labelled,
  type LabelSizes,
  type Pack,
  type PackRules,
} from '../../reckoning/label.js';
import { quietZone, safeModule } from './code.js';
import { acrossOf, facesOf, type Face, type Faces, type Layout, type LineName } from './faces.js';
import { sheetOf, type Sheet } from './paper.js';

export interface Page {
  readonly sheet: Sheet;
  readonly faces: readonly Face[];
}

/** What must be said with the labels of one thing. */
export interface Notes {
  readonly of: string;
  readonly sentences: readonly string[];
}

/** The labels of one thing, as they were laid out. */
export interface LaidOut extends Faces {
  readonly labelled: Labelled;
  /** How many packs are labelled. */
  readonly count: number;
}

export interface LabelSheets {
  readonly title: string;
  readonly language: string;
  /** Of the labels of the packs. */
  readonly sheet: Sheet;
  readonly pages: readonly Page[];
  readonly labels: readonly LaidOut[];
  /** On all of them. */
  readonly general: readonly string[];
  readonly notes: readonly Notes[];
  /** Sentences on posting; never empty. */
  readonly transport: readonly Notes[];
}

export interface SheetsAsked {
  readonly title: string;
  readonly language: string;
  readonly maker: string;
  /** Origin and base path of the site: `https://copperas-lane.example/journal`. */
  readonly site: string;
  /** Sheets to try: the first on which each pack has one label, else the first on which they have room. */
  readonly sheets: readonly Sheet[];
  readonly pack: Pack;
  readonly amount?: string;
  /** Labels of each thing; default: as many as fill a sheet. */
  readonly count?: number;
}

/** Labels of one call at most, so that a slip of the finger does not fill the disk. */
export const mostLabels = 2000;

/** The rules of a pack of which nothing is left off. */
function completeRules(labelled: Labelled, pack: Pack): PackRules {
  const large = packRules(labelled.box, { ...pack, millilitres: 1000, layout: 'one-label' });
  return { ...large, sizes: packRules(labelled.box, pack).sizes };
}

/** What a pack must have on an outer label, where nothing is left off, by the rules of packs inside others. */
function outerRules(labelled: Labelled, pack: Pack): PackRules {
  const whole = completeRules(labelled, pack);
  const inner = packRules(labelled.box, { ...pack, layout: 'inner-pack' });
  return { ...whole, sizes: inner.sizes, elements: { ...whole.elements, rules: inner.elements.rules } };
}

function packPages(faces: readonly Face[], sheet: Sheet): readonly Page[] {
  const onSheet = sheet.columns * sheet.rows;
  return Array.from({ length: Math.ceil(faces.length / onSheet) }, (_, page) => ({
    sheet,
    faces: faces.slice(page * onSheet, (page + 1) * onSheet),
  }));
}

const repeated = <T>(one: T, times: number): readonly T[] => Array.from({ length: times }, () => one);

/** Faces of the pack itself on the sheet that was asked for, outer labels on sheets of their own size. */
function pagesOf(labels: readonly LaidOut[], sheet: Sheet): readonly Page[] {
  const own = labels.flatMap(({ faces, count }) =>
    repeated(
      faces.filter(({ kind }) => kind !== 'outer'),
      count,
    ).flat(),
  );
  const outer = labels.flatMap(({ faces, count }) => {
    const [face] = faces.filter(({ kind }) => kind === 'outer');
    return face ? repeated(face, count) : [];
  });
  const widths = [...new Set(outer.map(({ size }) => size.width))];
  const outerPages = widths.flatMap((width) => {
    const faces = outer.filter(({ size }) => size.width === width);
    const own = sheetOf(sheet.paper, faces[0]!.size);
    return own.ok ? packPages(faces, own.value) : [];
  });
  return [...packPages(own, sheet), ...outerPages];
}

const layoutSentences: Readonly<Record<Layout, string>> = {
  one: 'All stands on one label.',
  'front-and-hazards':
    'Each pack has two labels, side by side on the sheet: a front, and one of its hazards. Both go on the pack.',
  'pictograms-and-outer':
    'The label is too small for all that CLP asks for: each pack has a front and a label of pictograms, side by ' +
    'side, and an outer label on a sheet of its own, for a tag, a fold-out or the outer pack.',
};

const lineWords: Readonly<Partial<Record<LineName, string>>> = {
  remark: 'what the journal says beside its name',
  'swatch note': 'the swatch and its note',
  maker: 'the maker',
  amount: 'the amount',
  formula: 'formula and Colour Index name',
};

const list = (words: readonly string[]): string => words.join(', ');

function codeSentences({ faces, labelled }: LaidOut): readonly string[] {
  return faces.flatMap(({ code }) => {
    if (!code) return [];
    const { address, level, version } = code.code;
    const coarse =
      code.module < safeModule
        ? ` Below ${safeModule} mm a printer of 300 dpi is too coarse: print with 600 dpi, and try one before all.`
        : '';
    return [
      `The QR code of ${labelled.facts.id} leads to ${address}: version ${version}, error level ${level}, ` +
        `modules of ${code.module} mm, a quiet zone of ${quietZone} modules.${coarse}`,
    ];
  });
}

function ruleSentences({ elements }: PackRules): readonly string[] {
  return elements.rules.map(({ text, place, basis }) => `${text} (${place}${basis === 'seen' ? '' : `, ${basis}`})`);
}

function leftOffSentences({ rules: { elements }, layout, holdsAll }: LaidOut): readonly string[] {
  const { leftOff, mustStay, unknown } = elements;
  return [
    ...(unknown.length > 0
      ? [`Nothing is known of the hazards of ${list(unknown)}: the label says so, and nothing is left off it.`]
      : []),
    ...(leftOff.length > 0 ? [`Left off by the rules of small packages: ${list(leftOff)}.`] : []),
    ...(leftOff.length > 0 && holdsAll
      ? [`A label, a fold-out or a tag of ${holdsAll.width} by ${holdsAll.height} mm holds all of it.`]
      : []),
    ...(mustStay.length > 0 && layout !== 'pictograms-and-outer' ? [`May not be left off: ${list(mustStay)}.`] : []),
  ];
}

/** Whose statements stand on the label that CLP does not have, and where others differ. */
function authoritySentences({ box }: Labelled): readonly string[] {
  const ofUn = box.statements.filter(({ code }) => isOnlyOfUn(code));
  const sources = [...new Set(ofUn.flatMap(({ origins = [] }) => origins.map(({ source }) => source)))];
  const codes = list(ofUn.map(({ code }) => code));
  return [
    ...(ofUn.length > 0
      ? [`Of the UN’s GHS and not of CLP, and marked so on the label: ${codes} (${list(sources)}).`]
      : []),
    ...othersDiffer(box).map(({ sentence }) => sentence),
  ];
}

function packagingSentences({ packaging }: PackRules): readonly string[] {
  const { tactileWarning, childResistantClosure, rules } = packaging;
  const needs = [
    ...(tactileWarning ? ['a raised triangle that can be felt'] : []),
    ...(childResistantClosure ? ['a child-resistant closure'] : []),
  ];
  if (needs.length === 0) return [];
  return [
    `Where it reaches the public the pack needs ${needs.join(' and ')} (${list(rules.map(({ place }) => place))}).`,
  ];
}

function notesOf(label: LaidOut): Notes {
  const { rules, layout, leftOut, labelled } = label;
  return {
    of: `${labelled.facts.name}, ${labelled.facts.id}`,
    sentences: [
      layoutSentences[layout],
      ...(leftOut.length > 0 ? [`There was no room for ${list(leftOut.map((one) => lineWords[one] ?? one))}.`] : []),
      ...leftOffSentences(label),
      ...authoritySentences(labelled),
      ...ruleSentences(rules),
      ...packagingSentences(rules),
      ...codeSentences(label),
    ],
  };
}

/** How large pictograms are, and where they could not be as large as is asked for. */
function pictogramSentence(labels: readonly LaidOut[], { least, ifPossible }: LabelSizes['pictogram']): string {
  const printed = labels.flatMap(({ faces }) => faces).filter(({ pictograms }) => pictograms.length > 0);
  const large = `sides of ${ifPossible} mm, as is asked for where there is room`;
  const small = `sides of ${least} mm, the least that is allowed`;
  const across = (side: number): string => `${acrossOf(side)} mm across their points`;
  if (printed.every(({ pictogramSide }) => pictogramSide >= ifPossible))
    return `Pictograms have ${large}: ${across(ifPossible)}.`;
  if (printed.every(({ pictogramSide }) => pictogramSide < ifPossible))
    return `Pictograms have ${small}: ${across(least)}. There is no room for ${ifPossible} mm, which are asked for.`;
  return `Pictograms have ${large}, ${across(ifPossible)}; where there is none ${small}, ${across(least)}.`;
}

function generalSentences({ pack }: SheetsAsked, sheet: Sheet, labels: readonly LaidOut[]): readonly string[] {
  const { sizes } = labels[0]!.rules;
  const { label, pictogram } = sizes;
  const small = sheet.label.width * sheet.label.height < label.width * label.height;
  const pictured = labels.some(({ rules }) => rules.elements.pictograms.length > 0);
  return [
    'Print at 100 %, not fitted to the page, and measure one label before cutting all.',
    `Reckoned for a pack of up to ${pack.millilitres} mL${pack.forPublic ? ' that reaches the public' : ''}.`,
    ...(small
      ? [
          `CLP asks for a label of ${label.width} by ${label.height} mm where that is possible; these are ` +
            `${sheet.label.width} by ${sheet.label.height} mm (${sizes.source}).`,
        ]
      : []),
    ...(pictured ? [pictogramSentence(labels, pictogram)] : []),
    'Address and telephone number of the supplier are written by hand: a journal that is published does not hold them.',
    'A UFI is not printed: who sells a mixture that must be notified makes one and adds it.',
    'The swatch is a screen colour of the reading; no printer prints it truly.',
    'The hazards are an aid with gaps: what is not named is not thereby safe. The safety data sheet, the law where ' +
      'the pack is handed over and licensed practice come first.',
  ];
}

const transportOf = ({ labelled, rules }: LaidOut): Notes => ({
  of: `${labelled.facts.name}, ${labelled.facts.id}`,
  sentences: rules.transport.words,
});

type Unnumbered = Omit<LaidOut, 'count'>;

/** The labels of each thing on a sheet, or why they have no room there. */
function laidOn(
  sheet: Sheet,
  things: readonly Labelled[],
  { pack, site, maker, amount }: SheetsAsked,
): Outcome<readonly Unnumbered[]> {
  const laidOut: Unnumbered[] = [];
  for (const labelled of things) {
    const rules = packRules(labelled.box, pack);
    const content = {
      labelled,
      rules,
      maker,
      address: `${site}${labelled.facts.address}`,
      ...(amount !== undefined && { amount }),
    };
    const full = { onPack: completeRules(labelled, pack), outer: outerRules(labelled, pack) };
    const faces = facesOf(content, full, sheet.label);
    if (!faces.ok) return faces;
    laidOut.push({ ...faces.value, labelled });
  }
  return good(laidOut);
}

/**
 * The first sheet on which each pack has one label with nothing left off, or two; else the first with one;
 * else the first on which there is room at all.
 */
function onBestSheet(
  things: readonly Labelled[],
  asked: SheetsAsked,
): Outcome<{ readonly sheet: Sheet; readonly laidOut: readonly Unnumbered[] }> {
  const tried = asked.sheets.map((sheet) => ({ sheet, outcome: laidOn(sheet, things, asked) }));
  const fitting = tried.flatMap(({ sheet, outcome }) => (outcome.ok ? [{ sheet, laidOut: outcome.value }] : []));
  const outerAmong = (laidOut: readonly Unnumbered[]): boolean =>
    laidOut.some(({ layout }) => layout === 'pictograms-and-outer');
  const complete = fitting.filter(({ laidOut }) => laidOut.every(({ rules }) => rules.elements.leftOff.length === 0));
  const onOne = (some: typeof fitting): (typeof fitting)[number] | undefined =>
    some.find(({ laidOut }) => laidOut.every(({ layout }) => layout === 'one'));
  const best =
    onOne(complete) ??
    complete.find(({ laidOut }) => !outerAmong(laidOut)) ??
    onOne(fitting) ??
    fitting.find(({ laidOut }) => !outerAmong(laidOut)) ??
    fitting[0];
  if (best) return good(best);
  const last = tried.at(-1)!.outcome;
  return last.ok ? good({ sheet: tried.at(-1)!.sheet, laidOut: last.value }) : last;
}

/** Lays out the labels of some things. Errors: `label-too-small`, `too-many`, `nothing-to-label`. */
export function labelSheets(things: readonly Labelled[], asked: SheetsAsked): Outcome<LabelSheets> {
  if (things.length === 0)
    return bad({
      code: 'nothing-to-label',
      message: 'There is nothing here to be labelled.',
      cure: 'Labels are made of the samples of an entry, of a lot or of a jar of the shelf.',
    });
  const best = onBestSheet(things, asked);
  if (!best.ok) return best;
  const { sheet, laidOut } = best.value;
  const cells = laidOut.reduce((sum, { faces }) => sum + faces.filter(({ kind }) => kind !== 'outer').length, 0);
  const count = asked.count ?? Math.max(1, Math.floor((sheet.columns * sheet.rows) / cells));
  if (count * cells > mostLabels)
    return bad({
      code: 'too-many',
      message: `${count * cells} labels are more than are made at once.`,
      cure: `Ask for ${mostLabels} at most.`,
    });
  const labels = laidOut.map((one) => ({ ...one, count }));
  return good({
    title: asked.title,
    language: asked.language,
    sheet,
    pages: pagesOf(labels, sheet),
    labels,
    general: generalSentences(asked, sheet, labels),
    notes: labels.map(notesOf),
    transport: labels.map(transportOf),
  });
}
