// Chemical equations: from text to terms with coefficients, and whether atoms and charge are the same on both sides.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import { elementName } from './atomic-weights.js';
import { exact, one, zero, type Decimal } from './exact.js';
import { composition, isElectron, isListedIon, parseFormula, unknownCounts, type Formula } from './formula/index.js';
import { withoutMarkup } from './formula/index.js';

export interface Term {
  /** The formula as written, without coefficient and state. */
  readonly label: string;
  readonly formula: Formula;
  /** 1 where none is written. */
  readonly coefficient: Decimal;
  /** A coefficient was written. */
  readonly given: boolean;
  /** 1-based column of the formula in the equation. */
  readonly column: number;
}

export interface Equation {
  readonly written: string;
  readonly reactants: readonly Term[];
  readonly products: readonly Term[];
  readonly doubts: readonly Fault[];
}

/** One element (or the charge) that is not the same on both sides. */
export interface Imbalance {
  readonly what: string;
  readonly left: Decimal;
  readonly right: Decimal;
}

const longest = 4000;
const mostTerms = 30;
const arrow = /\s*(?:<?[-–—−]+>|<?=+>|[→⟶⟷↔⇒⟹⇔⟺⇌⇋⇄⇆⇀➔➙➛➜➝➞➡⟼↦]|=+|＝)\s*/gu;
const backwards = /<[-–—−]+(?!>)|[←⟵⇐⟸]/u;
/** What stands in an equation for heat or light. */
const energy = /^(?:heat|energy|light|Δ|∆|hν|hv|[+-]?\d+(?:\.\d+)? ?kJ(?:\/mol)?)$/iu;

