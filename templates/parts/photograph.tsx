// A photograph on a page: in the form that its reader's screen needs, with its size known before it comes; and what is
// said of it.
import type { Element, ElementContent } from 'hast';
import type { Entry, PictureSizes } from '../../src/journal/entry.js';
import type { Photograph } from '../../src/journal/photographs.js';
import { fileHref, type SiteContext } from '../frame.js';
import { momentAddress } from './video.js';

/** Where a photograph stands, as `sizes` of the widths that it takes there. */
const places = {
  page: '(max-width: 48rem) 100vw, 48rem',
  sheet: '(max-width: 30rem) 45vw, 14rem',
} as const;

export interface PictureOptions {
  /** Fetched only when it comes near: for pictures below the first screen. */
  readonly lazy: boolean;
  readonly place?: keyof typeof places;
  /** Stands in a link already, and has none to its large form. */
  readonly linked?: boolean;
}

const better = ['avif', 'webp'] as const;
type Form = PictureSizes['forms'][number];

/** Kinds that browsers do not show: their large form is the widest JPEG. */
const notShown = /\.tiff?$/i;

function formsOf(site: SiteContext, path: string) {
  const known = site.pictures?.[path];
  const forms = known?.forms ?? [];
  const hrefOf = ({ width, format }: Form): string => fileHref(site, `${path}.${width}.${format}`);
  const of = (format: Form['format']): Form[] => forms.filter((form) => form.format === format);
  const widest = of('jpeg').find(({ width }) => width === known?.width);
  const large = widest && notShown.test(path) ? hrefOf(widest) : fileHref(site, path);
  const srcset = (format: Form['format']): string[] => of(format).map((form) => `${hrefOf(form)} ${form.width}w`);
  return { known, large, srcset, complete: widest !== undefined };
}

/** A picture, and a link to its large form. */
export function photographPicture(
  site: SiteContext,
  path: string,
  alt: string,
  { lazy, place = 'page', linked = false }: PictureOptions,
): Element {
  const { known, large, srcset, complete } = formsOf(site, path);
  const sizes = places[place];
  const own = srcset('jpeg');
  // The form that keeps the photograph's name is its widest, where no other JPEG of that width was made.
  const fallback = known && own.length > 0 ? [...own, ...(complete ? [] : [`${large} ${known.width}w`])] : [];
  const image = (
    <img
      src={large}
      alt={alt}
      width={known?.width}
      height={known?.height}
      loading={lazy ? 'lazy' : undefined}
      decoding="async"
      srcset={fallback.length > 0 ? fallback.join(', ') : undefined}
      sizes={fallback.length > 0 ? sizes : undefined}
    />
  ) as Element;
  if (!known) return image;
  const sources = better.filter((format) => srcset(format).length > 0);
  const picture =
    sources.length === 0
      ? image
      : ((
          <picture>
            {sources.map((format) => (
              <source type={`image/${format}`} srcset={srcset(format).join(', ')} sizes={sizes} />
            ))}
            {image}
          </picture>
        ) as Element);
  return linked ? picture : ((<a href={large}>{picture}</a>) as Element);
}

/** What a photograph is called where nothing is said of what it shows. */
export const altOf = ({ shows, caption, sample }: Photograph): string =>
  shows ?? caption ?? (sample === undefined ? 'Photograph' : `Photograph of sample ${sample}`);

/** The entry that a photograph is of; none for those of other pages. */
type WithVideos = Pick<Entry, 'videos'> | undefined;

/** The moment of a video that a photograph is of, as a link to it. */
function momentOf({ moment }: Photograph, entry: WithVideos): Element | null {
  if (moment === undefined) return null;
  const videos = entry?.videos ?? [];
  const video = videos.find(({ moments }) => moments.some(({ at }) => at === moment)) ?? videos[0];
  if (!video) return null;
  return (
    <a class="moment" href={momentAddress(video.url, moment)} rel="external">
      {moment}
    </a>
  ) as Element;
}

/** What stands below a photograph: its sample, its caption or what it shows, its light, its moment. */
export function captionOf(one: Photograph, entry: WithVideos): (ElementContent | string)[] {
  const said = one.caption ?? one.shows;
  const sample = one.sample === undefined ? '' : `Sample ${one.sample}`;
  const words = [sample, said ?? ''].filter((part) => part !== '').join(': ');
  const ended = words === '' || /[.!?…]$/.test(words) ? words : `${words}.`;
  const light = one.light === undefined ? '' : ` Light: ${one.light.replace(/\.$/, '')}.`;
  const moment = momentOf(one, entry);
  return [`${ended}${light}`.trim(), ...(moment ? [' ', moment] : [])];
}

/** A photograph with what is said of it. */
export const photographFigure = (
  site: SiteContext,
  one: Photograph,
  entry: WithVideos,
  options: PictureOptions,
): Element =>
  (
    <figure class="photograph">
      {photographPicture(site, one.file, altOf(one), options)}
      <figcaption>{captionOf(one, entry)}</figcaption>
    </figure>
  ) as Element;

/** Every photograph of an entry, small, side by side. */
export const contactSheet = (site: SiteContext, photographs: readonly Photograph[], entry: WithVideos): Element =>
  (
    <ul class="contact-sheet">
      {photographs.map((one) => (
        <li>{photographFigure(site, one, entry, { lazy: true, place: 'sheet' })}</li>
      ))}
    </ul>
  ) as Element;
