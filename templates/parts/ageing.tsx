// A sample after ageing beside what it was before: both painted edge to edge, the difference and its verdict.
import type { Element } from 'hast';
import type { AgedAppearance, SampleAppearance } from '../../src/reckoning/appearance/appearance-contracts.js';
import { figure, pictureFigure, pictureTable } from '../pictures/figure.js';
import { lampPair } from '../pictures/lamps.js';
import { verdictWords } from './colour-words.js';

interface Aged {
  readonly before: SampleAppearance;
  readonly aged: AgedAppearance;
}

const agedOf = (samples: readonly SampleAppearance[]): readonly Aged[] =>
  samples.flatMap((before) => (before.aged ?? []).map((aged) => ({ before, aged })));

function verdictOf({ before: { sample }, aged }: Aged): Element {
  const direction = aged.direction ? ` it is ${aged.direction}. ` : ' it reads as it did. ';
  return (
    <p class="verdict">
      <b>{`${sample}. `}</b>
      {`After ${aged.after}${direction}`}
      {verdictWords(aged.verdict)}
    </p>
  ) as Element;
}

const drawn = ({ before, aged }: Aged): Element | null =>
  before.swatch
    ? pictureFigure({
        picture: lampPair({
          title: `${before.sample} before and after ${aged.after}`,
          samples: [
            {
              label: before.sample,
              lamps: [
                { lamp: 'before', hex: before.swatch.hex, mapped: before.swatch.mapped },
                { lamp: 'after', hex: aged.swatch.hex, mapped: aged.swatch.mapped },
              ],
            },
          ],
        }),
      })
    : null;

const numbers = (all: readonly Aged[]): Element =>
  (
    <details class="behind">
      <summary>The numbers of ageing</summary>
      {pictureTable({
        caption: 'After less before, in daylight',
        label: 'Ageing',
        head: ['Sample', 'ΔE₀₀', 'ΔL*', 'Δa*', 'Δb*', 'ΔC*', 'ΔH*', 'After'],
        rows: all.map(({ before: { sample }, aged }) => [
          sample,
          figure(aged.de00, 2),
          ...aged.delta.map((value) => figure(value)),
          figure(aged.dC),
          figure(aged.dH),
          aged.after,
        ]),
        words: [7],
      })}
    </details>
  ) as Element;

/** What the page shows of ageing; null where nothing was aged. */
export function ageing(samples: readonly SampleAppearance[]): Element | null {
  const all = agedOf(samples);
  if (all.length === 0) return null;
  return (
    <section>
      <h3>Before and after ageing</h3>
      {all.map(verdictOf)}
      {all.map(drawn).filter((one) => one !== null)}
      {numbers(all)}
    </section>
  ) as Element;
}
