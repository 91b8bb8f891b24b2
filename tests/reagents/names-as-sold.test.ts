// Names of household goods and solutions, names with accents, and names that leave open which salt is meant.
import { describe, expect, it } from 'vitest';
import { identify, readReagentText, resolveText } from '../../src/reagents/index.js';

const formulaOf = (line: string): string | undefined => {
  const read = readReagentText(line);
  return read.ok ? identify(read.value)?.substance.formula : undefined;
};

it.each([
  ['vinaigre blanc 8 %', 'CH3COOH'],
  ['vinagre blanco', 'CH3COOH'],
  ['aceto bianco', 'CH3COOH'],
  ['Eisen(III)-chlorid-Lösung 40 %ig', 'FeCl3'],
  ['Kupfersulfatlösung', 'CuSO4'],
  ['solution de sulfate de cuivre', 'CuSO4'],
  ['thin bleach 5% w/v', 'NaClO'],
  ['silice', 'SiO2'],
  ['sílice', 'SiO2'],
  ['bórax', 'Na2B4O7.10H2O'],
])('%s is %s', (line, formula) => expect(formulaOf(line)).toBe(formula));

describe('iron chloride', () => {
  const doubtsOf = (line: string): readonly string[] => {
    const resolved = resolveText(line);
    return resolved.ok ? resolved.value.doubts.map(({ code }) => code) : [];
  };
  it.each(['iron chloride 5 g', 'chlorure de fer 5 g'])('%s may be one or the other', (line) =>
    expect(doubtsOf(line)).toContain('salt-of-two-states'),
  );
  it.each(['iron(III) chloride 5 g', 'ferric chloride 5 g', 'FeCl2 5 g', 'Eisenchlorid 5 g'])('%s tells', (line) =>
    expect(doubtsOf(line)).not.toContain('salt-of-two-states'),
  );
});

describe('battery acid is as strong as it is sold, in every language', () => {
  const strengthOf = (line: string) => {
    const read = resolveText(line);
    if (!read.ok) return undefined;
    const { basis, massFraction } = read.value.strength;
    return [basis, massFraction?.approximateValue];
  };
  // 33 to 39 %: src/reagents/sold-as.csv, battery electrolyte of relative density 1.285
  it.each([
    'battery acid',
    'Akkusäure',
    'Batteriesäure',
    'acide de batterie',
    'acido per batterie',
    'ácido de batería',
  ])('%s 10 mL', (name) => {
    expect(strengthOf(`${name} 10 mL`)).toEqual(['name', 0.378]);
  });
  it('what is only sulfuric acid is not', () =>
    expect(strengthOf('Schwefelsäure 10 mL')).not.toEqual(strengthOf('battery acid 10 mL')));
});
