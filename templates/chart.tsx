// The reading copy's page on which a chart and samples are placed on a photograph; its script does the placing.
import type { Element, Root } from 'hast';
import { page, type SiteContext } from './frame.js';

export interface Placing {
  readonly photo: string;
  /** Of the upright photograph, in pixels. */
  readonly width: number;
  readonly height: number;
  /** Addresses of the photograph, and of the colours that are read from it. */
  readonly picture: string;
  readonly colours: string;
  /** Charts that are known by name. */
  readonly charts: readonly string[];
  readonly chart: string;
  readonly grid: string;
  /** As an entry has placed them already. */
  readonly corners?: string;
  readonly samples: readonly string[];
}

export interface ChartPageData {
  readonly photographs: readonly string[];
  readonly address: string;
  readonly script: string;
  readonly placing?: Placing;
  readonly fault?: string;
}

const corners = ['first patch', 'end of the first row', 'last patch', 'start of the last row'] as const;

const numberField = (label: string, name: string): Element =>
  (
    <label>
      {label}
      <input type="number" name={name} inputMode="decimal" step="any" required />
    </label>
  ) as Element;

function chooser({ photographs, address, placing }: ChartPageData): Element {
  if (photographs.length === 0)
    return (<p>There is no photograph below photos/ yet. Put one there and load this page again.</p>) as Element;
  return (
    <details open={placing === undefined}>
      <summary>{placing ? 'Another photograph' : 'Photographs of the journal'}</summary>
      <ul>
        {photographs.map((path) => (
          <li>
            <a href={`${address}?photo=${encodeURIComponent(path)}`}>{path}</a>
          </li>
        ))}
      </ul>
    </details>
  ) as Element;
}

function cornerFields(): Element[] {
  return corners.map(
    (what, at) =>
      (
        <fieldset>
          <legend>{`${at + 1}: ${what}`}</legend>
          {numberField('x', `corner-${at}-x`)}
          {numberField('y', `corner-${at}-y`)}
        </fieldset>
      ) as Element,
  );
}

function placingOf(placing: Placing): Element {
  return (
    <form
      class="chart-placing"
      data-photo={placing.photo}
      data-width={String(placing.width)}
      data-height={String(placing.height)}
      data-colours={placing.colours}
      data-corners={placing.corners}
      data-samples={JSON.stringify(placing.samples)}
    >
      <p>
        Corners are the centres of the chart’s four corner patches, clockwise from the first: a circle should then lie
        on every patch. Drag a mark, or choose it and use the arrow keys (with Shift, ten pixels), or choose it and tap
        the place; <kbd>+</kbd> and <kbd>−</kbd> change the size of a sample’s frame.
      </p>
      <div class="chart-stage" tabIndex={0} role="group" aria-label="Photograph with marks">
        <div class="chart-picture">
          <img
            src={placing.picture}
            alt={`The photograph ${placing.photo}`}
            width={placing.width}
            height={placing.height}
          />
        </div>
      </div>
      <p class="chart-tools">
        <label>
          Magnify <input type="range" name="magnify" min="1" max="8" step="0.5" value="1" />
        </label>
        <button type="button" name="add">
          Add a sample
        </button>
      </p>
      <div class="chart-fields">
        <label>
          Chart: a name, or a file of the journal
          <input name="chart" list="charts" value={placing.chart} />
        </label>
        <datalist id="charts">
          {placing.charts.map((name) => (
            <option value={name}></option>
          ))}
        </datalist>
        <label>
          Patches across and down
          <input name="grid" value={placing.grid} pattern="[0-9]+x[0-9]+" />
        </label>
        {cornerFields()}
        <div class="chart-samples"></div>
      </div>
      <p>
        <button type="submit">Read the colours</button>
      </p>
      <div class="chart-read" role="status"></div>
      <h2>Lines to paste</h2>
      <p>Below the sample in the entry’s front matter:</p>
      <pre tabIndex={0} class="chart-lines"></pre>
      <p>
        <button type="button" name="copy">
          Copy the lines
        </button>{' '}
        <span class="chart-copied" role="status"></span>
      </p>
      <p>Or at the prompt:</p>
      <pre tabIndex={0} class="chart-command"></pre>
    </form>
  ) as Element;
}

/** The page; without `placing` it lists the photographs. */
export function chartPage(site: SiteContext, data: ChartPageData): Root {
  const { placing, fault, address, script } = data;
  const main = [
    <h1>A chart on a photograph</h1>,
    <p>
      A photograph that shows a chart of known colours tells the colours of samples beside it, in daylight, and what
      they may be off by. This page is only in the reading copy, and changes no file.
    </p>,
    fault ? <p role="alert">{fault}</p> : null,
    placing ? placingOf(placing) : null,
    chooser(data),
  ];
  return page(site, {
    title: 'A chart on a photograph',
    address,
    noIndex: true,
    scripts: placing ? [script] : [],
    main: main.filter((one) => one !== null) as never,
  });
}
