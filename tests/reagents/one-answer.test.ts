// One bottle, one answer: the same words are the same substance, strength and amount in an entry, in both commands, in
// the hazard box, in the metal account and in the cost.
import { describe, expect, it } from 'vitest';
import { resolveMixture } from '../../src/hazards/foresee/resolve-mixture.js';
import { lotsOf } from '../../src/reckoning/lots.js';
import { resolveJar, resolveText } from '../../src/reagents/index.js';
import { reckonReagentBox } from '../../src/hazards/box-of-reagent.js';
import { reckonReagent } from '../../src/reckoning/reagent.js';
import { foreseeJson, journalOf, reckonedIn, weighJson } from './journal.js';

const mmol = (text: string): number => {
  const read = resolveText(text);
  if (!read.ok) throw new Error(read.fault.message);
  return Number(read.value.taken.substance!.value) * 1000;
};

describe('a jar of something made here', () => {
  const white = { name: 'home white', lot: '1/A' };
  const folder = () =>
    journalOf({
      shelf:
        'my-white: { name: home white, lot: 1/A }\n' +
        'muriatic: { name: hydrochloric acid, formula: HCl, strength: 10 % }\n',
      entries: [
        `pigment: { name: lead white, formula: PbCO3 }
reaction: Pb(NO3)2 + Na2CO3 -> PbCO3 + 2 NaNO3
reagents:
  - { reagent: { name: lead nitrate, formula: Pb(NO3)2 }, amount: 5.00 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 2.00 g }
samples: [{ sample: A, obtained: 3.90 g }]`,
        `pigment: { name: lead chloride, formula: PbCl2 }
reaction: PbCO3 + 2 HCl -> PbCl2 + H2O + CO2
reagents:
  - { reagent: my-white, amount: 1.00 g }
  - { reagent: muriatic, amount: 10 mL }
samples: [{ sample: A, obtained: 0.90 g }]`,
      ],
    });
  it('is lead carbonate to the box, the rules, the amounts, the metal account and the lineage alike', async () => {
    const [, second] = await reckonedIn(folder());
    const { box, foreseen } = second!.dangers;
    const shown = box.substances!.find(({ name }) => name === 'home white')!;
    expect([shown.found, shown.codes.includes('H360Df'), box.unknown]).toEqual([
      expect.stringMatching(/row|group/),
      true,
      [],
    ]);
    expect(foreseen!.find(({ rule }) => rule === 'carbonate-strong-acid')!.partners).toContain('home white');
    const [sample] = second!.amounts.samples;
    // 1.00 g / 267.21 g/mol; 207.2 / 267.21 of it lead
    expect(Number(sample!.ingredients[0]!.amount!.value)).toBeCloseTo(0.0037424, 6);
    expect(Number(sample!.metals!.find(({ symbol }) => symbol === 'Pb')!.in.value)).toBeCloseTo(0.7754, 4);
    expect(sample!.lineage!.from.map(({ lot }) => lot)).toContain('1/A');
  });
  it('is the same on its own page and in a command', async () => {
    const journal = folder();
    const [first] = await reckonedIn(journal);
    const lots = new Map(lotsOf(first!.entry, first!.amounts).map((lot) => [lot.lot, lot]));
    const { box, rules } = reckonReagent(white, (name) => lots.get(name));
    expect([box.unknown, box.statements.some(({ code }) => code === 'H360Df')]).toEqual([[], true]);
    expect(rules.map(({ rule }) => rule)).toContain('azide-heavy-metal');
    for (const words of ['my-white 1 g', 'home white 1 g', '1/A 1 g']) {
      const { unknown, foreseen } = await foreseeJson(journal, words, 'HCl 10 % 10 mL');
      expect([words, unknown]).toEqual([words, []]);
      expect(foreseen.map(({ rule }: { rule: string }) => rule)).toContain('carbonate-strong-acid');
    }
  });
  it('carries what was in excess, which is told with less certainty', async () => {
    const journal = journalOf({
      entries: [
        `pigment: { name: barium white, formula: BaSO4 }
reaction: BaS + Na2SO4 -> BaSO4 + Na2S
reagents:
  - { reagent: { name: barium sulfide, formula: BaS }, amount: 5.00 g }
  - { reagent: { name: sodium sulfate, formula: Na2SO4 }, amount: 2.00 g }
samples: [{ sample: A, obtained: 3.00 g }]`,
        'reagents: [{ lot: 1/A, amount: 1.00 g }, ' +
          '{ reagent: { name: hydrochloric acid, strength: 10 % }, amount: 5 mL }]',
      ],
    });
    const [, second] = await reckonedIn(journal);
    const found = second!.dangers.foreseen!.find(({ rule }) => rule === 'sulfide-strong-acid')!;
    expect([found.severity, found.worstCase]).toEqual(['warning', undefined]);
    expect(found.condition).toContain('barium sulfide was not washed out of lot 1/A');
    const told = (await foreseeJson(journal, '1/A 1 g', 'hydrochloric acid 10 % 5 mL')).foreseen;
    expect(told.find(({ rule }: { rule: string }) => rule === found.rule).severity).toBe('warning');
  });
});

