// A publication: proof, render every page into staging, add the search index, then swap; all of it or nothing.
import { readFileSync, writeFileSync, existsSync, realpathSync, statSync } from 'node:fs';
import { join, sep } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import { extendRegister, registerText } from '../journal/index.js';
import type { Remark } from '../journal/remarks.js';
import { hasErrors, inOrder, openJournal } from '../open.js';
import { gatherAssets } from './assets.js';
import { writeData } from './data.js';
import { feeds, sitemap } from './feeds.js';
import { planSite } from './plan.js';
import { searchIndex } from './search-index.js';
import { stage } from './staging.js';

export interface PublishOptions {
  /** Folder the site will stand in. */
  readonly to: string;
  /** Planned and running entries too. */
  readonly drafts?: boolean;
  /** Default true. */
  readonly search?: boolean;
  readonly progress?: (stage: string, done: number, of: number) => void;
}

export interface Publication {
  /** False where errors stopped it; the old site is then as it was. */
  readonly published: boolean;
  readonly remarks: readonly Remark[];
  readonly entries: number;
  readonly pages: number;
  readonly bytes: number;
  readonly took: Readonly<Record<string, number>>;
}

const nothing = { published: false, entries: 0, pages: 0, bytes: 0 };

/**
 * Publishes the journal in `folder`.
 * @example await publish('content', { to: 'site' })
 */
export async function publish(folder: string, options: PublishOptions): Promise<Publication> {
  const { to, drafts = false, search = true, progress = () => undefined } = options;
  const opened = await openJournal(folder, { drafts });
  const took: Record<string, number> = { ...opened.took };
  const { model } = opened;
  if (!model || hasErrors(opened.remarks)) return { ...nothing, remarks: opened.remarks, took };

  const timed = async <T>(name: string, work: () => T | Promise<T>): Promise<T> => {
    const begin = performance.now();
    const result = await work();
    took[name] = (took[name] ?? 0) + performance.now() - begin;
    return result;
  };

  const staging = stage(to);
  try {
    const remarks: Remark[] = [...opened.remarks];
    let bytes = 0;
    const write = (address: string, content: string | Uint8Array): void => { bytes += content.length; staging.write(address, content); };
    const plan = planSite(model);
    let done = 0;
    await timed('render', () => {
      for (const [address, render] of plan.pages) {
        const { html, remarks: ofPage } = render();
        remarks.push(...ofPage);
        write(address, html);
        done += 1;
        if (done % 50 === 0) progress('pages', done, plan.pages.size);
      }
    });
    if (hasErrors(remarks)) {
      staging.abandon();
      return { ...nothing, remarks: inOrder(remarks), took };
    }
    await timed('data', () => {
      for (const file of [...writeData(model), ...feeds(plan.context, model), sitemap(plan.context, model, plan.pages.keys()), ...gatherAssets().files]) write(file.address, file.content);
      for (const [path, content] of namedFiles(model)) write(`/${path}`, content);
    });
    if (search) await timed('search', async () => { for (const file of await searchIndex(model, (at, of) => progress('search', at, of))) write(file.address, file.content); });
    await timed('swap', () => {
      const register = extendRegister(model.journal.register, model.journal);
      staging.swap();
      if (register.join('\n') !== model.journal.register.join('\n')) writeFileSync(join(folder, 'register.txt'), registerText(register));
    });
    return { published: true, remarks: inOrder(remarks), entries: model.entries.length, pages: plan.pages.size, bytes, took };
  } catch (error) {
    staging.abandon();
    throw error;
  }
}

/** Photos that samples and write-ups name, and spectra, with their bytes; nothing from outside the journal's folder. */
export function namedFiles(model: JournalModel): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  const root = realpathSync(model.journal.folder) + sep;
  const take = (path: string): void => {
    if (files.has(path) || !/^(photos|spectra)\//.test(path)) return;
    const file = join(model.journal.folder, path);
    if (!existsSync(file)) return;
    const real = realpathSync(file);
    if (!real.startsWith(root) || !statSync(real).isFile()) return;
    files.set(path, readFileSync(real));
  };
  for (const path of model.journal.readings.keys()) take(path);
  for (const { entry } of model.entries) {
    for (const sample of entry.samples) if (sample.photo) take(sample.photo);
    for (const [, path] of entry.body.matchAll(/\]\(\.\.\/(photos\/[^)#\s]+)/g)) take(decodeURI(path!));
  }
  return files;
}
