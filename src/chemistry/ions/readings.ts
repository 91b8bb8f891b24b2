// Ways in which a stretch of a formula can be read as an ion.
import { elements } from '../atomic-weights.js';
import { one, type Decimal } from '../exact.js';
import { chargeText, composition, formulaOfNodes, nodesText, type FormulaNode, type Group } from '../formula/index.js';
import { nodesKey, waterKey, type Ion } from './model.js';
import { ionTables, type ListedIon } from './tables.js';

/** What is inside a bracket, where that is one stretch without a number before it. */
export const insideOf = (node: FormulaNode): readonly FormulaNode[] | undefined =>
  node.kind === 'group' && node.parts.length === 1 && node.parts[0]!.multiplier.low.eq(1)
    ? node.parts[0]!.nodes
    : undefined;

/** A metal or metalloid is in it. */
export function holdsMetal(nodes: readonly FormulaNode[]): boolean {
  return nodes.some((node) =>
    node.kind === 'atom'
      ? elements().get(node.symbol)!.kind !== 'nonmetal'
      : node.parts.some((part) => holdsMetal(part.nodes)),
  );
}

/** An ion of the table; one that stands in square brackets keeps them. */
function listedIon(listed: ListedIon, count: Decimal, bracket?: Group['bracket']): Ion {
  const { id, name, formula, charge } = listed;
  const shown = bracket === '[' && !formula.startsWith('[') ? `[${formula}]` : formula;
  return { id, name, formula: `${shown}${chargeText(charge)}`, charge, count };
}

const complexIon = (text: string, charge: number, count: Decimal): Ion => ({
  id: 'complex',
  name: `complex ion ${text}`,
  formula: `${text}${chargeText(charge)}`,
  charge,
  count,
});

const some = (readings: readonly Ion[]): readonly Ion[] | undefined => (readings.length > 0 ? readings : undefined);

/** The anions that nodes can be read as, the likeliest first; undefined where there is none. */
export function anionReadings(nodes: readonly FormulaNode[]): readonly Ion[] | undefined {
  const [node] = nodes;
  if (nodes.length === 1 && node) return node.kind === 'atom' ? monatomicAnions(node) : bracketedAnions(node);
  const listed = (ionTables().anions.get(nodesKey(nodes)) ?? []).map((known) => listedIon(known, one));
  return some(listed) ?? some(oxyanions(nodes));
}

/** `O2` of an oxide are two O^2-, of a peroxide one O2^2-. */
function monatomicAnions({ symbol, count }: { readonly symbol: string; readonly count: FormulaNode['count'] }) {
  const { anions } = ionTables();
  const number = count.low;
  const alone = (anions.get(`${symbol}1`) ?? []).map((known) => listedIon(known, number));
  const together = number.eq(1) ? [] : (anions.get(`${symbol}${number}`) ?? []).map((known) => listedIon(known, one));
  return some([...alone, ...together]);
}

/** Charges of complex ions that are in no table, in the order in which they are tried. */
const complexAnionCharges = [-1, -2, -3, -4];
const complexCationCharges = [2, 3, 1, 4];

function bracketedAnions(node: Group): readonly Ion[] | undefined {
  const inside = insideOf(node);
  if (!inside) return undefined;
  const count = node.count.low;
  const listed = ionTables().anions.get(nodesKey(inside)) ?? [];
  if (listed.length > 0) return listed.map((known) => listedIon(known, count, node.bracket));
  if (node.bracket === '[' && holdsMetal(inside))
    return complexAnionCharges.map((charge) => complexIon(`[${nodesText(inside)}]`, charge, count));
  return some(oxyanions(inside).map((ion) => ({ ...ion, count: ion.count.times(count) })));
}

/**
 * An oxyanion that is in no list, by its element: `Si4O10` is a silicate of charge 4−; with aluminium an
 * aluminosilicate.
 */
function oxyanions(nodes: readonly FormulaNode[]): readonly Ion[] {
  const { families } = ionTables();
  const atoms = composition(formulaOfNodes(nodes));
  const oxygen = atoms.get('O');
  if (!oxygen || nodes.some((node) => node.kind === 'group')) return [];
  const others = [...atoms.keys()].filter((symbol) => symbol !== 'O' && symbol !== 'H');
  const aluminosilicate = others.length === 2 && others.includes('Al') && others.includes('Si');
  const family = others.length === 1 ? families.get(others[0]!) : undefined;
  if (!family && !aluminosilicate) return [];
  const stateOf = (symbol: string): number => (symbol === 'Al' ? 3 : families.get(symbol)!.state);
  const ofOthers = others.map((symbol) => atoms.get(symbol)!.low.times(stateOf(symbol)));
  const ofOxygenAndHydrogen = oxygen.low.times(-2).plus(atoms.get('H')?.low ?? 0);
  const charge = ofOthers.reduce((sum, part) => sum.plus(part), ofOxygenAndHydrogen);
  if (charge.gte(0)) return [];
  const id = aluminosilicate ? 'aluminosilicate' : family!.id;
  const text = nodesText(nodes);
  const formula = charge.isInteger() ? `${text}${chargeText(charge.toNumber())}` : text;
  return [{ id, name: id, formula, charge: charge.toNumber(), count: one }];
}

/** The cations that nodes can be read as, the likeliest first; undefined where there is none. */
export function cationReadings(nodes: readonly FormulaNode[]): readonly Ion[] | undefined {
  const [node] = nodes;
  if (nodes.length === 1 && node) return node.kind === 'atom' ? monatomicCations(node) : bracketedCations(node);
  const listed = (ionTables().cations.get(nodesKey(nodes)) ?? []).filter(({ formula }) => formula !== 'Hg2');
  return some(listed.map((known) => listedIon(known, one))) ?? openComplexes(nodes);
}

function monatomicCations({ symbol, count }: { readonly symbol: string; readonly count: FormulaNode['count'] }) {
  const { cations, states } = ionTables();
  if (symbol === 'H') return [listedIon(cations.get('H1')![0]!, count.low)];
  const { name } = elements().get(symbol)!;
  return states
    .get(symbol)
    ?.map((charge): Ion => ({ id: name, name, formula: `${symbol}${chargeText(charge)}`, charge, count: count.low }));
}

function bracketedCations(node: Group): readonly Ion[] | undefined {
  const inside = insideOf(node);
  if (!inside) return undefined;
  const count = node.count.low;
  const listed = ionTables().cations.get(nodesKey(inside)) ?? [];
  if (listed.length > 0) return listed.map((known) => listedIon(known, count));
  return node.bracket === '[' && holdsMetal(inside)
    ? complexCationCharges.map((charge) => complexIon(`[${nodesText(inside)}]`, charge, count))
    : undefined;
}

const neutralLigands = new Set(['H3 N1', waterKey]);

/** A metal with neutral ligands, written without square brackets: Cu(NH3)4. */
function openComplexes(nodes: readonly FormulaNode[]): readonly Ion[] | undefined {
  const [metal, ligand] = nodes;
  if (nodes.length !== 2 || metal?.kind !== 'atom' || ligand?.kind !== 'group') return undefined;
  const states = ionTables().states.get(metal.symbol);
  const inside = insideOf(ligand);
  return states && inside && neutralLigands.has(nodesKey(inside))
    ? states.map((charge) => complexIon(`[${nodesText(nodes)}]`, charge, one))
    : undefined;
}
