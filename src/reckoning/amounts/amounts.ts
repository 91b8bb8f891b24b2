// The chemistry of one entry: amounts, limiting reagent, yields, balances, cost, for each sample.
import { atomEconomy, molarMass, typeset } from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import { Findings, type Finding } from '../../remarks/findings.js';
import { findInSample } from './amounts-findings.js';
import { balanceOf } from '../balance.js';
import { compare, outliersOf, repeatsOf } from './comparison.js';
import type { AmountsReckoning, ReckoningContext } from '../contracts.js';
import { figure } from '../figures.js';
import { reckonReaction } from './reaction.js';
import { likelyFormula } from '../../reagents/index.js';
import { formulaOf } from '../parse-cache.js';
import { potsOf, type SampleSetting } from './pot-amounts.js';
import { reckonSample, type SampleReckoning } from './sample-amounts.js';
import { findInTarget, findInTreatment } from '../treatment/treatment-findings.js';
import { heldYieldWords } from '../treatment/treatment-words.js';

/** Reactants that none of the samples has. */
function missingInAll(samples: readonly SampleReckoning[]): ReadonlySet<string> {
  const [first, ...others] = samples.map(
    ({ pot: { limitation } }) => new Set(limitation?.unsupplied.map(({ label }) => label) ?? []),
  );
  return new Set([...(first ?? [])].filter((label) => others.every((other) => other.has(label))));
}

/**
 * Reckons the amounts of an entry.
 * What is not written is not guessed: a sample without amounts has no yield, a product without formula no account.
 */
export function reckonAmounts(
  entry: Entry,
  context: ReckoningContext,
): { readonly amounts: AmountsReckoning; readonly findings: readonly Finding[] } {
  const findings = new Findings();
  findInTarget(entry, findings);
  const { reaction, equation, product } = reckonReaction(entry, findings);
  const formula = product?.label ?? entry.pigment?.formula;
  const made = formula === undefined ? undefined : productOf(formula, product !== undefined, findings);
  const setting: SampleSetting = { entry, context, balance: balanceOf(context.settings), equation, product };
  const indices = sampleIndices(entry);
  const potOf = potsOf(setting);
  const samples = indices.map((index) => reckonSample(setting, index, potOf(index)));
  const missing = missingInAll(samples);
  const among = { ...setting, missing };
  for (const [at, sample] of samples.entries()) {
    const isNewPot = samples.findIndex(({ pot }) => pot === sample.pot) === at;
    findInSample(among, indices[at], sample, isNewPot, findings);
    findInTreatment(entry, indices[at], sample, findings);
  }
  const results = samples.map(({ result }) => result);
  const [comparisons, repeats, outliers] = [compare(results, entry.control), repeatsOf(results), outliersOf(results)];
  const heldWaterYields = heldYieldWords(samples.map(({ amounts }) => amounts));
  const lotsTaken = samples.flatMap(({ taken }) => taken);
  const jarsTaken = samples.flatMap((sample) => sample.jarsTaken);
  const assumed = new Set(
    samples.flatMap(({ pot: { limitation } }) => limitation?.assumedPresent.map(({ label }) => label) ?? []),
  );
  const economy = equation && product && atomEconomy(equation, product);
  return {
    amounts: {
      ...(reaction && { reaction }),
      ...(made && { product: made }),
      // It is a measure of the reaction, not of the work: a tenth of a per cent is enough for a reader.
      ...(economy?.ok && {
        atomEconomy: { ...figure(economy.value, '%'), text: `${economy.value.value.toFixed(1)} %` },
      }),
      ...(assumed.size > 0 && { assumed: [...assumed] }),
      samples: samples.map(({ amounts }) => amounts),
      ...(heldWaterYields.length > 0 && { heldWaterYields }),
      ...(comparisons.length > 0 && { comparisons }),
      ...(repeats.length > 0 && { repeats }),
      ...(outliers.length > 0 && { outliers }),
      ...(lotsTaken.length > 0 && { lotsTaken }),
      ...(jarsTaken.length > 0 && { jarsTaken }),
    },
    findings: findings.all,
  };
}

/** Indices of the samples; of an entry that has reagents and no samples, the one undefined preparation. */
function sampleIndices({ samples, reagents }: Entry): readonly (number | undefined)[] {
  if (samples.length > 0) return samples.map((_, index) => index);
  return reagents.length > 0 ? [undefined] : [];
}

function productOf(written: string, inReaction: boolean, findings: Findings): AmountsReckoning['product'] {
  const read = formulaOf(written);
  if (!read.ok) return { formula: written, formulaSet: typeset(written) };
  for (const doubt of read.value.doubts) findings.addFault(doubt, ['pigment', 'formula'], { actual: written });
  const unlikely = likelyFormula(written);
  if (unlikely) findings.addFault(unlikely, ['pigment', 'formula'], { actual: written });
  const mass = molarMass(read.value);
  // A product of the reaction whose water is unknown has no yield until it is given.
  if (inReaction && !mass.ok) findings.addFault(mass.fault, ['pigment', 'formula'], { actual: written });
  return {
    formula: written,
    formulaSet: typeset(written),
    ...(mass.ok && { molarMass: figure(mass.value.middle, 'g/mol') }),
  };
}
