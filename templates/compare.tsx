// The page that sets samples of any entries side by side; which, stands in its address.
import type { Root } from 'hast';
import { cautionLine, href, page, type SiteContext } from './frame.js';

/** So many samples stand side by side. */
export const mostCompared = 8;

export function comparePage(site: SiteContext, script: string): Root {
  return page(site, {
    title: 'Compare samples',
    description: 'Samples of any entries side by side: strips, reflectance, yields, colour differences.',
    address: '/compare/',
    part: '/results/',
    scripts: [script],
    swatches: true,
    main: [
      <h1>Compare samples</h1>,
      cautionLine(),
      <noscript>
        <p class="note">
          Comparing needs script. Without it, the <a href={href(site, '/results/')}>table of results</a> holds the same
          figures.
        </p>
      </noscript>,
      <form class="compare-form" data-compare={href(site, '/compare/')} data-base={site.base} data-most={mostCompared}>
        <label>
          {`Samples, as 4/A; up to ${mostCompared}`}
          <input type="text" name="samples" autoComplete="off" placeholder="4/A 4/B 17/D" spellcheck="false" />
        </label>
        <button type="submit">Compare</button>
      </form>,
      <p role="status" class="kicker" id="compared"></p>,
      <p id="choose">
        Samples are chosen in the <a href={href(site, '/results/')}>table of results</a>, or written here.
      </p>,
      <div id="comparison"></div>,
      <p class="small quiet" id="compared-notes" hidden>
        Colours in daylight (D65); differences are CIEDE2000, which entries’ pages give under the lamp that both were
        read for. Readings of different days and drawdowns scatter, and what the scatter hides is not reckoned here.
        Samples of different entries differ in more than one thing.
      </p>,
    ] as never,
  });
}
