// From text to an equation: markup off, one arrow found, each side split into substances.
import { bad, good, type Outcome } from '../../outcome.js';
import { isListedIon, withoutMarkup } from '../formula/index.js';
import { imbalances, type Equation, type EquationDoubt, type Term } from './model.js';
import { readTerm, splitAtPlus, type GluedNumber, type Stretch } from './term.js';

const longest = 4000;
const mostTerms = 30;
const arrow = /\s*(?:<?[-–—−]+>|<?=+>|[→⟶⟷↔⇒⟹⇔⟺⇌⇋⇄⇆⇀➔➙➛➜➝➞➡⟼↦]|=+|＝)\s*/gu;
const backwards = /<[-–—−]+(?!>)|[←⟵⇐⟸]/u;

/** An equation, and whether a number close to an adduct could be read in the other way. */
interface ReadEquation {
  readonly equation: Equation;
  readonly ambiguous: boolean;
}

/**
 * In `Ag++Cl-->AgCl` the first dash is the charge of an anion that stands in the table of ions; it is blanked for the
 * search of the arrow.
 */
function withoutChargeBeforeArrow(text: string): string {
  const close = /(?:^|[+\s\d])([A-Z][A-Za-z0-9()]*)--+>/.exec(text);
  if (!close || !isListedIon(close[1]!, -1) || /^(?:[NO]\d|H)$/.test(close[1]!)) return text;
  const at = close.index + close[0].indexOf('-');
  return `${text.slice(0, at)}±${text.slice(at + 1)}`;
}

/** The two sides of the one arrow. */
function splitAtArrow(text: string): Outcome<readonly [Stretch, Stretch]> {
  const arrows = [...withoutChargeBeforeArrow(text).matchAll(arrow)];
  const [found, second] = arrows;
  if (found && !second) {
    const end = found.index + found[0].length;
    return good([
      { text: text.slice(0, found.index), at: 0 },
      { text: text.slice(end), at: end },
    ]);
  }
  const left = text.search(backwards);
  const fault = { code: 'arrow', expected: 'one ->', cure: 'Write reactants, one ->, products.' };
  if (second) return bad({ ...fault, column: second.index + 1, message: 'The equation has more than one arrow.' });
  return left >= 0
    ? bad({ ...fault, column: left + 1, message: 'The arrow points to the left.' })
    : bad({ ...fault, column: text.length + 1, message: 'The equation has no arrow.' });
}

interface ReadSide {
  readonly terms: readonly Term[];
  readonly ambiguous: boolean;
}

function readSide({ text, at }: Stretch, glued: GluedNumber): Outcome<ReadSide> {
  const stretches = splitAtPlus(text);
  if (stretches.length > mostTerms)
    return bad({
      code: 'too-many',
      column: at + 1,
      message: `${stretches.length} substances on one side are too many.`,
      expected: `at most ${mostTerms}`,
      cure: 'Write a smaller equation.',
    });
  const terms: Term[] = [];
  let ambiguous = false;
  for (const stretch of stretches) {
    const read = readTerm({ text: stretch.text, at: at + stretch.at }, glued);
    if (!read.ok) return read;
    terms.push(read.value.term);
    ambiguous ||= read.value.ambiguous;
  }
  return good({ terms, ambiguous });
}

function readPlain(text: string, glued: GluedNumber): Outcome<ReadEquation> {
  const sides = splitAtArrow(text);
  if (!sides.ok) return sides;
  const left = readSide(sides.value[0], glued);
  if (!left.ok) return left;
  const right = readSide(sides.value[1], glued);
  if (!right.ok) return right;
  const [reactants, products] = [left.value.terms, right.value.terms];
  const doubts = [...reactants, ...products].flatMap(({ formula, column }) =>
    formula.doubts.map((doubt) => ({ ...doubt, column: column - 1 + (doubt.column ?? 1) })),
  );
  const equation = { written: text.trim(), reactants, products, doubts };
  return good({ equation, ambiguous: left.value.ambiguous || right.value.ambiguous });
}

/** Reads text that may hold markup; columns are those of the text as it is. */
function read(written: string, glued: GluedNumber): Outcome<ReadEquation> {
  if (written.length > longest)
    return bad({
      code: 'too-long',
      column: longest + 1,
      message: 'The equation is too long.',
      expected: `at most ${longest} characters`,
      cure: 'Shorten the equation.',
    });
  const markup = withoutMarkup(written);
  const outcome = readPlain((markup?.text ?? written).replace(/[.;,]\s*$/, ''), glued);
  if (!markup) return outcome;
  const placed = <T extends { readonly column?: number }>(found: T): T =>
    found.column === undefined
      ? found
      : { ...found, column: markup.places[Math.min(found.column - 1, markup.text.length)]! + 1 };
  if (!outcome.ok) return bad(placed(outcome.fault));
  const { equation, ambiguous } = outcome.value;
  return good({
    ambiguous,
    equation: {
      written: written.trim(),
      reactants: equation.reactants.map(placed),
      products: equation.products.map(placed),
      doubts: equation.doubts.map(placed),
    },
  });
}

const gluedCoefficient: EquationDoubt = {
  code: 'glued-coefficient',
  message:
    'A number written close to a hydrate or adduct is read as a coefficient, because only so the equation balances.',
  expected: 'a space after a coefficient',
  cure: 'Put a space after each coefficient: 2 CuSO4·5H2O.',
};

/**
 * Reads an equation: terms with `+`, one arrow (`->`, `→`, `=`, `⇌`), coefficients as integers, decimals or fractions,
 * states (s) (l) (g) (aq), ions with charges, the electron `e^-`. A number glued to an adduct (`2PbCO3·Pb(OH)2`)
 * multiplies its first part, as in a formula, unless the equation only balances when it is a coefficient; that is then
 * said in a doubt.
 * Errors: a fault with its column.
 * @example parseEquation('2 H2 + O2 -> 2 H2O')
 */
export function parseEquation(text: string): Outcome<Equation> {
  const asAdduct = read(text, 'adduct');
  if (!asAdduct.ok) return asAdduct;
  const { equation, ambiguous } = asAdduct.value;
  if (!ambiguous || imbalances(equation).length === 0) return good(equation);
  const asCoefficient = parseWithGluedCoefficients(text);
  if (!asCoefficient.ok || imbalances(asCoefficient.value).length > 0) return good(equation);
  return good({ ...asCoefficient.value, doubts: [...asCoefficient.value.doubts, gluedCoefficient] });
}

/** The same with every number in front read as a coefficient, for balancing afresh. */
export function parseWithGluedCoefficients(text: string): Outcome<Equation> {
  const outcome = read(text, 'coefficient');
  return outcome.ok ? good(outcome.value.equation) : outcome;
}
