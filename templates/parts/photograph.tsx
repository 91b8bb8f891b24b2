// A photograph on a page: in the form that its reader's screen needs, with its size known before it comes.
import type { Element } from 'hast';
import { fileHref, type SiteContext } from '../frame.js';

/** Widest that a photograph stands on a page. */
const sizes = '(max-width: 48rem) 100vw, 48rem';
const better = ['avif', 'webp'] as const;

/**
 * A picture, and a link to its large form.
 * @param lazy fetched only when it comes near: for pictures below the first screen
 */
export function photographPicture(site: SiteContext, path: string, alt: string, lazy: boolean): Element {
  const known = site.pictures?.[path];
  const src = fileHref(site, path);
  const srcsetOf = (format: string): string =>
    (known?.forms ?? [])
      .filter((form) => form.format === format)
      .map(({ width }) => `${fileHref(site, `${path}.${width}.${format}`)} ${width}w`)
      .join(', ');
  const jpeg = srcsetOf('jpeg');
  const image = (
    <img
      src={src}
      alt={alt}
      width={known?.width}
      height={known?.height}
      loading={lazy ? 'lazy' : undefined}
      srcset={known && jpeg ? `${jpeg}, ${src} ${known.width}w` : undefined}
      sizes={jpeg ? sizes : undefined}
    />
  ) as Element;
  if (!jpeg) return image;
  return (
    <a href={src}>
      <picture>
        {better.map((format) => (
          <source type={`image/${format}`} srcset={srcsetOf(format)} sizes={sizes} />
        ))}
        {image}
      </picture>
    </a>
  ) as Element;
}
