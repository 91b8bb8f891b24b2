// Reads journal.yaml and shelf.yaml, and the pages: what is not an entry.
import { once } from '../once.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { rejoined } from './mending/braces.js';
import { check, checkAsFar, withoutEmpty, type LeftOut } from './check.js';
import { straightened } from './mending/curly-quotes.js';
import type { Page, Shelf } from './entry.js';
import type { Schema } from './format.js';
import { placeInFile, placesIn } from './place.js';
import { journalSchema, pageSchema, shelfSchema, type JournalSettings, type ShelfReagent } from './schema.js';
import { ShelfView } from './shelf-view.js';
import { split } from './split.js';
import { reagentIdPattern } from './values.js';
import { useInOneText } from './mending/use-in-one-text.js';
import { withoutSlips } from './mending/yaml-slips.js';
import { readYaml, takeYamlFaults, yamlFileLimit } from './yaml.js';

/** Data of a YAML file, empty keys taken out. */
interface FileData {
  readonly data: unknown;
  /** Where more of its form is found: nowhere for what is not well formed, of which only a part can be read. */
  readonly onForm: Findings;
}

function dataOf(schema: Schema, file: string, written: string, findings: Findings): FileData {
  const straight = straightened(written);
  if (straight) {
    const { text: _, line, column, ...facts } = straight;
    findings.add('curly-quotes', { file, line, column }, { ...facts, actual: facts.written });
  }
  const asWritten = readYaml(straight?.text ?? written, yamlFileLimit);
  const mended = withoutSlips(straight?.text ?? written, asWritten.ok);
  for (const { line: at, column, ...facts } of mended?.slips ?? [])
    findings.add('yaml-slip', { file, line: at, column }, { ...facts, actual: facts.written });
  const text = mended?.text ?? straight?.text ?? written;
  const yaml = mended ? readYaml(text, yamlFileLimit) : asWritten;
  if (!yaml.ok) {
    takeYamlFaults(file, yaml.faults, 1, findings);
    return { data: withoutEmpty(yaml.inPart ?? {}, () => undefined), onForm: new Findings() };
  }
  const whole = rejoined(schema, yaml.value ?? {}, text, ({ path, ...facts }) => {
    findings.add('comma-in-braces', path, { ...facts, actual: facts.left, expected: [facts.whole] });
  });
  const data = withoutEmpty(whole, (path) => {
    findings.add('empty-key', { key: path }, { key: String(path.at(-1)) });
  });
  return { data, onForm: findings };
}

const remarksIn = (file: string, text: string, findings: Findings): Remark[] =>
  remarksFrom(findings.all, (path, at) => placeInFile(file, text, path, at));

/** What stands in a journal that was just founded, until its maker writes their own. */
const exampleSettings = { author: 'Your name', address: 'https://example.org/' };

/** The least that journal.yaml can hold, to show to someone who has none. */
export const leastSettings =
  'title: My pigment journal\n' + `author: ${exampleSettings.author}\naddress: ${exampleSettings.address}\n`;

/** What stands in for what journal.yaml cannot do without: only a publication needs it, and no danger hangs on it. */
const settingsStandIns = { title: 'without a title', author: 'without a name', address: 'https://address.invalid/' };

/** Settings as far as they could be read. */
export interface SettingsReading {
  readonly settings: JournalSettings;
  /** Keys that are indispensable and that something stands in for; the remarks have an error then. */
  readonly stoodIn: readonly string[];
}

/** All that there is of settings where no journal.yaml can be read. */
export const settingsUnread = once(
  (): SettingsReading => ({
    settings: checkAsFar(journalSchema, settingsStandIns, 'journal', new Findings()).value!,
    stoodIn: Object.keys(settingsStandIns),
  }),
);

/**
 * Reads the text of journal.yaml. Whatever is wrong with it, there are settings, so that dangers are judged.
 * @example readSettings('journal.yaml', 'title: T\nauthor: A\naddress: https://a.b/\n').settings.language // 'en-GB'
 */
export function readSettings(file: string, text: string): SettingsReading & { readonly remarks: Remark[] } {
  const findings = new Findings();
  const { data, onForm } = dataOf(journalSchema, file, text, findings);
  const { value, stoodIn } = checkAsFar(journalSchema, data, 'journal', onForm, settingsStandIns);
  const read = value ? { settings: value, stoodIn } : settingsUnread();
  // Whoever wrote a name of their own has chosen the address as well.
  if (value?.author === exampleSettings.author)
    for (const [key, example] of Object.entries(exampleSettings))
      if (value[key as keyof typeof exampleSettings] === example)
        findings.add('still-an-example', [key], { key, example, actual: example });
  return { ...read, remarks: remarksIn(file, text, findings) };
}

const longestId = 80;

