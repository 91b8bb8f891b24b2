// What the pages know of their site, made once from the journal's settings.
import type { Journal } from '../journal/entry.js';
import type { SiteContext } from '../../templates/frame.js';
import type { AssetAddresses } from './assets.js';

/** `https://host/journal/` → origin and base path, the latter without trailing slash. */
export function splitAddress(address: string): { origin: string; base: string } {
  try {
    const url = new URL(address);
    return { origin: url.origin, base: url.pathname.replace(/\/+$/, '') };
  } catch {
    return { origin: '', base: '' };
  }
}

export function siteContext(journal: Journal, assets: AssetAddresses, reading?: SiteContext['reading']): SiteContext {
  const { settings } = journal;
  const { origin, base } = splitAddress(settings.address);
  return {
    title: settings.title,
    subtitle: settings.subtitle,
    description: settings.description,
    author: settings.author,
    language: settings.language,
    licence: settings.licence,
    licenceUrl: settings['licence-url'],
    support: settings['support-link'],
    cautions: settings.cautions,
    base,
    address: `${origin}${base}`,
    stylesheet: `${base}${assets.stylesheet}`,
    listsStylesheet: `${base}${assets.listsStylesheet}`,
    pictograms: `${base}/style/`,
    pages: [...journal.pages]
      .sort((a, b) => (a.order ?? 99) - (b.order ?? 99) || a.name.localeCompare(b.name))
      .map((one) => ({ address: `/${one.name}/`, title: one.title ?? one.name })),
    ...(journal.pictures && journal.pictures.size > 0 && { pictures: Object.fromEntries(journal.pictures) }),
    reading,
  };
}
