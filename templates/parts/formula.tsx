// A chemical formula as it is set: subscripts, superscripts, and words for a screen reader.
import type { Element } from 'hast';

/** A typeset formula as plain data; the reckoning makes it. */
export interface FormulaSet {
  readonly runs: readonly { readonly text: string; readonly as: 'text' | 'sub' | 'sup' }[];
  readonly spoken: string;
}

export function formula({ runs, spoken }: FormulaSet): Element {
  const set = runs.map(({ text, as }) => (as === 'sub' ? <sub>{text}</sub> : as === 'sup' ? <sup>{text}</sup> : text));
  if (runs.length === 1 && runs[0]!.text === spoken) return <span class="formula">{set}</span> as Element;
  return <span class="formula" role="img" aria-label={spoken}>{set}</span> as Element;
}