describe('vinegar by the drop', () => {
  it('gives the same gas in an entry and in the command', async () => {
    const journal = journalOf({
      entries: [
        `reagents:
  - { reagent: { name: sodium sulfide nonahydrate }, amount: 3 g }
  - { reagent: { name: vinegar }, amount: 5 drops }`,
      ],
    });
    const [entry] = await reckonedIn(journal);
    const rule = 'sulfide-weak-acid';
    const reckoned = entry!.dangers.foreseen!.find((one) => one.rule === rule)!.worstCase!;
    const { foreseen } = await foreseeJson(journal, 'sodium sulfide nonahydrate 3 g', 'vinegar 5 drops');
    const told = foreseen.find((one: { rule: string }) => one.rule === rule).worstCase;
    expect([reckoned.mol, reckoned.litres]).toEqual([told.mol, told.litres]);
    // At most 5 drops of 0.083 mL (Drop (unit), encyclopedia article) of 7 % (Averill and Eldredge), 1.0080 g/mL:
    // 0.488 mmol of acid, two for each H2S, 24.465 L/mol
    expect(Number(told.litres)).toBeCloseTo(0.000488 * 0.5 * 24.465, 5);
  });
});

describe('words of strength', () => {
  // Strengths: Evergainful, concentrations of commercial acids and bases; ammonia of 0.88: encyclopaedia article and
  // Cooley
  it.each([
    ['glacial acetic acid 10 mL', 172, 176],
    ['HCl 10 mL 1.18 g/mL', 115, 120],
    ['hydrochloric acid (1.18 g/mL) 10 mL', 115, 120],
    ['ammonia 0.88 10 mL', 170, 184],
    ['ammonia 10 mL 0.88 g/mL', 170, 184],
    ['conc. sulphuric acid 5 mL', 88, 92],
  ])('%s is %d to %d mmol in the commands and in an entry', async (text, low, high) => {
    const amount = mmol(text);
    expect(amount).toBeGreaterThan(low);
    expect(amount).toBeLessThan(high);
  });
  it('hydrochloric acid by its density weighs the same in weigh and in an entry', async () => {
    const reaction = 'CaCO3 + 2 HCl -> CaCl2 + H2O + CO2';
    const journal = journalOf({
      entries: [
        `pigment: { name: chloride, formula: CaCl2 }
reaction: ${reaction}
reagents:
  - { reagent: { name: chalk, formula: CaCO3 }, amount: 20 g }
  - { reagent: { name: HCl, density: 1.18 g/mL }, amount: 10 mL }
samples: [{ sample: A }]`,
      ],
    });
    const [entry] = await reckonedIn(journal);
    const list = await weighJson(journal, reaction, 'CaCO3 20 g', 'HCl 10 mL 1.18 g/mL');
    const reckoned = entry!.amounts.samples[0]!.ingredients[1]!;
    expect(Number(list.reagents[1].amount.value)).toBeCloseTo(Number(reckoned.amount!.value), 9);
    expect(Number(reckoned.amount!.value) * 1000).toBeCloseTo(117.1, 0);
    expect(reckoned.limiting).toBe(true);
  });
});

describe('10 mol/L nitric acid without a density', () => {
  it('is one percent to the box, the rules and the amounts', async () => {
    const jar = { name: 'nitric acid', formula: 'HNO3', strength: '10 mol/L' };
    const reagent = resolveJar(jar);
    const percent = Number(reagent.strength.massFraction!.value) * 100;
    // 48.5 %: between 45 % (9.13 mol/L) and 50 % (10.39 mol/L) of the published density model (Laliberte 2009)
    expect(percent).toBeCloseTo(48.5, 1);
    const [shown] = reckonReagentBox(reagent).substances!;
    expect(shown!.strength).toBe(`${Number(percent.toPrecision(3))} % by mass`);
    const [mixed] = resolveMixture({ ingredients: [{ reagent }] }).ingredients;
    expect(mixed!.strength.percent).toBeCloseTo(percent, 9);
    const line = resolveText('HNO3 10 mL 10 mol/L');
    expect(line.ok && Number(line.value.strength.massFraction!.value) * 100).toBeCloseTo(percent, 9);
  });
});

describe('water, however it is written', () => {
  it.each(['H2O', 'H₂O', 'OH2', undefined])('as %s costs nothing, and the page keeps its cost', async (formula) => {
    const journal = journalOf({
      shelf: `soda: { name: sodium carbonate, formula: Na2CO3, price: 4.00 EUR / 1 kg }\n`,
      entries: [
        `pigment: { name: soda again, formula: Na2CO3 }
reagents:
  - { reagent: soda, amount: 5.00 g }
  - { reagent: { name: water${formula === undefined ? '' : `, formula: ${formula}`} }, amount: 60 mL, role: solvent }
samples: [{ sample: A, obtained: 4.00 g }]`,
      ],
    });
    const [entry] = await reckonedIn(journal);
    const [sample] = entry!.amounts.samples;
    expect([sample!.unpriced, sample!.cost?.text]).toEqual([undefined, '0.02 EUR']);
  });
});
