// A chemical formula as it is set: subscripts, superscripts, and words for a screen reader.
import type { Element } from 'hast';
import { madeOnceBy } from '../of-many-pages.js';

/** A typeset formula as plain data; the reckoning makes it. */
export interface FormulaSet {
  readonly runs: readonly { readonly text: string; readonly as: 'text' | 'sub' | 'sup' }[];
  readonly spoken: string;
}

const keyOf = ({ runs, spoken }: FormulaSet): string =>
  `${spoken}\0${runs.map(({ text, as }) => `${as} ${text}`).join('\0')}`;

const formulaOf = madeOnceBy(keyOf, ({ runs, spoken }: FormulaSet): Element => {
  const set = runs.map(({ text, as }) => {
    if (as === 'text') return text;
    return as === 'sub' ? <sub>{text}</sub> : <sup>{text}</sup>;
  });
  if (runs.length === 1 && runs[0]!.text === spoken) return (<span class="formula">{set}</span>) as Element;
  return (
    <span role="img" aria-label={spoken}>
      {set}
    </span>
  ) as Element;
});

const known = new WeakMap<FormulaSet, Element>();

/** A formula that is read once is most often the same object: it is asked for what it is made of once. */
export function formula(set: FormulaSet): Element {
  let element = known.get(set);
  if (!element) known.set(set, (element = formulaOf(set)));
  return element;
}

/** Asked first: most words hold no count, charge, arrow or state. */
const mayHoldFormula = /[\d^]| -> |\([gs]\)/;

/**
 * Words with formulae or equations among them, counts and charges set low and high: `NO turns brown (NO2)`, `SO4^2-`,
 * `(Zr,V)SiO4`.
 */
export function formulaWords(text: string): (Element | string)[] {
  if (text !== '' && !mayHoldFormula.test(text)) return [text];
  return text
    .split(/(\^\d*[+-]|(?<=[A-Za-z)\]])\d+(?:\.\d+)?)/)
    .filter((piece) => piece !== '')
    .map((piece, at, all) => {
      if (/^\^/.test(piece)) return (<sup>{piece.slice(1).replace('-', '−')}</sup>) as Element;
      if (at > 0 && /^\d/.test(piece) && /[A-Za-z)\]]$/.test(all[at - 1]!)) return (<sub>{piece}</sub>) as Element;
      return piece.replace(/ -> /g, ' → ').replace(/\((?:g|s)\)/g, (state) => (state === '(g)' ? '\u2009(gas)' : ''));
    });
}
