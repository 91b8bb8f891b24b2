// masstone weigh: a weighing list of an entry or of a reaction, as it is or scaled to an amount of product; dilutions.
import { WrongUse, type Command, type Given } from './command.js';
import { cupboardAt } from './entry-reader.js';
import { answerFault } from './formula.js';
import type { Answer, Weighed } from './weigh/answer.js';
import { asideOn, texts } from './weigh/options.js';
import { expectedShare } from './weigh/planning.js';

/** The one way of weighing that is asked for. */
async function weighed({ values, positionals, journal, journalNamed }: Given): Promise<Weighed<Answer>> {
  const option = (name: string): string | undefined => texts(values[name])[0];
  const [reaction, stock, target] = [option('reaction'), option('dilute'), option('target')];
  const ways = [reaction, stock, target, positionals[0]].filter((way) => way !== undefined).length;
  if (ways !== 1)
    throw new WrongUse(
      'Give an entry’s number, or --reaction with --reagent, or --target with --from, or --dilute ' +
        '(masstone weigh --help shows each).',
    );
  const plans = values.excess !== undefined || values.expect !== undefined;
  if (stock !== undefined && plans) throw new WrongUse('--excess and --expect are for a reaction or an entry.');
  if (target !== undefined && values.excess !== undefined)
    throw new WrongUse('--excess is for a reaction: in a composition it would change the composition.');
  if (target === undefined && values.from !== undefined)
    throw new WrongUse('--from names a source of a composition: give --target too.');
  const cupboardFor = (names: readonly string[]) => cupboardAt(journal, names);
  if (stock !== undefined) {
    const { weighDilution } = await import('./weigh/dilution.js');
    return weighDilution({ stock, to: option('to'), make: option('make') }, cupboardFor);
  }
  if (target !== undefined) {
    const { weighTarget } = await import('./weigh/of-target.js');
    const { balanceHere } = await import('./weigh/balance-here.js');
    const { step } = await balanceHere(option('balance'), journalNamed ? journal : undefined);
    const expect = expectedShare(option('expect'));
    return weighTarget({ target, from: texts(values.from), for: option('for'), step, expect }, journal);
  }
  const plan = { excess: texts(values.excess), expect: option('expect') };
  const scale = { plan, product: option('product'), for: option('for'), balance: option('balance') };
  if (reaction !== undefined) {
    const { weighReaction } = await import('./weigh/of-reaction.js');
    const asked = { reaction, reagents: texts(values.reagent), obtained: option('obtained'), ...scale };
    return weighReaction(asked, journal, journalNamed ? journal : undefined);
  }
  if (positionals.length !== 1 || !/^\d{1,9}$/.test(positionals[0]!))
    throw new WrongUse('An entry is named by its number: masstone weigh 14.');
  const { weighEntry } = await import('./weigh/of-entry.js');
  return weighEntry({ number: Number(positionals[0]), sample: option('sample'), ...scale }, journal);
}

export const command: Command = {
  name: 'weigh',
  summary: 'a weighing list, as it is or scaled --for an amount of product; dilutions',
  help: `
Use: masstone weigh NUMBER [--sample A] [--for "10 g"]
     masstone weigh --reaction EQUATION --reagent "REAGENT" … [--product F] [--obtained "1.2 g"] [--for "10 g"]
     masstone weigh --target COMPOSITION --from SOURCE … --for "5 g"
     masstone weigh --dilute "STOCK" --to "STRENGTH" --make "AMOUNT"

What to weigh, what limits, what is left, what to expect.

  masstone weigh 14 --for "10 g"
  masstone weigh --reaction 'CuSO4 + Zn -> Cu + ZnSO4' --reagent 'CuSO4·5H2O 5.00 g' --reagent 'Zn excess' \\
    --obtained '1.10 g'
  masstone weigh --reaction 'Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3' --for '5 g PbCrO4'
  masstone weigh --target Mn0.3Zn0.7O --from 'MnCO3 purity 98 %' --from ZnO --for '5 g'
  masstone weigh --target 'CoO 40 %, Al2O3 60 %' --from Co3O4 --from 'Al(OH)3' --for '5 g'
  masstone weigh --dilute 'CH3COOH 99.7 % 1.049 g/mL' --to '10 %' --make '100 mL'

A reagent is a formula and its quantities: 'CuSO4·5H2O 5.00 g', 'HCl 25 mL 2.0 mol/L',
'CH3COOH 3 mL 99.7 % 1.049 g/mL', 'Zn 10 g purity 95 %', 'KMnO4 0.05 mol', 'NaOH excess'.
One without an amount is reckoned as what the reaction needs.
Written digits decide what ± a weighing has, unless the balance is coarser; a purity that is not stated is said.

--target C       a composition: a formula, or a recipe of oxides in % or mol
--from S         a source of it, with purity; one for each element that fire does not take
--product F      the product that is wanted; the first of the reaction if it is not said
--obtained M     what was obtained, for the percent yield
--for M          scale to this much product (theoretical yield); masses rounded to the balance
--excess X       so much more of a reagent than is needed: 'Na2CO3 20 %'; may be repeated
--expect Y       the yield that experience gives, at most 100 %: --for is then what should come out
--balance STEP   smallest step of the balance (an entry's, else that of --journal, else masses are rounded to 0.01 g)
--sample ID      the sample of the entry; the first if it is not said
--to S --make M  strength and amount of a dilution; STOCK may have an amount instead of one of them
`,
  options: {
    reaction: { type: 'string' },
    reagent: { type: 'string', multiple: true },
    product: { type: 'string' },
    obtained: { type: 'string' },
    for: { type: 'string' },
    balance: { type: 'string' },
    sample: { type: 'string' },
    excess: { type: 'string', multiple: true },
    expect: { type: 'string' },
    target: { type: 'string' },
    from: { type: 'string', multiple: true },
    dilute: { type: 'string' },
    to: { type: 'string' },
    make: { type: 'string' },
  },
  run: async (given, streams) => {
    const answer = await weighed(given);
    if (!answer.ok) return answerFault(answer.fault, answer.fault.about, given.json, streams);
    const { json, text, aside = '' } = answer.value;
    const told = `${asideOn(given.values)}${aside}`;
    if (told) streams.aside(told);
    streams.result(given.json ? `${JSON.stringify(json)}\n` : text);
    return 0;
  },
};
