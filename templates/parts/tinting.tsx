// How strongly the samples tint white against another pigment, from tints that were read.
import type { Element } from 'hast';
import type { SampleAppearance } from '../../src/reckoning/appearance/appearance-contracts.js';
import { figure } from '../pictures/figure.js';
import { notes } from './colour-words.js';

/** What the page shows of tinting strength; null where no tints were set against one another. */
export function tintingStrengths(samples: readonly SampleAppearance[]): Element | null {
  const known = samples.flatMap(({ sample, tinting }) => (tinting ? [{ sample, ...tinting }] : []));
  if (known.length === 0) return null;
  return (
    <section>
      <h3>Tinting strength</h3>
      <ul class="moves">
        {known.map(({ sample, against, share, percent, byLightness, nm }) => (
          <li>
            {`${sample} tints `}
            <b>{`${figure(percent, 0)} %`}</b>
            {` as strongly as ${against}, where that absorbs most (${nm} nm); ${figure(byLightness, 0)} % by ` +
              `lightness. Tints of ${Number((share * 100).toFixed(2))} %.`}
          </li>
        ))}
      </ul>
      <details class="behind">
        <summary>How this is reckoned</summary>
        {notes([
          ...new Set(known.map(({ method }) => `Ratio of ${method}.`)),
          'There are as many tinting strengths as there are ways to compare; two figures that lie apart say that the ' +
            'two tints differ in hue as well.',
          'Of one tint each, weighing and drawdown alone move the figure by several per cent (common practice, no ' +
            'source).',
        ])}
      </details>
    </section>
  ) as Element;
}
