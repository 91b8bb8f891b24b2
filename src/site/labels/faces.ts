// What stands on which label of a pack: all on one, on a front and a label of hazards, or, where even that is too
// small, the pictograms on the pack and the rest on an outer label. Lengths in mm.
import { bad, good, type Outcome } from '../../outcome.js';
import type { Labelled, PackRules } from '../../reckoning/label.js';
import type { Typeset } from '../../reckoning/typeset.js';
import { addressCode, moduleSizes, modulesAcross, safeModule, type AddressCode, type ErrorLevel } from './code.js';
import { linesOf, textWidth } from './lettering.js';
import type { Size } from './paper.js';

/** Parts of a label that are words, by what they are. */
export type LineName =
  | 'name'
  | 'number'
  | 'formula'
  | 'amount'
  | 'maker'
  | 'telephone'
  | 'swatch note'
  | 'remark'
  | 'remains'
  | 'signal word'
  | 'hazard'
  | 'advice'
  | 'unknown';

export interface Line {
  readonly as: LineName;
  readonly text: string;
  /** Set before the text. */
  readonly formula?: Typeset;
}

export type FaceKind = 'whole' | 'front' | 'hazards' | 'pictograms' | 'outer';

/** One printed label. */
export interface Face {
  readonly kind: FaceKind;
  readonly size: Size;
  readonly lines: readonly Line[];
  /** Words over the whole width, below the others. */
  readonly below?: readonly Line[];
  readonly pictograms: readonly string[];
  /** Columns in which the pictograms stand. */
  readonly pictogramColumns: number;
  /** Length of their sides, mm. */
  readonly pictogramSide: number;
  readonly code?: { readonly code: AddressCode; readonly module: number; readonly side: number };
  readonly swatch?: { readonly hex: string; readonly width: number; readonly height: number };
}

export type Layout = 'one' | 'front-and-hazards' | 'pictograms-and-outer';

/** The labels of one pack. */
export interface Faces {
  readonly layout: Layout;
  /** What is left off, and by which rules. */
  readonly rules: PackRules;
  /** Where something is left off: the size of a label that holds all. */
  readonly holdsAll?: Size;
  readonly faces: readonly Face[];
  /** Names of lines that there was no room for. */
  readonly leftOut: readonly LineName[];
}

/** What is to be laid out. */
export interface Content {
  readonly labelled: Labelled;
  readonly rules: PackRules;
  /** Whole address of what is labelled. */
  readonly address: string;
  readonly maker: string;
  readonly amount?: string;
}

export const padding = 1.2;
export const gap = 1;
/**
 * A pictogram stands on its point: with sides of 10 mm, 1 cm², it is 14.15 mm across. The least size is that of its
 * sides. Source: CLP Annex I 1.2.1.3 and Table 1.3, reachonline.eu/clp/en/annex-i-1-1.2-1.2.1.html (seen).
 */
export const acrossOf = (side: number): number => Math.ceil(side * Math.SQRT2 * 100) / 100;
export const swatchHeight = 4;
const leading = 1.16;

/**
 * Type sizes, mm. Of the warnings the small x is at least 1.2 mm high (CLP Annex I 1.2.1.5, see `labelSizes`): of
 * Commissioner it is 0.495 of the type size.
 */
export const typeSizes: Readonly<Record<LineName, number>> = {
  name: 2.9,
  number: 2.3,
  formula: 2.3,
  amount: 2.1,
  maker: 2.1,
  telephone: 2.1,
  'swatch note': 1.9,
  remark: 2.1,
  remains: 2.45,
  'signal word': 3,
  hazard: 2.45,
  advice: 2.45,
  unknown: 2.45,
};

const spoken = ({ formula, text }: Line): string => `${formula?.runs.map((run) => run.text).join('') ?? ''}${text}`;

/** Height that lines take in a column, mm; infinite where the longest word does not fit. */
export function heightOf(lines: readonly Line[], column: number): number {
  return lines.reduce((sum, line) => {
    const size = typeSizes[line.as];
    const longest = Math.max(
      0,
      ...spoken(line)
        .split(/\s+/)
        .map((word) => textWidth(word, size)),
    );
    if (longest > column && longest > 0) return Infinity;
    return sum + linesOf(spoken(line), size, column) * size * leading;
  }, 0);
}

/** Lines in the order in which they are given up, where there is no room; all others stay. */
const dispensable = ['remark', 'maker', 'swatch note', 'amount', 'formula'] as const;

