// Salts as old recipes and labels on the Continent call them, by acid and base: `salpetersaures Bleioxyd`, `sulfate de
// soude`. Formulae are those of the nomenclature of the 19th century, from memory.
import { expect, it } from 'vitest';
import { resolveText } from '../../src/reagents/index.js';
import { inEnglish } from '../../src/reagents/other-languages.js';

const formulaOf = (name: string) => {
  const read = resolveText(`${name} 5 g`);
  return read.ok ? read.value.substance?.formula?.replace('.', '·') : undefined;
};

it.each([
  ['kohlensaures Natron', 'Na2CO3'],
  ['doppeltkohlensaures Natron', 'NaHCO3'],
  ['schwefelsaures Kupferoxyd', 'CuSO4'],
  ['salpetersaures Bleioxyd', 'Pb(NO3)2'],
  ['salpetersaures Silberoxyd', 'AgNO3'],
  ['chromsaures Kali', 'K2CrO4'],
  ['doppeltchromsaures Kali', 'K2Cr2O7'],
  ['chlorsaures Kali', 'KClO3'],
  ['schwefelsaures Eisenoxydul', 'FeSO4'],
  ['oxalsaures Ammoniak', '(NH4)2C2O4'],
  ['kohlensaurer Baryt', 'BaCO3'],
  ['schwefelsaurer Kalk', 'CaSO4'],
  ['übermangansaures Kali', 'KMnO4'],
  ['salpetrigsaures Natron', 'NaNO2'],
  ['nitrate de baryte', 'Ba(NO3)2'],
  ['sulfate de magnésie', 'MgSO4'],
  ["sulfate d'alumine", 'Al2(SO4)3'],
  ['carbonate de chaux', 'CaCO3'],
  ['chlorate de potasse', 'KClO3'],
  ['sulfate de soude anhydre', 'Na2SO4'],
  ['carbonato de sosa', 'Na2CO3'],
  ['solfato di soda', 'Na2SO4'],
  ['nitrato de potasa', 'KNO3'],
  ['sulfato de zinc anhidro', 'ZnSO4'],
  ['soude caustique', 'NaOH'],
])('%s', (name, formula) => expect(formulaOf(name)).toBe(formula));

it.each(['chlorure de soude', 'chlorure de potasse', 'cloruro di soda'])('%s is bleach, and no chloride', (name) =>
  expect(inEnglish(name)).toBeUndefined(),
);
