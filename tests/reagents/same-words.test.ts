// The same words get the same answer: random reagents, in many spellings, through the commands and through entries that
// are read and reckoned as a maker's are.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { resolveText } from '../../src/reagents/index.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import { foreseeJson, journalOf, reckonedIn, weighJson } from './journal.js';

/** What meets the reagent, so that its amount shows in a gas; and a reaction in which it is weighed out. */
interface Partner {
  readonly line: string;
  readonly name: string;
  readonly amount: string;
  readonly reaction: string;
}
const sulfide: Partner = {
  line: 'sodium sulfide nonahydrate 500 g',
  name: 'sodium sulfide nonahydrate',
  amount: '500 g',
  reaction: '',
};
const of = (partner: Partner, reaction: string): Partner => ({ ...partner, reaction });
const ammoniumSalt: Partner = { ...sulfide, line: 'sal ammoniac 500 g', name: 'sal ammoniac' };
const bleaching: Partner = { ...sulfide, line: 'bleaching powder 500 g', name: 'bleaching powder' };

interface Kind {
  /** Ways to name it; some are formulae, some tell a strength. */
  readonly names: readonly string[];
  readonly strengths: readonly string[];
  readonly densities: readonly string[];
  readonly partner: Partner;
}
const kinds: readonly Kind[] = [
  {
    names: ['HCl', 'hydrochloric acid', 'muriatic acid', 'conc. HCl', 'spirits of salt', 'dilute hydrochloric acid'],
    strengths: ['37 %', '10%', '2.0 mol/L', '2 M', '20 °Bé', '10 % w/v', '30-35 %', '32 % w/w'],
    densities: ['1.18 g/mL', '1.10 g/cm3', '1.05 kg/L'],
    partner: of(sulfide, 'CaCO3 + 2 HCl -> CaCl2 + H2O + CO2'),
  },
  {
    names: ['CH3COOH', 'acetic acid', 'vinegar', 'glacial acetic acid', 'white vinegar', 'acetic acid (glacial)'],
    strengths: ['60 %', '5%', '1.0 mol/L', '10 % w/v', '80 g/L'],
    densities: ['1.05 g/mL', '1.0642 g/mL'],
    partner: of(sulfide, 'CaCO3 + 2 CH3COOH -> Ca(CH3COO)2 + H2O + CO2'),
  },
  {
    names: ['H2SO4', 'sulfuric acid', 'Sulphuric acid', 'battery acid', 'oil of vitriol', 'concentrated sulfuric acid'],
    strengths: ['96 %', '10 %', '0.5 mol/L', '66 °Bé', '4 M', '35 %'],
    densities: ['1.84 g/mL', '1.28 g/mL'],
    partner: of(sulfide, 'CaCO3 + H2SO4 -> CaSO4 + H2O + CO2'),
  },
  {
    names: ['NaOH', 'sodium hydroxide', 'caustic soda', 'lye', 'sodium hydroxide solution'],
    strengths: ['50 %', '10 % w/v', '2.0 M', '40 g/L', '50 °Tw'],
    densities: ['1.109 g/mL', '1.53 g/mL'],
    partner: of(ammoniumSalt, 'CuSO4 + 2 NaOH -> Cu(OH)2 + Na2SO4'),
  },
  {
    names: ['NH3', 'ammonia', 'household ammonia', '0.88 ammonia', 'ammonium hydroxide', 'NH4OH', 'aq. ammonia'],
    strengths: ['25 %', '28 %', '10%', '2.0 mol/L', '26 °Bé'],
    densities: ['0.91 g/mL', '0.88 g/mL'],
    partner: of(bleaching, 'CuSO4 + 4 NH3 -> [Cu(NH3)4]SO4'),
  },
  {
    names: ['H2O2', 'hydrogen peroxide', 'hair developer', 'perhydrol', 'peroxide'],
    strengths: ['30 %', '3 %', '20 vol', '100 volume', '1.0 mol/L'],
    densities: ['1.11 g/mL'],
    partner: of(bleaching, '2 H2O2 -> 2 H2O + O2'),
  },
];
const amounts = ['10 mL', '5.0 ml', '2.50 g', '0.250 L', '12 drops', '500 mg', '0.050 mol', '7 cm3', '1 drop'];

