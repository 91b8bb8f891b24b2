// How colours are read, named and compared in the journal, and how far each way may be trusted.
import type { Element, Root } from 'hast';
import type { ColourMethod } from '../src/reckoning/appearance/colour-method.js';
import { href, page, type SiteContext } from './frame.js';
import { pictureTable } from './pictures/figure.js';
import { familyMap } from './pictures/family-map.js';
import { withStop } from './parts/sentence.js';

export const colourMethodAddress = '/colours/how/';

/** The families' map, with what it shows. */
export function familyCuts({ families }: Pick<ColourMethod, 'families'>): Element {
  const lightnesses = families.cuts.map(({ lightness }) => lightness);
  const last = lightnesses.at(-1);
  return (
    <figure class="picture">
      <div class="family-cuts">{families.cuts.map(familyMap)}</div>
      <figcaption>
        {`Cuts at L* ${lightnesses.slice(0, -1).join(', ')} and ${last}: hue runs round, chroma from the centre ` +
          `(grey) to the edge (C* ${families.cuts[0]?.mostChroma}). Each field is filled with one colour of its own.`}
      </figcaption>
    </figure>
  ) as Element;
}

function published({ accuracy }: ColourMethod): Element {
  return pictureTable({
    caption: 'What others found, as printed. Figures of different formulae cannot be compared with one another.',
    label: 'Published accuracy',
    head: ['Of what', 'Chart in the picture', 'Statistic', 'Formula', 'Value'],
    rows: accuracy.map((row) => [row.of, row.chart, row.statistic, row.formula, row.value]),
    words: [1, 2, 3],
  });
}

const sourcesOf = (sources: readonly string[]): Element =>
  (
    <details class="behind">
      <summary>Sources</summary>
      <ul class="small quiet">
        {[...new Set(sources)].map((source) => (
          <li>{source}</li>
        ))}
      </ul>
    </details>
  ) as Element;

function photographs(method: ColourMethod): Element[] {
  const { factor, least, chroma } = method.uncertainty;
  return [
    <h2 id="photographs">From a photograph with a chart</h2>,
    <p>
      The picture is made linear by its profile, the light is evened out by the chart’s greys and places and by what is
      known of lenses, and patches that are overexposed, noisy or unevenly lit are left out. Two maps from the camera’s
      numbers to colours are fitted, a straight one (a matrix) and a root-polynomial of the second degree, and the one
      that tells patches better that it has not seen is taken.
    </p>,
    <p>
      {`What a colour may be off by is stated beside it: ${factor} times the root mean square of what the straight ` +
        `map is off by on patches that it has not seen, ${least} at least, and more for noise, uneven light and ` +
        'colours far from all patches. Strong colours get more of it, as their spectra may differ most from those of ' +
        `patches which look the same: times √2 at a chroma of ${chroma}. It holds for 95 of 100 paints by daylight, ` +
        'lamplight and white LED, in simulations with other cameras, lights and paints than it was made with; not ' +
        'with yours. ' +
        'No verdict is given on a difference that is smaller than what it may be off by.'}
    </p>,
    <p>
      Two samples in one picture are compared with less doubt than each of them is known with: colours near to one
      another are mistaken in the same way.
    </p>,
    <p>
      A picture tells daylight only. Without a chart it tells a rough estimate and no verdict; with a grey card alone,
      lightness and cast, roughly.
    </p>,
    <h3>How far others got</h3>,
    published(method),
    <p class="small quiet">
      The error on the chart’s own patches is not the error on a paint: a paint’s spectrum is another, and both are
      told.
    </p>,
    sourcesOf(method.accuracy.map(({ source, note }) => (note ? `${withStop(source)} ${withStop(note)}` : source))),
  ] as Element[];
}

