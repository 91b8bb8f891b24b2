// The search page: our own form over the search index; without script it says where else to look.
import type { Root } from 'hast';
import { href, page, type SiteContext } from './frame.js';

export interface SearchChoices {
  readonly elements: readonly { readonly symbol: string; readonly name: string }[];
  readonly families: readonly string[];
  readonly statuses: readonly string[];
  readonly hazards: readonly string[];
  readonly years: readonly string[];
}

export function searchPage(site: SiteContext, choices: SearchChoices, script: string): Root {
  const select = (name: string, title: string, options: readonly (readonly [string, string])[]) => (
    <label>
      {title}
      <select name={name}>
        <option value="">any</option>
        {options.map(([value, words]) => (
          <option value={value}>{words}</option>
        ))}
      </select>
    </label>
  );
  const same = (values: readonly string[]) => values.map((value) => [value, value] as const);
  return page(site, {
    title: 'Search',
    description: `Searches the entries, reagents, series and colours of ${site.title}.`,
    address: '/search/',
    part: '/search/',
    scripts: [script],
    wasm: true,
    swatches: true,
    main: [
      <h1>Search</h1>,
      <form
        class="search-form"
        role="search"
        data-search={href(site, '/search/')}
        data-index={href(site, '/find/')}
        data-base={site.base}
      >
        <p class="search-words">
          <label for="q" class="hidden-label">
            Words, a formula, a CAS number, the number of an entry
          </label>
          <input id="q" type="search" name="q" autoComplete="off" placeholder="azurite, CuSO₄, caustic soda, 17 …" />
          <button type="submit">Search</button>
        </p>
        <details class="search-filters">
          <summary>Narrow and order</summary>
          <div>
            {select('kind', 'Kind', [
              ['entry', 'entries'],
              ['reagent', 'reagents'],
              ['series', 'series'],
              ['colour', 'colours'],
              ['incident', 'incidents'],
              ['page', 'other pages'],
            ])}
            {select(
              'element',
              'Element',
              choices.elements.map(({ symbol, name }) => [symbol, `${name} (${symbol})`] as const),
            )}
            {select('family', 'Colour family', same(choices.families))}
            {select('hazard', 'Hazard', same(choices.hazards))}
            {select('status', 'Status', same(choices.statuses))}
            {select('year', 'Year', same(choices.years))}
            <label>
              Order
              <select name="sort">
                <option value="">best match</option>
                <option value="date">newest first</option>
                <option value="yield">best yield first</option>
                <option value="lightness">lightest first</option>
                <option value="chroma">strongest colour first</option>
              </select>
            </label>
          </div>
        </details>
      </form>,
      <noscript>
        <p class="note">
          Search needs script, since it runs in your browser and asks no other server. Without it, look through the{' '}
          <a href={href(site, '/entries/')}>list of entries</a> or the{' '}
          <a href={href(site, '/results/')}>table of results</a>.
        </p>
      </noscript>,
      <p role="status" class="kicker" id="found"></p>,
      <p id="perhaps"></p>,
      <ol class="hits" id="hits"></ol>,
      <p>
        <button type="button" id="more" hidden>
          More
        </button>
      </p>,
    ] as never,
  });
}
