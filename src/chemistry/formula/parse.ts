// From text to a formula: markup and state off, charge off, dots told from decimal points, then the reader.
import { memoise } from '../../memoise.js';
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { plainSpelling } from './characters.js';
import { readCharge } from './charge.js';
import { closeToWater, dashBeforeWater, dotBeforeWater, dotLost, oxygenInWater, readStops } from './dots.js';
import { withoutMarkup } from './markup.js';
import { Misread } from './misread.js';
import type { Formula, FormulaDoubt, State } from './model.js';
import { openProportions, boundedLetters } from './open.js';
import { Reader } from './reader.js';

const longest = 400;

const states: Readonly<Record<string, State>> = { s: 's', l: 'l', g: 'g', aq: 'aq', cr: 's', '↓': 's', '↑': 'g' };

/** What was typed, without markup and spaces around it, and a way back to the columns of what was typed. */
interface Source {
  readonly trimmed: string;
  readonly text: string;
  readonly place: (column: number) => number;
}

function sourceOf(written: string): Source {
  const trimmed = written.trim();
  const offset = written.length - written.trimStart().length;
  const markup = withoutMarkup(trimmed);
  if (!markup) return { trimmed, text: trimmed, place: (column) => offset + column };
  const shift = markup.text.length - markup.text.trimStart().length;
  return {
    trimmed,
    text: markup.text.trim(),
    place: (column) => offset + markup.places[Math.min(column - 1 + shift, markup.text.length)]! + 1,
  };
}

const electron = /^e\s?(?:\^?-|⁻|\^\{-\})$/;

