// One ingredient in one line, as a maker says it: `sodium nitrite 5 g`, `acetic acid 60 % 10 mL`, `HCl (dilute, warm)`,
// `potassium nitrite [KNO2] 3 g`.
import { parseFormula, parseQuantity, parseReagentText, type Quantity } from '../chemistry/index.js';
import { bad, good, type Outcome } from '../outcome.js';
import type { PotIngredient, StatedStrength } from './foreseen.js';
import { isColourIndexName } from '../reagents/names.js';

const states = [
  'dilute',
  'diluted',
  'weak',
  'concentrated',
  'conc',
  'conc.',
  'strong',
  'fuming',
  'glacial',
  'neat',
  'undiluted',
  'warm',
  'hot',
  'boiling',
  'boiled',
  'molten',
  'organic',
];
const stateWords = new Set(states);

/** A strength as the rules take it, from a quantity; undefined where it is no strength. */
export function statedStrength(quantity: Quantity): StatedStrength | undefined {
  if (quantity.dimension === 'mass-percent') return { of: 'mass', percent: quantity.base.toFixed() };
  if (quantity.dimension === 'mass-volume-percent') return { of: 'mass-per-volume', percent: quantity.base.toFixed() };
  if (quantity.dimension === 'concentration') return { of: 'amount', molPerLitre: quantity.base.toFixed() };
  if (quantity.dimension === 'density' && quantity.unit.startsWith('g/L'))
    return { of: 'mass-per-volume', percent: quantity.base.times(100).toFixed() };
  return undefined;
}

const isFormula = (text: string): boolean => !isColourIndexName(text) && parseFormula(text).ok;

/** Amount fields of an ingredient from a quantity and a purity. */
function amountOf(
  amount: Quantity,
  purity: Quantity | undefined,
  dropVolume: Quantity | undefined,
): Pick<PotIngredient, 'mol' | 'grams' | 'millilitres'> {
  const share = purity ? (purity.high ?? purity.base).div(100) : undefined;
  const value = (share ? amount.base.times(share) : amount.base).toFixed();
  if (amount.dimension === 'amount') return { mol: value };
  if (amount.dimension === 'mass') return { grams: value };
  if (amount.dimension === 'volume') return { millilitres: value };
  // A drop of unstated size is taken as 0.05 mL (common practice, no source).
  if (amount.dimension === 'drops') return { millilitres: amount.base.times(dropVolume?.base ?? '0.05').toFixed() };
  return {};
}

/**
 * Reads one ingredient. A formula may stand in square brackets after the name or as its last word; strength and words of
 * state may stand in round brackets. Errors: those of the chemistry room's reagent line.
 * @example readIngredient('acetic acid [CH3COOH] (50 %)') // name, formula, strength
 */