/** The nearest id that would do; undefined where nothing is left. */
function betterId(id: string): string | undefined {
  const words = id.normalize('NFKD').toLowerCase();
  const better = words.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  return better === '' ? undefined : better.slice(0, longestId);
}

const isId = (id: string): boolean => reagentIdPattern.test(id) && id.length <= longestId;

type Keys = Readonly<Record<string, unknown>>;
const isKeys = (value: unknown): value is Keys => typeof value === 'object' && value !== null && !Array.isArray(value);

/** A shelf that was written as a list: each jar by its id, or else by what it is called. */
function byId(data: unknown): Keys {
  if (isKeys(data)) return data;
  const jars = Array.isArray(data) ? (data as readonly unknown[]) : [];
  return Object.fromEntries(
    jars.flatMap((jar) => {
      const called = isKeys(jar) ? (jar.id ?? jar.name) : jar;
      return typeof called === 'string' && betterId(called) !== undefined ? [[betterId(called)!, jar]] : [];
    }),
  );
}

/** A jar of which nothing says what it is called, or all is said in one text: by its text, or by its id. */
function jarAsFar(id: string, written: unknown): unknown {
  if (typeof written === 'string') {
    const { reagent: name = written, ...others } = useInOneText(written) ?? {};
    return { name, ...others };
  }
  return isKeys(written) ? { name: id.replaceAll('-', ' '), ...written } : { name: id.replaceAll('-', ' ') };
}

/** Jars that could not be read whole, as far as they can: what entries take of them is a danger all the same. */
function jarsAsFar(
  data: unknown,
  read: ReadonlyMap<string, ShelfReagent>,
): readonly (readonly [string, ShelfReagent])[] {
  return Object.entries(byId(data)).flatMap(([written, jar]) => {
    const id = isId(written) ? written : betterId(written);
    if (id === undefined || read.has(id)) return [];
    const one = check(shelfSchema, { [id]: jarAsFar(id, jar) }, 'shelf', new Findings())?.[id];
    return one ? [[id, one]] : [];
  });
}

/** Headings of a list as a spreadsheet saves it. */
const headsOfList = /^(?=.*(?:^|[,;\t])\s*"?(?:name|formula|formel|bezeichnung|nom|nombre|nome)\b).*[,;\t]/i;

/** The first line of a table that stands where keys should: `| name | formula |`, `name,formula,purity`. */
function tableLine(text: string): { readonly line: number; readonly text: string } | undefined {
  const lines = text.split(/\r?\n/);
  const line = lines.findIndex((one) => one.trim() !== '' && !one.trim().startsWith('#'));
  const first = lines[line]?.trim() ?? '';
  const isTable = /^\|.+\|/.test(first) || (headsOfList.test(first) && !/[:{[]/.test(first));
  return isTable ? { line: line + 1, text: first.slice(0, longestId) } : undefined;
}

/** Reads the text of shelf.yaml: reagents by id; those with errors as far as they could be understood. */
export function readShelf(file: string, text: string): { readonly shelf: Shelf; readonly remarks: Remark[] } {
  const findings = new Findings();
  const table = tableLine(text);
  if (table) {
    findings.add('shelf-as-table', { file, line: table.line, column: 1 }, { line: table.text, actual: table.text });
    return { shelf: { file, text, reagents: new Map() }, remarks: remarksIn(file, text, findings) };
  }
  const { data, onForm } = dataOf(shelfSchema, file, text, findings);
  const [listed] = Array.isArray(data) ? Object.keys(byId(data)) : [];
  if (listed !== undefined) onForm.add('shelf-as-list', [], { first: listed });
  const checked = check(shelfSchema, data, 'shelf', listed === undefined ? onForm : new Findings());
  const reagents = new Map<string, ShelfReagent>();
  for (const [id, reagent] of Object.entries(checked ?? {})) {
    if (isId(id)) reagents.set(id, reagent);
    else {
      const facts = { id: id.slice(0, longestId), better: betterId(id), actual: id };
      findings.add('reagent-id', { key: [id] }, { ...facts, expected: ['small letters, digits and hyphens'] });
    }
  }
  for (const [id, jar] of jarsAsFar(data, reagents)) reagents.set(id, jar);
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
    const { data } = dataOf(shelfSchema, file, text, new Findings());
    this.written = isKeys(data) ? data : {};
    // An id in another spelling is found under the one that it is read as.
    if (!isKeys(data) || !Object.keys(data).every(isId)) this.whole();
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

  /** What of a jar does not fit and counts as not written; paths begin with its id. */
  notRead(id: string): readonly LeftOut[] {
    if (!Object.hasOwn(this.written, id)) return [];
    return checkAsFar(shelfSchema, { [id]: this.written[id] }, 'shelf', new Findings()).leftOut;
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
