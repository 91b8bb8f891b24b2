// The page of one entry's curves for identification, K/S and the slope of the reflectance, and of its computed tints.
import type { Root } from 'hast';
import type { Identification, SampleAppearance } from '../src/reckoning/appearance/appearance-contracts.js';
import { colourMethodAddress } from './colour-method.js';
import { href, page, type SiteContext } from './frame.js';
import { absorptionCurves, slopeCurves, type ReflectanceCurve } from './pictures/curves.js';
import { curveRows } from './pictures/curve-rows.js';
import { tintPictures, tintsTitle } from './parts/tints.js';
import { figure, pictureFigure, type PictureTable } from './pictures/figure.js';

/** Address of the page. @example curvesAddress(14) // '/14/curves/' */
export const curvesAddress = (number: number): string => `/${number}/curves/`;

export interface EntryCurvesData {
  readonly number: number;
  readonly title: string;
  readonly samples: readonly SampleAppearance[];
  readonly identification: readonly Identification[];
}

type Kind = 'ks' | 'slope';

/** Step of the tables behind the curves, nm: finer readings lie in the spectra's files. */
const tableStep = 20;

const curvesOf = ({ identification, samples }: EntryCurvesData, kind: Kind): ReflectanceCurve[] =>
  identification.map((one) => ({
    label: one.sample,
    points: one[kind].map(({ nm, value }) => [nm, value] as const),
    hex: samples.find(({ sample }) => sample === one.sample)?.swatch?.hex,
  }));

const tableOf = (curves: readonly ReflectanceCurve[], caption: string, digits: number, scale = 1): PictureTable => ({
  caption,
  head: ['nm', ...curves.map(({ label }) => label)],
  rows: curveRows(
    curves.map(({ points }) => points),
    (nm, first) => (nm - first) % tableStep === 0,
    (value) => figure(value * scale, digits),
  ),
});

export function entryCurvesPage(site: SiteContext, data: EntryCurvesData): Root {
  const { number, title, samples } = data;
  const tints = tintPictures(samples);
  const [ks, slope] = [curvesOf(data, 'ks'), curvesOf(data, 'slope')];
  return page(site, {
    title: `Curves and tints: ${title}`,
    description: 'K/S, slope of the reflectance and tints of each sample.',
    address: curvesAddress(number),
    swatches: true,
    beside: { address: `/${number}/`, title: `Entry ${number}` },
    main: [
      <h1>Curves and tints</h1>,
      <p>
        Of <a href={href(site, `/${number}/`)}>{`${number}: ${title}`}</a>.{' '}
        <a href={href(site, `${colourMethodAddress}#opacity`)}>How pigments are told apart by these curves</a>
      </p>,
      <h2>K/S</h2>,
      pictureFigure({
        picture: absorptionCurves({ curves: ks }),
        table: tableOf(ks, `K/S, every ${tableStep} nm`, 3),
      }),
      <h2>Slope of the reflectance</h2>,
      pictureFigure({
        picture: slopeCurves({ curves: slope }),
        table: tableOf(slope, `Slope, % per nm, every ${tableStep} nm`, 2, 100),
      }),
      ...(tints.length > 0 ? [<h2>{tintsTitle(samples)}</h2>, ...tints] : []),
    ] as never,
  });
}
