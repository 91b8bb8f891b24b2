// How a formula is set on a page and how it is read aloud, as plain data that any template can show.
import { closingBracket, isElectron, type Count, type Formula, type FormulaNode, type FormulaPart } from './model.js';
import { parseFormula } from './parse.js';
import { countText } from './print.js';

export interface Run {
  readonly text: string;
  readonly as: 'text' | 'sub' | 'sup';
}

/** A formula ready for a page: what is set at which height, and the words for a screen reader. */
export interface Typeset {
  /** The formula as it was written. */
  readonly written: string;
  readonly runs: readonly Run[];
  readonly spoken: string;
}

const spokenBrackets = {
  '(': ['open bracket', 'close bracket'],
  '[': ['open square bracket', 'close square bracket'],
  '{': ['open curly bracket', 'close curly bracket'],
} as const;

/** A range is set with an en dash, a subtraction with a minus. */
const countSet = (count: Count): string => countText(count).replaceAll('-', count.unknown ? '−' : '–');

type Put = (text: string, as: Run['as']) => void;

function setParts(parts: readonly FormulaPart[], between: '·' | ',', put: Put): void {
  parts.forEach((part, index) => {
    if (index > 0) put(between, 'text');
    put(countSet(part.multiplier), 'text');
    for (const node of part.nodes) {
      if (node.kind === 'atom') put(node.symbol, 'text');
      else {
        put(node.bracket, 'text');
        setParts(node.parts, node.alternatives ? ',' : '·', put);
        put(closingBracket[node.bracket], 'text');
      }
      put(countSet(node.count), 'sub');
    }
  });
}

function setFormula(formula: Formula): readonly Run[] {
  const runs: { text: string; as: Run['as'] }[] = [];
  const put = (text: string, as: Run['as']): void => {
    if (text === '') return;
    const last = runs.at(-1);
    if (last?.as === as) last.text += text;
    else runs.push({ text, as });
  };
  if (isElectron(formula)) put('e', 'text');
  setParts(formula.parts, '·', put);
  const size = Math.abs(formula.charge);
  if (size > 0) put(`${size === 1 ? '' : size}${formula.charge < 0 ? '−' : '+'}`, 'sup');
  if (formula.state) put(`(${formula.state})`, 'text');
  return runs;
}

function spokenCount(count: Count): string[] {
  const text = countText(count);
  return text === ''
    ? []
    : [
        text
          .replaceAll('-', count.unknown ? ' minus ' : ' to ')
          .replaceAll('+', ' plus ')
          .replace('/', ' over '),
      ];
}

function speakNode(node: FormulaNode): string[] {
  if (node.kind === 'atom') return [[...node.symbol].join(' '), ...spokenCount(node.count)];
  const [open, close] = spokenBrackets[node.bracket];
  return [`${open},`, ...speakParts(node.parts, node.alternatives ? 'or' : 'dot'), close, ...spokenCount(node.count)];
}
const speakParts = (parts: readonly FormulaPart[], between: 'dot' | 'or'): string[] =>
  parts.flatMap((part, index) => [
    ...(index > 0 ? [between] : []),
    ...spokenCount(part.multiplier),
    ...part.nodes.flatMap(speakNode),
  ]);

const spokenStates = { s: 'solid', l: 'liquid', g: 'gas', aq: 'in water' } as const;

function speakFormula(formula: Formula): string {
  if (isElectron(formula)) return 'electron';
  const size = Math.abs(formula.charge);
  const charge = size === 0 ? [] : [`${size === 1 ? '' : `${size} `}${formula.charge < 0 ? 'minus' : 'plus'}`];
  return [...speakParts(formula.parts, 'dot'), ...charge, ...(formula.state ? [spokenStates[formula.state]] : [])].join(
    ' ',
  );
}

const mostKept = 5000;
const kept = new Map<string, Typeset>();

/**
 * What is set at which height, and the formula letter by letter for a screen reader; text that is no formula comes back
 * as one plain run. Kept, so that a page can show the same formula many times at little cost.
 * @example typeset('SO4^2-') // runs SO, 4 lowered, 2− raised; spoken 'S O 4 2 minus'
 */
export function typeset(written: string): Typeset {
  const before = kept.get(written);
  if (before) return before;
  const formula = parseFormula(written);
  const set: Typeset = formula.ok
    ? { written, runs: setFormula(formula.value), spoken: speakFormula(formula.value) }
    : { written, runs: [{ text: written, as: 'text' }], spoken: written };
  if (kept.size < mostKept) kept.set(written, set);
  return set;
}