function identity({ labelled, maker, amount }: Content): readonly Line[] {
  const { name, id, date, formula, colourIndex, lines, swatch, remains } = labelled.facts;
  const behind = colourIndex === undefined ? '' : ` ${colourIndex}`;
  return [
    { as: 'name', text: name },
    { as: 'number', text: [id, date].filter((part) => part !== undefined).join(' · ') },
    ...(formula ? [{ as: 'formula', text: behind, formula } as const] : []),
    ...(!formula && colourIndex !== undefined ? [{ as: 'formula', text: colourIndex } as const] : []),
    ...lines.map((text) => ({ as: 'remark', text }) as const),
    ...(swatch ? [{ as: 'swatch note', text: swatch.said } as const] : []),
    { as: 'amount', text: `Amount: ${amount ?? '______ g'}` },
    { as: 'maker', text: maker },
    ...(remains.length > 0 ? [{ as: 'remains', text: `May hold remains of ${remains.join(', ')}.` } as const] : []),
  ];
}

const hasHazards = ({ elements }: PackRules): boolean =>
  elements.pictograms.length + elements.statements.length + elements.unknown.length + elements.leftOff.length > 0;

/** The words of the hazards, in the order in which they are read. */
function warnings({ rules }: Content): readonly Line[] {
  const { signalWord, statements, precautionary, unknown } = rules.elements;
  if (!hasHazards(rules))
    return [{ as: 'unknown', text: 'No hazard statement is known for it; that does not make it safe.' }];
  return [
    ...(signalWord ? [{ as: 'signal word', text: signalWord } as const] : []),
    ...(unknown.length > 0 ? [{ as: 'unknown', text: 'Hazards unknown: treat as hazardous.' } as const] : []),
    ...statements.map(({ code, text }) => ({ as: 'hazard', text: `${code} ${text}` }) as const),
    ...precautionary.map(({ code, text }) => ({ as: 'advice', text: `${code} ${text}` }) as const),
    { as: 'telephone', text: 'Address, tel.: ______________' },
  ];
}

const without = (lines: readonly Line[], names: readonly LineName[]): readonly Line[] =>
  lines.filter(({ as }) => !names.includes(as));

interface Pictured {
  readonly columns: number;
  readonly width: number;
}

/** Columns in which pictograms stand below one another; none where one alone is too high. */
function pictured(count: number, across: number, height: number): Pictured | undefined {
  if (count === 0) return { columns: 0, width: 0 };
  const inColumn = Math.floor((height + 1e-6) / across);
  if (inColumn === 0) return undefined;
  const columns = Math.ceil(count / inColumn);
  return { columns, width: columns * across + gap };
}

interface CodeTried {
  readonly code: AddressCode;
  readonly module: number;
  readonly side: number;
}

/** Codes of an address from the most readable to the least. */
function codesOf(address: string, levels: readonly ErrorLevel[], least: number): readonly CodeTried[] {
  return levels.flatMap((level) => {
    const code = addressCode(address, level);
    return moduleSizes
      .filter((module) => module >= least)
      .map((module) => ({ code, module, side: module * modulesAcross(code) }));
  });
}

interface Room {
  readonly width: number;
  readonly height: number;
}
const roomIn = ({ width, height }: Size): Room => ({ width: width - 2 * padding, height: height - 2 * padding });

interface FaceParts {
  readonly lines: readonly Line[];
  readonly pictograms: readonly string[];
  /** Of a pictogram, mm. */
  readonly side: number;
  readonly swatch?: string;
}

/** A front: a code with the swatch below it, and words beside it; undefined where they do not fit. */
function frontFace(
  size: Size,
  { lines, swatch }: Pick<FaceParts, 'lines' | 'swatch'>,
  codes: readonly CodeTried[],
): Face | undefined {
  const room = roomIn(size);
  const below = swatch === undefined ? 0 : swatchHeight + gap;
  const fits = codes.find(({ side }) => {
    const column = room.width - side - gap;
    return side + below <= room.height && column > 0 && heightOf(lines, column) <= room.height;
  });
  if (!fits) return undefined;
  return {
    kind: 'front',
    size,
    lines,
    pictograms: [],
    pictogramColumns: 0,
    pictogramSide: 0,
    code: fits,
    ...(swatch !== undefined && { swatch: { hex: swatch, width: fits.side, height: swatchHeight } }),
  };
}

/** A face without a code. */
function faceOfHazards(
  kind: FaceKind,
  size: Size,
  lines: readonly Line[],
  pictograms: readonly string[],
  side: number,
): Face | undefined {
  const room = roomIn(size);
  const beside = pictured(pictograms.length, acrossOf(side), room.height);
  if (!beside) return undefined;
  const column = room.width - beside.width;
  if (column <= 0 || heightOf(lines, column) > room.height) return undefined;
  return { kind, size, lines, pictograms, pictogramColumns: beside.columns, pictogramSide: side };
}

