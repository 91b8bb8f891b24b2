// The reckoned values that a write-up can show with `:value[…]`, by name.
import type { ReckonedEntry } from '../reckoning/contracts.js';

const minus = (value: number, places: number): string => value.toFixed(places).replace('-', '−');

/**
 * Values of an entry by name: `A.yield`, `A.obtained`, `molar-mass` …, as readers see them.
 * @example valuesOf(reckoned).get('A.yield') // '91.2 ± 0.4 %'
 */
export function valuesOf({ amounts, appearance }: ReckonedEntry): Map<string, string> {
  const values = new Map<string, string>();
  const put = (name: string, value: string | undefined): void => {
    if (value !== undefined) values.set(name, value);
  };
  put('molar-mass', amounts.product?.molarMass?.text);
  put('atom-economy', amounts.atomEconomy?.text);
  put('family', appearance.family);
  for (const sample of amounts.samples) {
    // What cannot be reckoned is said where the figure would stand: `The yield is not told: …`.
    const none = sample.noYield && `not told: ${sample.noYield}`;
    put(`${sample.sample}.yield`, sample.percentYield?.text ?? none);
    put(`${sample.sample}.obtained`, sample.obtained?.text ?? sample.obtainedWords);
    put(`${sample.sample}.theoretical`, sample.theoreticalYield?.text ?? none);
    put(`${sample.sample}.limiting`, sample.limiting);
  }
  for (const { samples, measure, mean, deviation, n } of amounts.repeats ?? [])
    if (measure === 'percent yield')
      for (const sample of samples) put(`${sample}.mean-yield`, `${mean} (s ${deviation}, n ${n})`);
  for (const sample of appearance.samples) {
    put(`${sample.sample}.lab`, sample.lab?.map((one) => minus(one, 1)).join(', '));
    put(`${sample.sample}.family`, sample.family);
    put(
      `${sample.sample}.opacity`,
      sample.opacity
        ? `${sample.opacity.word} (contrast ratio ${minus(sample.opacity.contrastRatio, 0)} %)`
        : undefined,
    );
    put(`${sample.sample}.lamplight`, sample.lampMove?.text);
  }
  for (const pair of appearance.pairs ?? []) {
    put(`${pair.a}-${pair.b}.difference`, minus(pair.de00, 1));
    put(`${pair.b}-${pair.a}.difference`, minus(pair.de00, 1));
  }
  return values;
}
