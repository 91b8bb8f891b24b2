// What is said of a substance has to be true of it: of an earth not the statements of what it is only like, of a grade
// not those of other grades, of a dye no formula of another.
import { describe, expect, it } from 'vitest';
import { assumptionsOf, resolveNamed } from '../../../src/reagents/index.js';
import { reckonReagentBox } from '../../../src/hazards/box-of-reagent.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { remarksOn } from '../../../src/journal/index.js';
import { emptyRoom, entry } from '../entries.js';

const codesOf = (name: string, formula?: string): readonly string[] =>
  (reckonReagentBox(resolveNamed(name, formula)).substances ?? []).flatMap(({ codes }) => codes);
const notesOf = (name: string, formula?: string): string =>
  JSON.stringify(reckonReagentBox(resolveNamed(name, formula)));
const saidOf = (name: string): string => assumptionsOf(resolveNamed(name)).join(' ');

describe('hazard statements', () => {
  it.each([
    ['pumice', 'H350'],
    ['ground glass', 'H350'],
    ['red ochre', 'H318'],
    ['burnt sienna', 'H370'],
    ['raw umber', 'H302'],
    ['umber, Cyprus', 'H332'],
    ["terre d'ombre naturelle", 'H302'],
    ['raw umber', 'H332'],
  ])('of %s are not those of what it is only like: %s', (name, code) => {
    expect(codesOf(name)).not.toContain(code);
  });
  it.each([
    ['raw umber', 'H373'],
    ['burnt umber', 'H373'],
    ["terre d'ombre naturelle", 'H373'],
    ['attapulgite', 'H350i'],
    ["fuller's earth", 'H372'],
    ['quartz flour, 400 mesh', 'H350'],
    ['quartz flour (Norway)', 'H350'],
  ])('of %s are its own: %s', (name, code) => {
    const own = code === 'H350i' ? 'H351' : code;
    expect(codesOf(name)).toContain(own);
  });
  it.each([
    ['quartz flour, 400 mesh', 'SiO2'],
    ['quartz flour (Norway)', undefined],
    ['silica gel, blue dot', 'SiO2'],
  ])('of one grade of silica are not those of others: %s', (name, formula) => {
    const told = notesOf(name, formula);
    if (name.startsWith('quartz')) expect(told).not.toMatch(/not the crystalline form|nano-sized|cristobalite/);
    else expect(told).not.toMatch(/H350|Calcined grades/);
  });
  it.each(['green earth (Verona)', 'bone black, bought', 'egg yolk', 'egg yolk (two eggs)', 'cochineal, whole'])(
    'are looked up where words behind it tell only whence it is: %s',
    (name) => expect(notesOf(name)).not.toMatch(/No hazard data/),
  );
  it.each(['ultramarine (with lead chromate)', 'green earth, toned with emerald green'])(
    'are not told as those of one part where words behind it name another: %s',
    (name) => expect(notesOf(name)).toMatch(/No hazard data|lead|arsen|copper/i),
  );
  it.each([
    ['copper sulfate', 'H318'],
    ['blue vitriol', 'H318'],
    ['copper sulphate', 'H319'],
  ])('of a salt of unknown water are those of both: %s %s', (name, code) => expect(codesOf(name)).toContain(code));
  it.each([
    ['aluminium foil', 'H228'],
    ['aluminium sheet', 'H261'],
    ['zinc sheet', 'H410'],
    ['zinc strip', 'H410'],
  ])('of a metal in the piece are not those of its powder: %s', (name, code) =>
    expect(codesOf(name)).not.toContain(code),
  );
  it.each([
    ['aluminium powder', 'H261'],
    ['zinc dust', 'H410'],
  ])('of a powder are its own: %s', (name, code) => expect(codesOf(name)).toContain(code));
  it('of what the maker gave a formula for are those of the formula', () => {
    expect(codesOf('pumice', 'SiO2')).toContain('H350');
  });
});

describe('a stand-in for what no formula tells', () => {
  it.each([
    ['cochineal', /C20H20O10/],
    ['weld', /C20H20O10/],
    ['red cabbage', /C20H20O10/],
    ['gum arabic', /C6H10O5/],
    ['clove oil', /C57/],
    ['spike oil', /C57/],
    ['paraffin oil', /C57/],
    ['linseed oil', /C57/],
    ['ox gall', /C6H12N2O3/],
    ['pH strips', /C20H14O4/],
    ['litmus paper', /C20H14O4/],
    ['raw umber', /\(MnO2\)/],
    ['inox wire', /Fe3C/],
  ])('is not told as its formula: %s', (name, formula) => expect(saidOf(name)).not.toMatch(formula));
  it.each([
    ['cochineal', /dye/],
    ['gum arabic', /starch|plant/],
    ['linseed oil', /drying oil/],
  ])('is told in words: %s', (name, words) => expect(saidOf(name)).toMatch(words));
});

it.each(['lye pearls', 'caustic soda pearls', 'lye beads'])('%s are lye, and no pearl', (name) =>
  expect(notesOf(name)).not.toMatch(/CaCO3|calcium carbonate/),
);

it('a name that is taken as itself is no news', () => {
  const one = entry(1, 'reagents: [{ reagent: { name: egg yolk }, amount: 5 g }]');
  const { dangers, findings } = reckonDangers(one, emptyRoom);
  expect(JSON.stringify([remarksOn(one, findings), dangers.cautions ?? []])).not.toMatch(/taken as egg yolk/);
});

describe('a waste', () => {
  const told = (formula: string): string => {
    const one = entry(1, `reagents: [{ reagent: { name: "${formula}", formula: "${formula}" }, amount: 5 g }]`);
    const { findings } = reckonDangers(one, emptyRoom);
    return JSON.stringify(remarksOn(one, findings));
  };
  it('of barium sulfate holds no hazardous element', () => expect(told('BaSO4')).not.toMatch(/Hazardous elements/));
  it('of barium carbonate does', () => expect(told('BaCO3')).toMatch(/Hazardous elements/));
});