/** Lines given up one after another, none first. */
const givingUp = (most: number): readonly (readonly LineName[])[] =>
  Array.from({ length: most + 1 }, (_, count) => dispensable.slice(0, count));

const namesLost = (lines: readonly Line[], names: readonly LineName[]): readonly LineName[] =>
  names.filter((name) => lines.some(({ as }) => as === name));

/** The first that comes to something. */
function firstOf<T, R>(all: readonly T[], make: (one: T) => R | undefined): R | undefined {
  for (const one of all) {
    const made = make(one);
    if (made !== undefined) return made;
  }
  return undefined;
}

const swatchOf = ({ labelled }: Content, lost: readonly LineName[]): string | undefined =>
  lost.includes('swatch note') ? undefined : labelled.facts.swatch?.hex;

/** A face with a band of code, identity and pictograms, and the warnings below it over the whole width. */
function wholeFace(
  size: Size,
  { lines, below, pictograms, side, swatch }: Omit<FaceParts, 'below'> & { readonly below: readonly Line[] },
  codes: readonly CodeTried[],
): Face | undefined {
  const across = acrossOf(side);
  const room = roomIn(size);
  const warned = heightOf(below, room.width) + gap;
  const columnsTried = pictograms.length === 0 ? [0] : pictograms.map((_, at) => at + 1);
  const swatchRoom = swatch === undefined ? 0 : swatchHeight + gap;
  for (const code of codes)
    for (const columns of columnsTried) {
      const rows = columns === 0 ? 0 : Math.ceil(pictograms.length / columns);
      const column = room.width - code.side - gap - (columns === 0 ? 0 : columns * across + gap);
      if (column <= 0) continue;
      const band = Math.max(code.side + swatchRoom, rows * across, heightOf(lines, column));
      if (band + warned > room.height) continue;
      const painted = swatch === undefined ? undefined : { hex: swatch, width: code.side, height: swatchHeight };
      return {
        kind: 'whole',
        size,
        lines,
        below,
        pictograms,
        pictogramColumns: columns,
        pictogramSide: side,
        code,
        ...(painted && { swatch: painted }),
      };
    }
  return undefined;
}

/** All on one label: what sets the sample apart may be given up, no more. */
function onOne(content: Content, size: Size, side: number): Faces | undefined {
  const all = identity(content);
  const below = warnings(content);
  return firstOf(givingUp(1), (lost) => {
    const swatch = swatchOf(content, lost);
    const face = wholeFace(
      size,
      {
        lines: without(all, lost),
        below,
        pictograms: content.rules.elements.pictograms,
        side,
        ...(swatch !== undefined && { swatch }),
      },
      codesOf(content.address, ['M'], safeModule),
    );
    return face && { layout: 'one', rules: content.rules, faces: [face], leftOut: namesLost(all, lost) };
  });
}

interface Front {
  readonly face: Face;
  readonly leftOut: readonly LineName[];
}

/** The front without hazards: code, name and number stay, the rest as far as there is room. */
function frontOf(content: Content, size: Size): Front | undefined {
  const all = identity(content);
  const onFront = without(all, ['remains']);
  return firstOf(givingUp(dispensable.length), (lost) => {
    const swatch = swatchOf(content, lost);
    const face = frontFace(
      size,
      { lines: without(onFront, lost), ...(swatch !== undefined && { swatch }) },
      codesOf(content.address, ['M', 'L'], moduleSizes.at(-1)!),
    );
    return face && { face, leftOut: namesLost(onFront, lost) };
  });
}

/** On a label of hazards stand the name, the number and who answers for it. */
const headOf = (content: Content): readonly Line[] =>
  without(identity(content), ['formula', 'remark', 'swatch note', 'amount']);

/**
 * What stands beside the pictograms where not all of the hazards' words have room: as many as do. The name stands on
 * the front as well, which goes on the same pack.
 */
function besidePictograms(content: Content): readonly (readonly Line[])[] {
  const head = headOf(content);
  const short = without(head, ['maker', 'remains']);
  const spokenHazards = without(warnings(content), ['advice']);
  const number: Line = { as: 'number', text: content.labelled.facts.id };
  return [
    [...head, ...spokenHazards],
    [...short, ...spokenHazards],
    [...short, ...without(spokenHazards, ['hazard', 'telephone'])],
    short,
    [number],
  ];
}

/** Sizes of an outer label, the first that holds all. Source: CLP Annex I Table 1.3, sizes of labels. */
const outerSizes: readonly Size[] = [
  { width: 74, height: 52 },
  { width: 105, height: 74 },
  { width: 148, height: 105 },
];

/** Sides of pictograms that are tried, mm: as CLP asks for them where there is room, then the least. */
const sidesOf = ({ sizes: { pictogram } }: PackRules): readonly number[] => [pictogram.ifPossible, pictogram.least];

