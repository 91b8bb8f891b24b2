// Water of crystallisation behind a name, and a name that tells of other water than the formula beside it.
import { describe, expect, it } from 'vitest';
import { hillFormula, parseFormula } from '../../src/chemistry/index.js';
import { cupboardOf, readReagentText, resolveReagent, waterContradicted } from '../../src/reagents/index.js';

describe('a name and a formula that tell of different water', () => {
  it.each([
    ['nickel sulphate hexahydrate', 'NiSO4·7H2O', 'NiSO4·6H2O'],
    ['plaster of Paris', 'CaSO4·2H2O', 'CaSO4·0.5H2O'],
    ['green vitriol', 'FeSO4·H2O', 'FeSO4·7H2O'],
    ['blue vitriol', 'CuSO4·3H2O', 'CuSO4·5H2O'],
    ['Eisensulfat-Heptahydrat', 'FeSO4·H2O', 'FeSO4·7H2O'],
    ['copper sulfate pentahydrate', 'CuSO4', 'CuSO4·5H2O'],
    ['soda ash', 'Na2CO3·10H2O', 'Na2CO3'],
    ['gypsum', 'CaSO4·0.5H2O', 'CaSO4·2H2O'],
    ['cobalt chloride hexahydrate', 'CoCl2.2H2O', 'CoCl2·6H2O'],
    ['magnesium sulfate monohydrate', 'MgSO4*7H2O', 'MgSO4·H2O'],
  ])('%s as %s', (name, written, meant) => {
    const formula = parseFormula(written);
    expect(formula.ok && waterContradicted(name, formula.value)?.meant).toBe(meant);
  });
  it.each([
    ['alum', 'KAl(SO4)2·12H2O'],
    ['Epsom salt', 'MgSO4·7H2O'],
    ['cobalt chloride hexahydrate', 'CoCl2·6H2O'],
    ['lead acetate trihydrate', 'Pb(CH3COO)2·3H2O'],
    ['sodium carbonate', 'Na2CO3·H2O'],
    ['plaster of Paris', '2CaSO4·H2O'],
    ['calcium sulfate hemihydrate', 'CaSO4·0.5H2O'],
    ['washing soda', 'Na2CO3·10H2O'],
    ['copper(II) sulfate', 'CuSO4·5H2O'],
    ['Prussian blue', 'Fe4[Fe(CN)6]3·14H2O'],
    ['iron sulfate heptahydrate', 'FeSO4·xH2O'],
    ['cuprous chloride', 'CuCl'],
  ])('nothing is said of %s as %s', (name, written) => {
    const formula = parseFormula(written);
    expect(formula.ok && waterContradicted(name, formula.value)).toBeUndefined();
  });
});

describe('water written behind a name', () => {
  const takenFor = (line: string): string | undefined => {
    const read = readReagentText(line);
    if (!read.ok) return undefined;
    const bare = cupboardOf(new Map(), () => undefined);
    return resolveReagent(read.value, bare).substance?.formula;
  };
  const atoms = (formula = ''): string | undefined => {
    const read = parseFormula(formula);
    return read.ok ? hillFormula(read.value) : undefined;
  };
  it.each([
    ['sulfure de sodium 9H2O 7.2 g', 'Na2S·9H2O'],
    ['sodium sulfide·9H2O 7 g', 'Na2S·9H2O'],
    ['sodium sulfide (9 H2O) 7 g', 'Na2S·9H2O'],
    ['Natriumsulfid · 9 H2O 7 g', 'Na2S·9H2O'],
    ['copper sulfate 5H2O 12 g', 'CuSO4·5H2O'],
    ['Kupfersulfat 5 H2O 12 g', 'CuSO4·5H2O'],
    ['acétate de cadmium 2H2O 6 g', 'Cd(CH3COO)2·2H2O'],
    ['oxalic acid, 2H2O 3 g', 'H2C2O4·2H2O'],
  ])('is its own: %s', (line, formula) => expect(atoms(takenFor(line))).toBe(atoms(formula)));
  it('and does not make water of a name that nobody knows', () =>
    expect(takenFor('moonstuff 3H2O 2 g')).toBeUndefined());
});
