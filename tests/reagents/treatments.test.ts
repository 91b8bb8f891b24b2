// What was done with a reagent before, told behind a comma, costs neither its amount nor its name.
import { describe, expect, it } from 'vitest';
import { usesInOneText } from '../../src/journal/mending/use-in-one-text.js';
import { readReagentText } from '../../src/reagents/text.js';

const amountIn = (line: string): string | undefined => {
  const read = readReagentText(line);
  if (!read.ok) return read.fault.message;
  return read.value.amount?.kind === 'measured' ? read.value.amount.quantity.written : undefined;
};

describe('a treatment behind the amount', () => {
  it.each([
    ['Prussian blue 10 g, heated to 400 °C', '10 g'],
    ['yellow ochre 20 g, dried overnight at 110 °C', '20 g'],
    ['chalk 4 g, washed', '4 g'],
    ['chalk 4 g, washed twice with 100 mL water', '4 g'],
    ['soda 2.50 g, finely ground and dried at 200 °C for 2 h', '2.50 g'],
    ['10 g Prussian blue, slowly heated to 150 °C', '10 g'],
    ['Prussian blue, heated to 400 °C, 10 g', '10 g'],
    ['Berliner Blau 10 g, auf 400 °C erhitzt', '10 g'],
    ['Kreide 4 g, bei 110 °C getrocknet', '4 g'],
    ['craie 4 g, séchée à 110 °C', '4 g'],
    ['gesso 4 g, essiccato a 110 °C', '4 g'],
    ['yeso 4 g, secado a 110 °C', '4 g'],
  ])('%s', (line, amount) => {
    expect(amountIn(line)).toBe(amount);
    expect(usesInOneText(line)).toEqual([expect.objectContaining({ amount })]);
  });

  it('is told as a word that no amount was reckoned with', () => {
    const read = readReagentText('Prussian blue 10 g, heated to 400 °C');
    expect(read.ok && read.value).toMatchObject({ name: 'Prussian blue', unused: ['heated to 400 °C'] });
  });

  it('stays beside the name in an entry, where its heat is judged', () => {
    expect(usesInOneText('Prussian blue 10 g, heated to 400 °C')).toEqual([
      { reagent: 'Prussian blue, heated to 400 °C', amount: '10 g' },
    ]);
  });
});

describe('what is none stays what it was', () => {
  it.each([
    ['chalk 4 g, dried alum 3 g', ['chalk', 'dried alum'], ['4 g', '3 g']],
    ['lead nitrate 10 g, potassium chromate 6 g', ['lead nitrate', 'potassium chromate'], ['10 g', '6 g']],
    ['sodium carbonate 5 g, dissolved in 50 mL water', ['sodium carbonate', 'water'], ['5 g', '50 mL']],
  ])('several things in one text: %s', (line, names, amounts) => {
    const uses = usesInOneText(line);
    expect(uses.map(({ reagent }) => reagent)).toEqual(names);
    expect(uses.map(({ amount }) => amount)).toEqual(amounts);
  });

  it('a second thing in it is not hidden', () => {
    expect(readReagentText('charcoal 4 g, ground with 5 g sulfur').ok).toBe(false);
  });

  it('a strength behind the comma is a strength', () => {
    const read = readReagentText('hydrochloric acid 25 mL, 10 %');
    expect(read.ok && read.value.strength?.written).toBe('10 %');
  });
});
