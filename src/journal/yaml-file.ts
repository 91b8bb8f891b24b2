// Reads journal.yaml and shelf.yaml, and the pages: what is not an entry.
import { once } from '../once.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { rejoined } from './braces.js';
import { check, withoutEmpty } from './check.js';
import type { Page, Shelf } from './entry.js';
import type { Schema } from './format.js';
import { placeInFile, placesIn } from './place.js';
import { journalSchema, pageSchema, shelfSchema, type JournalSettings, type ShelfReagent } from './schema.js';
import { ShelfView } from './shelf-view.js';
import { split } from './split.js';
import { reagentIdPattern } from './values.js';
import { readYaml, takeYamlFaults, yamlFileLimit } from './yaml.js';

/** Data of a YAML file, empty keys taken out. */
function dataOf(schema: Schema, file: string, text: string, findings: Findings): unknown {
  const yaml = readYaml(text, yamlFileLimit);
  if (!yaml.ok) {
    takeYamlFaults(file, yaml.faults, 1, findings);
    return undefined;
  }
  const whole = rejoined(schema, yaml.value ?? {}, text, ({ path, ...facts }) => {
    findings.add('comma-in-braces', { key: path }, { ...facts, actual: facts.left, expected: [facts.whole] });
  });
  return withoutEmpty(whole, (path) => {
    findings.add('empty-key', { key: path }, { key: String(path.at(-1)) });
  });
}

const remarksIn = (file: string, text: string, findings: Findings): Remark[] =>
  remarksFrom(findings.all, (path, at) => placeInFile(file, text, path, at));

/** The least that journal.yaml can hold, to show to someone who has none. */
export const leastSettings = 'title: My pigment journal\nauthor: Your name\naddress: https://example.org/\n';

/**
 * Reads the text of journal.yaml.
 * @example readSettings('journal.yaml', 'title: T\nauthor: A\naddress: https://a.b/\n').settings.language // 'en-GB'
 */
export function readSettings(
  file: string,
  text: string,
): { readonly settings?: JournalSettings; readonly remarks: Remark[] } {
  const findings = new Findings();
  const data = dataOf(journalSchema, file, text, findings);
  const settings = data === undefined ? undefined : check(journalSchema, data, 'journal', findings);
  return { ...(settings && { settings }), remarks: remarksIn(file, text, findings) };
}

const longestId = 80;

/** The nearest id that would do; undefined where nothing is left. */
function betterId(id: string): string | undefined {
  const words = id.normalize('NFKD').toLowerCase();
  const better = words.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  return better === '' ? undefined : better.slice(0, longestId);
}

const isId = (id: string): boolean => reagentIdPattern.test(id) && id.length <= longestId;

/** Reads the text of shelf.yaml: reagents by id. */
export function readShelf(file: string, text: string): { readonly shelf: Shelf; readonly remarks: Remark[] } {
  const findings = new Findings();
  const data = dataOf(shelfSchema, file, text, findings);
  const checked = data === undefined ? undefined : check(shelfSchema, data, 'shelf', findings);
  const reagents = new Map<string, ShelfReagent>();
  for (const [id, reagent] of Object.entries(checked ?? {})) {
    if (isId(id)) reagents.set(id, reagent);
    else {
      const facts = { id: id.slice(0, longestId), better: betterId(id), actual: id };
      findings.add('reagent-id', { key: [id] }, { ...facts, expected: ['small letters, digits and hyphens'] });
    }
  }
  return { shelf: { file, text, reagents }, remarks: remarksIn(file, text, findings) };
}

/** Whether the jar of an id, as written, may go by one of some names in small letters. */
function mayBeCalled(id: string, written: unknown, names: ReadonlySet<string>): boolean {
  const { name, 'also-called': also = [] } = (written ?? {}) as { name?: unknown; 'also-called'?: unknown };
  const all = [id, name, ...(Array.isArray(also) ? (also as readonly unknown[]) : [also])];
  return all.some((one) => typeof one !== 'string' || names.has(one.trim().toLowerCase()));
}

/**
 * The jars of a shelf, each checked only when it is asked for, which is quicker where few are. Where one has a fault,
 * or all are asked for, it is the whole shelf as `readShelf` understands it.
 */
export class JarsAtHand extends ShelfView {
  private readonly written: Readonly<Record<string, unknown>>;
  private readonly checked = new Map<string, ShelfReagent | undefined>();
  private readonly all: () => ReadonlyMap<string, ShelfReagent>;
  private isWhole = false;

  constructor(file: string, text: string) {
    super();
    this.all = once(() => {
      this.isWhole = true;
      return readShelf(file, text).shelf.reagents;
    });
    const data = dataOf(shelfSchema, file, text, new Findings());
    const isRecord = typeof data === 'object' && data !== null && !Array.isArray(data);
    this.written = isRecord ? (data as Record<string, unknown>) : {};
    if (!isRecord) this.whole();
  }

  get(id: string): ShelfReagent | undefined {
    if (!this.isWhole && !this.checked.has(id)) this.checked.set(id, this.checkOne(id));
    return this.isWhole ? this.whole().get(id) : this.checked.get(id);
  }

  /** Those that may be asked for by one of some names. */
  called(names: readonly string[]): ReadonlyMap<string, ShelfReagent> {
    const asked = new Set(names.map((name) => name.trim().toLowerCase()));
    const ids = Object.keys(this.written).filter((id) => mayBeCalled(id, this.written[id], asked));
    const jars = ids.flatMap((id) => {
      const jar = this.get(id);
      return jar ? [[id, jar] as const] : [];
    });
    return this.isWhole ? this.whole() : new Map(jars);
  }

  private checkOne(id: string): ShelfReagent | undefined {
    if (!Object.hasOwn(this.written, id)) return undefined;
    const findings = new Findings();
    const jar = check(shelfSchema, { [id]: this.written[id] }, 'shelf', findings)?.[id];
    if (findings.all.length === 0 && isId(id)) return jar;
    return this.whole().get(id);
  }

  has(id: string): boolean {
    return this.get(id) !== undefined;
  }

  protected whole(): ReadonlyMap<string, ShelfReagent> {
    return this.all();
  }
}

/** Reads a page, or the words of a series or a colour family; front matter may be left out. */
export function readPage(file: string, text: string): { readonly page?: Page; readonly remarks: Remark[] } {
  const name = file.replace(/^.*\//, '').replace(/\.md$/, '');
  const findings = new Findings();
  const parts = split(text);
  if (!parts.ok) {
    if (parts.plain) return { page: { file, name, body: text, bodyLine: 1 }, remarks: [] };
    const { line, ...found } = parts.fault;
    findings.take({ ...found, where: { file, line, column: 1 } });
    return { remarks: remarksFrom(findings.all) };
  }
  const { matterLine, body, bodyLine, yaml } = parts.split;
  const page = { file, name, body, bodyLine };
  if (!yaml.ok) {
    takeYamlFaults(file, yaml.faults, matterLine, findings);
    return { page, remarks: remarksFrom(findings.all) };
  }
  const data = withoutEmpty(yaml.value ?? {}, () => undefined);
  const checked = check(pageSchema, data, 'page', findings);
  return {
    page: {
      ...page,
      title: checked?.title,
      order: checked?.order,
      ...(checked?.['moved-from'] && { movedFrom: checked['moved-from'] }),
    },
    remarks: remarksFrom(findings.all, placesIn(file, parts.split)),
  };
}