export function readIngredient(written: string): Outcome<PotIngredient> {
  let text = written.trim();
  if (text.length > 400)
    return bad({
      code: 'too-long',
      message: 'That is too long for one ingredient.',
      expected: 'a name or formula, an amount and a strength',
      cure: 'Write one ingredient at a time.',
    });
  let formula: string | undefined;
  const bracketed = /\s\[(.+)\](?=\s|$)/.exec(text);
  if (bracketed) {
    const [, inside = '', rest = ''] = /^(\S+)(.*)$/.exec(bracketed[1]!.trim()) ?? [];
    // What follows the formula in its brackets, a strength perhaps, is read with the rest.
    formula = isFormula(bracketed[1]!.trim()) ? bracketed[1]!.trim() : inside;
    text =
      `${text.slice(0, bracketed.index)} ${text.slice(bracketed.index + bracketed[0].length)}${isFormula(bracketed[1]!.trim()) ? '' : rest}`.trim();
  }
  const state: string[] = [];
  let strength: StatedStrength | undefined;
  text = text
    .replace(/\s\(([^()]*)\)(?=\s|$)/g, (bracket, inner: string) => {
      if (/^[ivx]+$/i.test(inner.trim())) return bracket.trimStart();
      let kept = ' ';
      for (const piece of inner.split(/[,;]/)) {
        const words = piece.trim();
        const whole = parseQuantity(words);
        // An amount in brackets is an amount all the same.
        if (whole.ok && ['mass', 'volume', 'amount', 'drops'].includes(whole.value.dimension)) {
          kept += `${words} `;
          continue;
        }
        const dense = /^(?:density|d)?\s*[=:]?\s*(\d[\d.]*\s*(?:g\/m[lL]|g\/cm3|g\/cm³|kg\/L))$/.exec(words);
        if (dense) {
          kept += `${dense[1]} `;
          continue;
        }
        const number = /^[≥>~]?\s*[\d.]+\s*(?:%(?:\s*w\/[vw])?|mol\/L|M)/i.exec(words);
        const quantity = number ? parseQuantity(number[0].replace(/^[≥>~]\s*/, '')) : undefined;
        if (quantity?.ok) strength ??= statedStrength(quantity.value);
        state.push(
          ...words
            .slice(number?.[0].length ?? 0)
            .toLowerCase()
            .split(/\s+/)
            .filter(Boolean),
        );
      }
      return kept;
    })
    .replace(/\s+/g, ' ')
    .trim();
  // `10 g sodium nitrite`: the amount may stand first.
  for (const count of [2, 1]) {
    const first = text.split(' ').slice(0, count).join(' ');
    const rest = text.slice(first.length).trim();
    if (/^[\d.]/.test(first) && rest !== '' && /[A-Za-z]/.test(rest) && !isFormula(text)) {
      const leading = parseQuantity(first);
      if (leading.ok) {
        text = `${rest} ${first}`;
        break;
      }
    }
  }
  let read = parseReagentText(text);
  // Words after the quantities (`Zn 5 g dust`, `HCl 5 mL dilute`) tell of its state.
  const trailing: string[] = [];
  for (let rest = text; !read.ok && trailing.length < 4; ) {
    const cut = /^(.+?)[\s,]+([A-Za-z][a-z-]*)$/.exec(rest);
    if (!cut) return read;
    rest = cut[1]!;
    trailing.push(cut[2]!.toLowerCase());
    const again = parseReagentText(rest);
    if (again.ok && again.value.name !== rest) {
      read = again;
      state.push(...trailing);
    }
  }
  if (!read.ok) return read;
  let name = read.value.name;
  // `vitamin C`, `rhodamine B` and `pigment PB27` end in no formula.
  const attached = read.value.formula?.written;
  if (attached !== undefined && isColourIndexName(attached)) name = attached;
  else if (attached !== undefined && /^[A-Z]$/.test(attached) && name !== attached) name = `${name} ${attached}`;
  else formula ??= attached;
  for (
    let first = /^(\S+)\s+(.+)$/.exec(name);
    first && stateWords.has(first[1]!.toLowerCase());
    first = /^(\S+)\s+(.+)$/.exec(name)
  ) {
    state.push(first[1]!.toLowerCase());
    name = first[2]!;
  }
  const last = /^(.+)\s+(\S+)$/.exec(name);
  if (last && stateWords.has(last[2]!.toLowerCase())) {
    state.push(last[2]!.toLowerCase());
    name = last[1]!;
  } else if (
    last &&
    !formula &&
    /[A-Z]/.test(last[2]!) &&
    last[2]!.length > 1 &&
    !/^[IVX]+$/.test(last[2]!) &&
    isFormula(last[2]!)
  ) {
    formula = last[2]!;
    name = last[1]!;
  }
  strength = read.value.strength ? (statedStrength(read.value.strength) ?? strength) : strength;
  if (formula === undefined && !name.includes(' ') && /^[A-Z([{\d]/.test(name) && isFormula(name)) formula = name;
  if (name === '')
    return bad({
      code: 'no-reagent',
      message: 'The line does not begin with a name or formula.',
      expected: 'a formula or a name',
      cure: 'Write e.g. sodium nitrite 5 g.',
    });
  return good({
    name,
    ...(formula !== undefined && { formula }),
    ...(read.value.amount && amountOf(read.value.amount, read.value.purity, read.value.dropVolume)),
    ...(strength && { strength }),
    ...(read.value.density && { density: read.value.density.base.toFixed() }),
    ...(state.length > 0 && { state }),
  });
}