function judged({ thresholds }: ColourMethod): Element[] {
  return [
    <h2 id="differences">What a difference means</h2>,
    <p>
      Differences are CIEDE2000. Readings that scatter wider than they differ cannot be told apart, whatever the figure.
      The words have these thresholds:
    </p>,
    pictureTable({
      caption: 'Thresholds of the verdicts',
      head: ['From ΔE₀₀', 'What it is', 'Found with'],
      rows: thresholds.map(({ de00, kind, field }) => [String(de00), kind, field]),
      words: [1, 2],
    }),
    <p>
      Repeats of one recipe (<code>replicate-of: A</code>) are one preparation: what sets them apart is its scatter, and
      preparations are compared by their means. The test is that of yields, on the distances of repeats from their mean,
      as if all of their scatter lay along the line between the two means; that is the cautious end. A sample that was
      made only once is judged by the scatter of the repeats beside it.
    </p>,
    <p>
      What one drawdown cannot tell, several can: they stand in a sample’s colour as{' '}
      <code>{'readings: [{ spectrum: a.csv, drawdown: 1 }, { spectrum: b.csv, drawdown: 2 }]'}</code>.
    </p>,
    sourcesOf(thresholds.map(({ source }) => source)),
  ] as Element[];
}

function tested({ tests }: ColourMethod): Element[] {
  return [
    <h2 id="tests">Standard tests</h2>,
    <p>What the results of an entry’s standard tests are measured by, and where they usually lie.</p>,
    pictureTable({
      caption: 'Standard tests',
      head: ['Test', 'Usual range', 'Standard', 'How it is done, and what it leaves open'],
      rows: tests.map(({ name, range, standard = '', note = '' }) => [name, range, standard, note]),
      words: [1, 2, 3],
    }),
    sourcesOf(tests.map(({ name, source }) => `${name}: ${source}`)),
  ] as Element[];
}

/** The page. */
export function colourMethodPage(site: SiteContext, method: ColourMethod): Root {
  return page(site, {
    title: 'How colours are read',
    description: 'How the colours of this journal are read, named and compared, and how far each way may be trusted.',
    address: colourMethodAddress,
    part: '/colours/',
    swatches: true,
    main: [
      <h1>How colours are read</h1>,
      <p>
        A colour is only as good as its reading. Every colour in this journal says what it was read with; what was not
        read with an instrument is drawn hatched.
      </p>,
      <h2 id="instruments">With an instrument</h2>,
      <p>
        A reflectance spectrum gives the colour under every lamp: daylight (D65), lamplight (A), a shop’s tube (F11) and
        a modern lamp (LED-B3), by the published tables of the CIE for the observer that is named. Figures under a lamp
        are against its own white; what differs from daylight is told, and drawn, as an eye used to the lamp sees it (by
        chromatic adaptation, CAT16). L*a*b* or XYZ from an instrument give it under their own light only; carried over
        to daylight they are marked ≈.
      </p>,
      ...photographs(method),
      ...judged(method),
      ...tested(method),
      <h2 id="families">Families</h2>,
      <p>
        A colour’s family follows from its lightness, chroma and hue, by the blocks of a published system of colour
        names; in dark blues and violets the line is that of the pigment trade, so that ultramarine is blue. A colour
        that nobody has read has the family that its maker gave it, and the page says so.
      </p>,
      familyCuts(method),
      sourcesOf([method.families.source]),
      <h2 id="opacity">Films, tints and identification</h2>,
      <p>
        Over black and over white a film is drawn with the luminance that was measured. Tints with white are computed by
        the theory of Kubelka and Munk unless they were read, and are marked as computed.
      </p>,
      <p>
        Pigments that look alike are told apart by where they absorb and where their reflectance rises: entries of which
        a spectrum was read lead to both. K/S is that of an opaque layer, by the same theory. On its scale a band keeps
        its shape when the pigment is thinned with white, and moves up or down. The slope of the reflectance is its
        first derivative by wavelength: an edge of the reflectance is a peak there, and its place tells the pigment.
      </p>,
      <p>
        <a href={href(site, '/colours/')}>The colours of this journal</a>
      </p>,
    ] as never,
  });
}