/** A front and a label of hazards for the same pack. */
function frontAndHazards(content: Content, front: Front, size: Size): Faces | undefined {
  const { rules } = content;
  const lines = [...headOf(content), ...warnings(content)];
  const back = firstOf(sidesOf(rules), (side) =>
    faceOfHazards('hazards', size, lines, rules.elements.pictograms, side),
  );
  return back && { layout: 'front-and-hazards', rules, faces: [front.face, back], leftOut: front.leftOut };
}

/**
 * The labels of a pack: with all that CLP asks for, on one label or on two; only where neither holds it, without what a
 * small pack may leave off. Errors: `label-too-small` where not even code, name and number fit, or the pictograms do
 * not.
 * @param full the rules with nothing left off, for the pack itself and for an outer label
 */
export function facesOf(content: Content, full: RulesInFull, size: Size): Outcome<Faces> {
  const laid = facesAt(content, full, size);
  if (laid.ok || laid.fault.code !== 'label-too-small') return laid;
  const holds = usualSizes.find((one) => !isWithin(one, size) && facesAt(content, full, one).ok);
  if (!holds) return laid;
  const cure = `Ask for a larger one: ${holds.width}x${holds.height}mm has room for it.`;
  return bad({ ...laid.fault, cure });
}

/** The rules with nothing left off, for the pack itself and for an outer label. */
interface RulesInFull {
  readonly onPack: PackRules;
  readonly outer: PackRules;
}

/** Sizes that are asked for instead of one that is too small, the smallest first. Judgement. */
const usualSizes: readonly Size[] = [
  { width: 40, height: 20 },
  { width: 50, height: 25 },
  { width: 60, height: 30 },
  { width: 70, height: 40 },
  { width: 74, height: 52 },
  { width: 105, height: 74 },
  { width: 148, height: 105 },
  { width: 210, height: 148 },
];
const isWithin = (one: Size, other: Size): boolean => one.width <= other.width && one.height <= other.height;

function facesAt(content: Content, full: RulesInFull, size: Size): Outcome<Faces> {
  const complete = { ...content, rules: full.onPack };
  const onOneLabel = (one: Content, on = size): Faces | undefined =>
    firstOf(sidesOf(one.rules), (side) => onOne(one, on, side));
  const front = frontOf(content, size);
  const all = onOneLabel(complete) ?? (front && frontAndHazards(complete, front, size));
  if (all) return good(all);
  const less = onOneLabel(content) ?? (front && frontAndHazards(content, front, size));
  if (less) {
    const holdsAll = outerSizes.find((one) => onOneLabel(complete, one));
    return good({ ...less, ...(holdsAll && { holdsAll }) });
  }
  if (!front) return tooSmall(content, size, 'the QR code, the name and the number');
  const { pictograms } = content.rules.elements;
  const { least } = content.rules.sizes.pictogram;
  const bare = firstOf(besidePictograms(content), (lines) =>
    faceOfHazards('pictograms', size, lines, pictograms, least),
  );
  if (!bare) return tooSmall(content, size, `${pictograms.length} pictograms of 1 cm² and the name`);
  const outer = firstOf(outerSizes, (one) => {
    const lines = [...headOf(content), ...warnings({ ...content, rules: full.outer })];
    const { elements } = full.outer;
    return firstOf(sidesOf(full.outer), (side) => faceOfHazards('outer', one, lines, elements.pictograms, side));
  });
  if (!outer) return tooSmall(content, outerSizes.at(-1)!, 'what CLP asks for');
  const faces = [front.face, bare, outer];
  return good({ layout: 'pictograms-and-outer', rules: full.outer, faces, leftOut: front.leftOut });
}

/** What a label must be at least for its code at the smallest module, its pictograms in a row and their points. */
function tooSmall({ address, rules }: Content, size: Size, what: string): Outcome<never, 'label-too-small'> {
  const code = Math.ceil(moduleSizes.at(-1)! * modulesAcross(addressCode(address, 'L')) + 2 * padding);
  const across = acrossOf(rules.sizes.pictogram.least);
  const pictograms = Math.ceil(rules.elements.pictograms.length * across + 2 * padding);
  const height = Math.max(code, rules.elements.pictograms.length > 0 ? Math.ceil(across + 2 * padding) : 0);
  return bad({
    code: 'label-too-small',
    message: `A label of ${size.width} by ${size.height} mm has no room for ${what}.`,
    cure:
      `Ask for a larger one: it is at least ${height} mm high, and ${Math.max(code + 12, pictograms + 10)} mm wide ` +
      'or more, as long as the name is short.',
  });
}