interface Reagent {
  readonly kind: Kind;
  readonly name: string;
  readonly strength?: string;
  readonly density?: string;
  readonly amount: string;
  readonly order: number;
}
const reagent: fc.Arbitrary<Reagent> = fc.constantFrom(...kinds).chain((kind) =>
  fc.record({
    kind: fc.constant(kind),
    name: fc.constantFrom(...kind.names),
    strength: fc.option(fc.constantFrom(...kind.strengths), { nil: undefined }),
    density: fc.option(fc.constantFrom(...kind.densities), { nil: undefined, freq: 2 }),
    amount: fc.constantFrom(...amounts),
    order: fc.nat(4),
  }),
);

/** One reagent in one line, in one of the orders in which it is said at the bench. */
function lineOf({ name, strength = '', density = '', amount, order }: Reagent): string {
  const both = [strength, density].filter(Boolean).join(', ');
  const lines = [
    `${name} ${strength} ${density} ${amount}`,
    `${name} ${amount} ${strength} ${density}`,
    `${name} ${both === '' ? '' : `(${both})`} ${amount}`,
    `${amount} of ${name} ${strength} ${density}`,
    `${name}, ${both}, ${amount}`.replace(', ,', ','),
  ];
  return lines[order]!.replace(/\s+/g, ' ').trim();
}

const quoted = (key: string, text: string | undefined): string =>
  text === undefined ? '' : `, ${key}: ${JSON.stringify(text)}`;

/** The same in the front matter of an entry, with what it meets. */
function entryOf({ kind: { partner }, name, strength, density, amount }: Reagent): string {
  const described = `name: ${JSON.stringify(name)}${quoted('strength', strength)}${quoted('density', density)}`;
  return `reagents:
  - { reagent: { ${described} }, amount: ${amount} }
  - { reagent: { name: ${partner.name} }, amount: ${partner.amount} }`;
}

const shown = (foreseen: readonly { rule: string; severity: string; worstCase?: { mol: string; litres: string } }[]) =>
  foreseen.map(({ rule, severity, worstCase }) => [rule, severity, worstCase?.mol, worstCase?.litres]).sort();

async function compare(one: Reagent, entry: ReckonedEntry, journal: string): Promise<void> {
  const line = lineOf(one);
  const resolved = resolveText(line);
  if (!resolved.ok) throw new Error(`${line}: ${resolved.fault.message}`);
  const [written] = entry.amounts.samples[0]!.ingredients;
  const { substance, taken, strength } = resolved.value;
  expect([line, written!.formula], 'substance').toEqual([line, substance!.formula]);
  expect([line, written!.amount?.value], 'mol').toEqual([
    line,
    taken.substance?.value.toSignificantDigits(12).toFixed(),
  ]);
  const box = entry.dangers.box.substances![0]!;
  const percent = strength.atMost.massFraction?.times(100).toNumber();
  const diluted = strength.basis !== 'undiluted' && strength.basis !== 'not-given' && percent !== undefined;
  expect([line, box.found === 'sds' ? undefined : box.strength], 'strength').toEqual([
    line,
    diluted ? `${Number(Math.min(100, percent).toPrecision(3))} % by mass` : undefined,
  ]);
  const told = await foreseeJson(journal, line, one.kind.partner.line);
  expect([line, shown(told.foreseen)], 'gas').toEqual([line, shown(entry.dangers.foreseen!)]);
  const list = await weighJson(journal, one.kind.partner.reaction, line);
  if (taken.substance)
    expect([line, Number(list.reagents[0].amount.value).toPrecision(9)], 'weighed').toEqual([
      line,
      Number(written!.amount!.value).toPrecision(9),
    ]);
}

describe('a reagent', () => {
  it('is the same substance, strength, amount and gas in a command and in an entry', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(reagent, { minLength: 12, maxLength: 12 }), async (reagents) => {
        const journal = journalOf({ entries: reagents.map(entryOf) });
        const entries = await reckonedIn(journal);
        for (const [at, one] of reagents.entries()) await compare(one, entries[at]!, journal);
      }),
      { numRuns: 12, endOnFailure: true },
    );
  }, 120_000);
});