/** Splits a side at its plus signs; a plus that ends an ion's formula is that ion's charge. */
function terms(side: string): { text: string; at: number }[] {
  const found: { text: string; at: number }[] = [];
  let start = 0;
  for (let at = 0; at <= side.length; at += 1) {
    if (at < side.length) {
      if (side[at] !== '+' && side[at] !== '＋') continue;
      const before = side.slice(start, at);
      const after = /^\s*(.?)/su.exec(side.slice(at + 1))![1]!;
      const attached = before.trim() !== '' && !/\s$/.test(before);
      const inBraces = /\^[{(]\d*$/.test(before);
      const raised = /\^\d*$/.test(before) || inBraces;
      const closesTerm =
        after === '' ||
        after === '+' ||
        after === '＋' ||
        /^\d\s*(?:$|\+|\((?:s|l|g|aq)\))/.test(side.slice(at + 1)) ||
        (after === '(' && /^\s*\((?:s|l|g|aq)\)/.test(side.slice(at + 1))) ||
        after === ')' ||
        after === '}';
      if (raised || (attached && closesTerm)) continue;
    }
    found.push({ text: side.slice(start, at), at: start });
    start = at + 1;
  }
  return found;
}

const fractions: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅓': '1/3', '⅔': '2/3' };
const fractionValue = (text: string): Decimal => {
  const [above, below] = (fractions[text] ?? text).split('/');
  return below === undefined ? exact(above!) : exact(above!).div(below);
};
const withoutState = (text: string): string => text.replace(/\s*(?:\((?:s|l|g|aq|cr)\)|[↑↓])$/, '').trim();

type Glued = 'adduct' | 'coefficient';

function term(text: string, at: number, glued: Glued): Outcome<{ term: Term; ambiguous: boolean }> {
  const trimmed = text.trim();
  let start = at + text.length - text.trimStart().length;
  if (trimmed === '')
    return bad({
      code: 'empty-term',
      column: start + 1,
      message: 'There is nothing on this side of the plus sign or arrow.',
      expected: 'a formula',
      cure: 'Write the missing formula, or take the sign away.',
    });
  if (energy.test(trimmed))
    return bad({
      code: 'no-substance',
      column: start + 1,
      message: `'${trimmed}' is no substance.`,
      expected: 'a formula',
      cure: 'Leave heat and light out of the equation.',
    });
  const parted = /^(\d+(?:\.\d+)?(?:\/\d+)?|[½¼¾⅓⅔])(\s*[*·×]\s*|\s*)(?=\S)/u.exec(trimmed);
  let body = trimmed;
  let coefficient: Decimal | undefined;
  let ambiguous = false;
  if (parted) {
    const rest = trimmed.slice(parted[0].length);
    const apart = parted[2] !== '';
    const adduct = !apart && /[·•∙⋅*]|\.\d*[A-Z([]/u.test(rest);
    ambiguous = adduct;
    if (apart || !adduct || glued === 'coefficient') {
      coefficient = fractionValue(parted[1]!);
      body = rest;
      start += parted[0].length;
    }
  }
  if (coefficient?.isZero() || coefficient?.gt(1e9))
    return bad({
      code: 'coefficient',
      column: start + 1,
      message: `A coefficient of ${coefficient} is not possible.`,
      expected: 'a number above 0',
      cure: 'Correct the coefficient.',
    });
  const formula = parseFormula(body);
  if (!formula.ok) return bad({ ...formula.fault, column: start + (formula.fault.column ?? 1) });
  const letters = unknownCounts(formula.value);
  if (letters.length > 0)
    return bad({
      code: 'unknown-count',
      column: start + 1,
      message: `${body} leaves ${letters.join(' and ')} open.`,
      expected: 'a number',
      cure: `Write a number in the place of ${letters.join(' and ')}.`,
    });
  if ([...composition(formula.value).values()].some(({ low, high }) => !low.eq(high)))
    return bad({
      code: 'range',
      column: start + 1,
      message: `${body} has a range of counts, which an equation cannot carry.`,
      expected: 'one number for each count',
      cure: 'Choose one composition inside the range.',
    });
  return good({
    term: {
      label: withoutState(body),
      formula: formula.value,
      coefficient: coefficient ?? one,
      given: coefficient !== undefined,
      column: start + 1,
    },
    ambiguous,
  });
}

/** Reads text that may hold markup; columns are those of the text as it is. */
function read(written: string, glued: Glued): Outcome<Equation & { ambiguous: boolean }> {
  const markup = written.length > longest ? undefined : withoutMarkup(written);
  const outcome = readPlain((markup?.text ?? written).replace(/[.;,]\s*$/, ''), glued);
  if (!markup) return outcome;
  const place = (column: number): number => markup.places[Math.min(column - 1, markup.text.length)]! + 1;
  if (!outcome.ok)
    return bad({
      ...outcome.fault,
      ...(outcome.fault.column !== undefined && { column: place(outcome.fault.column) }),
    });
  const moved = (side: readonly Term[]): Term[] => side.map((one) => ({ ...one, column: place(one.column) }));
  const { reactants, products, doubts } = outcome.value;
  return good({
    ...outcome.value,
    written: written.trim(),
    reactants: moved(reactants),
    products: moved(products),
    doubts: doubts.map((doubt) => ({ ...doubt, ...(doubt.column !== undefined && { column: place(doubt.column) }) })),
  });
}

/** In `Ag++Cl-->AgCl` the first dash is the charge of an anion that stands in the table of ions; it is blanked for the search of the arrow. */
function parted(text: string): string {
  const close = /(?:^|[+\s\d])([A-Z][A-Za-z0-9()]*)--+>/.exec(text);
  if (!close || !isListedIon(close[1]!, -1) || /^(?:[NO]\d|H)$/.test(close[1]!)) return text;
  const at = close.index + close[0].indexOf('-');
  return `${text.slice(0, at)}±${text.slice(at + 1)}`;
}

function readPlain(text: string, glued: Glued): Outcome<Equation & { ambiguous: boolean }> {
  if (text.length > longest)
    return bad({
      code: 'too-long',
      column: longest + 1,
      message: 'The equation is too long.',
      expected: `at most ${longest} characters`,
      cure: 'Shorten the equation.',
    });
  const arrows = [...parted(text).matchAll(arrow)];
  if (arrows.length !== 1) {
    const left = text.search(backwards);
    return bad({
      code: 'arrow',
      column: (arrows[1]?.index ?? (left >= 0 ? left : text.length)) + 1,
      message:
        arrows.length > 0
          ? 'The equation has more than one arrow.'
          : left >= 0
            ? 'The arrow points to the left.'
            : 'The equation has no arrow.',
      expected: 'one ->',
      cure: 'Write reactants, one ->, products.',
    });
  }
  const [found] = arrows as [RegExpExecArray];
  const sides: Term[][] = [];
  let ambiguous = false;
  for (const [side, offset] of [
    [text.slice(0, found.index), 0],
    [text.slice(found.index + found[0].length), found.index + found[0].length],
  ] as const) {
    const parts = terms(side);
    if (parts.length > mostTerms)
      return bad({
        code: 'too-many',
        column: offset + 1,
        message: `${parts.length} substances on one side are too many.`,
        expected: `at most ${mostTerms}`,
        cure: 'Write a smaller equation.',
      });
    const here: Term[] = [];
    for (const part of parts) {
      const outcome = term(part.text, offset + part.at, glued);
      if (!outcome.ok) return outcome;
      here.push(outcome.value.term);
      ambiguous ||= outcome.value.ambiguous;
    }
    sides.push(here);
  }
  const [reactants, products] = sides as [Term[], Term[]];
  const doubts = [...reactants, ...products].flatMap(({ formula, column }) =>
    formula.doubts.map((doubt) => ({ ...doubt, column: column - 1 + (doubt.column ?? 1) })),
  );
  return good({ written: text.trim(), reactants, products, doubts, ambiguous });
}

/**
 * Reads an equation: terms with `+`, one arrow (`->`, `→`, `=`, `⇌`), coefficients as integers, decimals or fractions,
 * states (s) (l) (g) (aq), ions with charges, the electron `e^-`. A number glued to an adduct (`2PbCO3·Pb(OH)2`) multiplies
 * its first part, as in a formula, unless the equation only balances when it is a coefficient; that is then said in a doubt.
 * Errors: a fault with its column.
 * @example parseEquation('2 H2 + O2 -> 2 H2O')
 */
export function parseEquation(text: string): Outcome<Equation> {
  const asAdduct = read(text, 'adduct');
  if (!asAdduct.ok || !asAdduct.value.ambiguous) return asAdduct;
  if (imbalances(asAdduct.value).length === 0) return asAdduct;
  const asCoefficient = read(text, 'coefficient');
  if (!asCoefficient.ok || imbalances(asCoefficient.value).length > 0) return asAdduct;
  return good({
    ...asCoefficient.value,
    doubts: [
      ...asCoefficient.value.doubts,
      {
        code: 'glued-coefficient',
        message:
          'A number written close to a hydrate or adduct is read as a coefficient, because only so the equation balances.',
        expected: 'a space after a coefficient',
        cure: 'Put a space after each coefficient: 2 CuSO4·5H2O.',
      },
    ],
  });
}

/** The same with every number in front read as a coefficient, for balancing afresh. */
export const parseWithGluedCoefficients = (text: string): Outcome<Equation> => read(text, 'coefficient');

/** Elements and charge that differ between the sides, with the coefficients as they stand. */
export function imbalances(equation: Pick<Equation, 'reactants' | 'products'>): readonly Imbalance[] {
  const sides = [equation.reactants, equation.products].map((side) => {
    const total = new Map<string, Decimal>([['charge', zero]]);
    for (const { formula, coefficient } of side) {
      total.set('charge', total.get('charge')!.plus(coefficient.times(formula.charge)));
      for (const [symbol, { low }] of composition(formula))
        total.set(symbol, (total.get(symbol) ?? zero).plus(low.times(coefficient)));
    }
    return total;
  });
  const [left, right] = sides as [Map<string, Decimal>, Map<string, Decimal>];
  return [...new Set([...left.keys(), ...right.keys()])].flatMap((what) => {
    const onLeft = left.get(what) ?? zero;
    const onRight = right.get(what) ?? zero;
    return onLeft.minus(onRight).abs().lt('1e-20') ? [] : [{ what, left: onLeft, right: onRight }];
  });
}

/**
 * The imbalance in words: which element is off by how much.
 * @example imbalanceSentence(imbalances(e)) // 'Oxygen (O) is off by 1: 2 on the left, 1 on the right.'
 */
export function imbalanceSentence(off: readonly Imbalance[]): string {
  return off
    .map(({ what, left, right }) => {
      const name =
        what === 'charge'
          ? 'The charge'
          : `${elementName(what)[0]!.toUpperCase()}${elementName(what).slice(1)} (${what})`;
      const signed = (value: Decimal): string =>
        what === 'charge' && value.gt(0) ? `+${value}` : value.toString().replace('-', '−');
      return `${name} is off by ${left.minus(right).abs()}: ${signed(left)} on the left, ${signed(right)} on the right.`;
    })
    .join(' ');
}

/** An equation as text. @example printEquation(e) // '2 H2 + O2 -> 2 H2O' */
export const printEquation = (equation: Pick<Equation, 'reactants' | 'products'>): string =>
  [equation.reactants, equation.products]
    .map((side) =>
      side.map(({ coefficient, label }) => (coefficient.eq(1) ? label : `${coefficient} ${label}`)).join(' + '),
    )
    .join(' -> ');

export const isElectronTerm = ({ formula }: Term): boolean => isElectron(formula);
