// Every sample in one table, readable without script; with script it can be sorted and narrowed.
import type { Root } from 'hast';
import type { SampleRow } from '../src/crosslinks/model.js';
import type { RowAmounts } from '../src/reckoning/contracts.js';
import { mostCompared } from './compare.js';
import { longDate } from './dates.js';
import { cautionLine, href, page, type SiteContext } from './frame.js';
import { leafAddress, leafLinks, type Leaf } from './leaves.js';
import { plainSwatch } from './parts/entry-list.js';
import { familyRemark } from './parts/family-basis.js';
import { statusMark } from './parts/status.js';
import { yieldMethodAddress } from './yield-method.js';

const columns: readonly { key: string; title: string; number?: boolean }[] = [
  { key: 'sample', title: 'Sample' },
  { key: 'swatch', title: 'Colour' },
  { key: 'pigment', title: 'Pigment' },
  { key: 'elements', title: 'Elements' },
  { key: 'family', title: 'Family' },
  { key: 'obtained', title: 'Obtained', number: true },
  { key: 'yield', title: 'Yield', number: true },
  { key: 'lightness', title: 'L*', number: true },
  { key: 'chroma', title: 'C*', number: true },
  { key: 'hue', title: 'h', number: true },
  { key: 'move', title: 'Lamp move ΔE₀₀', number: true },
  { key: 'opacity', title: 'Contrast ratio', number: true },
  { key: 'date', title: 'Date' },
  { key: 'status', title: 'Status' },
];

const fixed = (value: number | undefined, places: number): string =>
  value === undefined ? '' : value.toFixed(places).replace('-', '−');

/** A yield; of more than 100 % that it is no good one. */
const yieldCell = ({ percentYield, overHundred }: RowAmounts): unknown =>
  overHundred === undefined
    ? (percentYield?.text ?? '')
    : [percentYield?.text, <span class="aside">wet or impure</span>];

/** A sample by its name, and which one it repeats. */
function sampleCell(site: SiteContext, row: SampleRow): unknown {
  const link = <a href={href(site, `/${row.entry.number}/#${row.sample}`)}>{`${row.entry.number}/${row.sample}`}</a>;
  return row.repeats === undefined ? link : [link, <span class="aside">{`repeats ${row.repeats}`}</span>];
}

function cells(site: SiteContext, row: SampleRow): Record<string, unknown> {
  const { appearance, amounts } = row;
  return {
    sample: sampleCell(site, row),
    swatch: plainSwatch(row),
    pigment: row.pigment ?? row.entry.title,
    elements: row.elements.join(', '),
    family: row.family ? `${row.family}${familyRemark(row.familyBasis)}` : '',
    obtained: amounts?.obtained?.text ?? '',
    yield: amounts ? yieldCell(amounts) : '',
    lightness: fixed(appearance?.lch?.[0], 1),
    chroma: fixed(appearance?.lch?.[1], 1),
    hue: appearance?.lch ? `${fixed(appearance.lch[2], 0)}°` : '',
    move: fixed(appearance?.lampMove?.de00, 1),
    opacity: appearance?.opacity ? `${fixed(appearance.opacity.contrastRatio, 0)} %` : '',
    date: longDate(row.entry.date),
    status: statusMark(row.entry) || row.entry.status,
  };
}

/** A figure to sort by: six digits tell apart what the text does. */
const bare = (value: string | undefined): string | undefined =>
  value === undefined ? undefined : String(Number(Number(value).toPrecision(6)));

/** What lies above 100 % by no more than its doubt counts as 100: the script puts what is above it last. */
const yieldKey = ({ percentYield, overHundred }: RowAmounts): string | undefined =>
  overHundred === undefined && Number(percentYield?.value) > 100 ? '100' : bare(percentYield?.value);

/** What a column is sorted by, where that is not its text. */
function sortKey(row: SampleRow, key: string): string | undefined {
  const { appearance, amounts } = row;
  switch (key) {
    case 'sample':
      return String(row.entry.number * 100 + ((row.sample.codePointAt(0) ?? 0) % 100));
    case 'date':
      return row.entry.date;
    case 'obtained':
      return bare(amounts?.obtained?.value);
    case 'yield':
      return amounts && yieldKey(amounts);
    case 'hue':
    case 'swatch':
      return appearance?.lch?.[2].toFixed(1);
    default:
      return undefined;
  }
}

/** How many samples one leaf of the table holds. */
export const samplesOnLeaf = 600;

export function resultsPage(site: SiteContext, leaf: Leaf<SampleRow>, all: number, script: string): Root {
  const samples = leaf.items;
  return page(site, {
    title: leaf.number === 1 ? 'Results' : `Results, leaf ${leaf.number}`,
    description: 'Every sample of this journal in one table.',
    address: leafAddress('/results/', leaf.number),
    part: '/results/',
    scripts: [script],
    swatches: true,
    main: [
      <h1>Results</h1>,
      <p>
        {`Every sample in one table: ${all} of them. The same figures stand in `}
        <a href={href(site, '/data/')}>data</a>
        {' as CSV and JSON.'}
      </p>,
      cautionLine(),
      leaf.of > 1 ? (
        <p class="small quiet">
          {`Sorting and narrowing work on the ${samples.length} samples of this leaf; `}
          <a href={href(site, '/search/')}>search</a>
          {' narrows and orders all entries.'}
        </p>
      ) : null,
      leafLinks(site, '/results/', leaf),
      <form class="narrow" data-narrow="results" hidden aria-label="Narrow the table">
        <label>
          Words <input type="search" name="words" autoComplete="off" />
        </label>
        <label>
          Element{' '}
          <select name="elements">
            <option value="">any</option>
            {[...new Set(samples.flatMap((row) => row.elements))].sort().map((one) => (
              <option>{one}</option>
            ))}
          </select>
        </label>
        <label>
          Family{' '}
          <select name="family">
            <option value="">any</option>
            {[...new Set(samples.flatMap((row) => row.family ?? []))].sort().map((one) => (
              <option>{one}</option>
            ))}
          </select>
        </label>
        <label>
          Yield at least, % <input type="number" name="yield" min="0" max="100" inputMode="decimal" />
        </label>
        <p class="small" role="status" data-count></p>
        <a
          class="compare"
          data-compare={href(site, '/compare/')}
          data-most={mostCompared}
          href={href(site, '/compare/')}
          hidden
        >
          Compare
        </a>
      </form>,
      <div tabIndex={0} role="region" aria-label="Results">
        <table id="results" class="results">
          <thead>
            <tr>
              {columns.map((column) => (
                <th scope="col" data-key={column.key} class={column.number ? 'number' : undefined}>
                  {column.title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {samples.map((row) => {
              const shown = cells(site, row);
              return (
                <tr>
                  {columns.map((column, at) =>
                    at === 0 ? (
                      <th scope="row" data-sort={sortKey(row, column.key)}>
                        {shown[column.key] as never}
                      </th>
                    ) : (
                      <td data-sort={sortKey(row, column.key)}>{shown[column.key] as never}</td>
                    ),
                  )}
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>,
      leafLinks(site, '/results/', leaf),
      <p class="small quiet">
        L*, C* and h for daylight (D65). Lamp move: CIEDE2000 between daylight and lamplight, for an eye used to each.
        An empty field was not measured. <a href={href(site, yieldMethodAddress)}>How yields are reckoned</a>
      </p>,
    ] as never,
  });
}
