// What was done with a sample's product, beside its weighing list: washing, drying, ignition.
import type { SampleAmounts } from '../../reckoning/contracts.js';
import { heldYieldWords, treatmentWords } from '../../reckoning/treatment/treatment-words.js';

/**
 * What is known of a sample's product, as JSON has it.
 * @param scaled the list is of another size than the sample, so that its washing is not that of the list
 */
export function jsonTreatment(sample: SampleAmounts, scaled: boolean): Readonly<Record<string, unknown>> {
  const { washing, drying, ignition, dryBasis, heldWater, assayed, assayedYield, acidAndAlkali } = sample;
  return {
    ...(washing && !scaled && { washing }),
    ...(drying && { drying }),
    ...(ignition && { ignition }),
    ...(dryBasis && { dryBasis }),
    ...(heldWater && { heldWater }),
    ...(assayed && { assayed }),
    ...(assayedYield && { assayedYield }),
    ...(acidAndAlkali && !scaled && { acidAndAlkali }),
  };
}

/** The same as sentences. */
export function treatmentLines(sample: SampleAmounts, scaled: boolean): readonly string[] {
  const { washing, acidAndAlkali, ...rest } = sample;
  return [
    ...(acidAndAlkali && !scaled ? [acidAndAlkali.words] : []),
    ...treatmentWords(scaled || !washing ? rest : { ...rest, washing }),
    ...heldYieldWords([sample]),
  ];
}