/** Reads what is left of a formula when markup is away; columns of faults are those of `source`. */
function readFormula(source: string, trimmed: string): Formula {
  // A phase before it is no part of the composition: α-FeO(OH).
  const phase = /^[α-ω]-(?=[A-Z([])/u.exec(source)?.[0].length ?? 0;
  const whole = ' '.repeat(phase) + plainSpelling(source.slice(phase));
  const stateHere = /\s*(?:\((s|l|g|aq|cr)\)|([↑↓]))$/.exec(whole);
  const state = stateHere && stateHere.index > phase ? states[(stateHere[1] ?? stateHere[2])!] : undefined;
  const text = state ? whole.slice(0, stateHere!.index) : whole;
  if (electron.test(text)) return { written: trimmed, parts: [], charge: -1, state, doubts: [] };
  const { body, charge, doubt } = readCharge(text.trimEnd(), source);
  const water = oxygenInWater(body);
  const dash = dashBeforeWater(dotBeforeWater(closeToWater(water.text)));
  const lost = dotLost(dash.text);
  const stops = readStops(lost.text);
  const parts = new Reader(lost.text, stops.adduct).read();
  const formula = { written: trimmed, parts, charge, ...(state && { state }), doubts: [] };
  const doubts = [
    ...(doubt ? [doubt] : []),
    ...(water.at === undefined ? [] : [zeroDoubt(water.at, trimmed, oxygenInWater(trimmed).text)]),
    ...(dash.at === undefined ? [] : [dashDoubt(dash.at, trimmed)]),
    ...(lost.at === undefined ? [] : [lostDotDoubt(lost.at, trimmed, lost.text.trim())]),
    ...stops.doubtful.map((at) => stopDoubt(at, trimmed)),
    ...openDoubts(formula, dash.text),
  ];
  return { ...formula, doubts };
}

const zeroDoubt = (at: number, trimmed: string, meant: string): FormulaDoubt => ({
  code: 'zero-for-oxygen',
  column: at + 1,
  message: `The digit 0 in the water of '${trimmed}' is read as the letter O, oxygen.`,
  expected: 'the letter O',
  cure: meant === trimmed ? 'Write the letter O for oxygen.' : `Write the letter O for oxygen: ${meant}.`,
});

const dashDoubt = (at: number, trimmed: string): FormulaDoubt => ({
  code: 'dash',
  column: at + 1,
  message:
    `The dash before the water in '${trimmed}' is read as the dot of a hydrate; ` + 'it could also be that of a range.',
  expected: '· for a hydrate',
  cure: 'Write · (or *) for the dot of a hydrate.',
});

const lostDotDoubt = (at: number, trimmed: string, meant: string): FormulaDoubt => ({
  code: 'lost-dot',
  column: at + 1,
  message: `'${trimmed}' is read as ${meant}: without a dot before its water it would be no substance.`,
  expected: '· for a hydrate',
  cure: `Write ${meant}.`,
});

const stopDoubt = (at: number, trimmed: string): FormulaDoubt => ({
  code: 'full-stop',
  column: at + 1,
  message: `The full stop in '${trimmed}' is read as the dot of an adduct; it could also be a decimal point.`,
  expected: '· for an adduct',
  cure: 'Write · (or *) for the dot of an adduct; then every full stop is a decimal point.',
});

/** What is left open, where a range can still be told: of what nothing bounds, the molar mass asks. */
const openDoubts = (formula: Formula, text: string): readonly FormulaDoubt[] => [
  ...openProportions(formula.parts).map(
    (shared): FormulaDoubt => ({
      code: 'open-proportion',
      column: Math.max(0, text.indexOf(',')) + 1,
      message: `${shared} leaves open how much there is of each; what depends on it is given as a range.`,
      expected: 'a share for each',
      cure: 'If the proportion is known, give each its share, e.g. (Zn0.9Mn0.1)O.',
    }),
  ),
  ...boundedLetters(formula).map(
    (letter): FormulaDoubt => ({
      code: 'unknown-count',
      column: Math.max(0, text.indexOf(letter)) + 1,
      message: `${formula.written} leaves ${letter} open; what depends on it is given as a range.`,
      expected: `a value for ${letter}`,
      cure: `Write a number in the place of ${letter}.`,
    }),
  ),
];

/**
 * Reads a chemical formula: brackets ( ) [ ] { }, hydrates and adducts with `·`, `*` or `.`, decimal counts, ranges,
 * unknown counts n, x, y, z, solid solutions `(Zn,Mn)O`, charges, states (s) (l) (g) (aq), Unicode sub- and
 * superscripts, HTML and TeX; water of crystallisation also after a space, comma or x (`Al2(SO4)3 x 18 H2O`), and a
 * phase before it all (`α-FeO(OH)`); a zero for the O of water (`5H20`), and a hydrate's dot that was left away. What
 * can be read in two ways, or is left open, stands in `doubts`.
 * Errors: a fault with its column: `unknown-element`, `bracket`, `isotope`, `ambiguous-charge`, `zero-for-oxygen`, …
 * @example parseFormula('CuSO4·5H2O')
 */
export const parseFormula: (written: string) => Outcome<Formula> = memoise((written) => written, readAnew, 5000);

function readAnew(written: string): Outcome<Formula> {
  const length = written.trim().length;
  if (length === 0)
    return bad({
      code: 'empty',
      column: 1,
      message: 'There is no formula.',
      expected: 'a formula such as CuSO4·5H2O',
      cure: 'Write a formula.',
    });
  if (length > longest)
    return bad({
      code: 'too-long',
      column: longest + 1,
      message: `A formula of ${length} characters is too long.`,
      expected: `at most ${longest} characters`,
      cure: 'Shorten the formula.',
    });
  const { trimmed, text, place } = sourceOf(written);
  const placed = <Code extends string>(fault: Fault<Code>): Fault<Code> =>
    fault.column === undefined ? fault : { ...fault, column: place(fault.column) };
  try {
    const formula = readFormula(text, trimmed);
    return good({ ...formula, doubts: formula.doubts.map(placed) });
  } catch (error) {
    if (error instanceof Misread) return bad(placed(error.fault));
    throw error;
  }
}
