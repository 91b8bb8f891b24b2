// Reads journal.yaml and shelf.yaml, and the pages: what is not an entry.
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { rejoined } from './braces.js';
import { check, withoutEmpty } from './check.js';
import type { Page, Shelf } from './entry.js';
import type { Schema } from './format.js';
import { placeInFile, placesIn } from './place.js';
import { journalSchema, pageSchema, shelfSchema, type JournalSettings, type ShelfReagent } from './schema.js';
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

/** Reads the text of shelf.yaml: reagents by id. */
export function readShelf(file: string, text: string): { readonly shelf: Shelf; readonly remarks: Remark[] } {
  const findings = new Findings();
  const data = dataOf(shelfSchema, file, text, findings);
  const checked = data === undefined ? undefined : check(shelfSchema, data, 'shelf', findings);
  const reagents = new Map<string, ShelfReagent>();
  for (const [id, reagent] of Object.entries(checked ?? {})) {
    if (reagentIdPattern.test(id) && id.length <= longestId) reagents.set(id, reagent);
    else {
      const facts = { id: id.slice(0, longestId), better: betterId(id), actual: id };
      findings.add('reagent-id', { key: [id] }, { ...facts, expected: ['small letters, digits and hyphens'] });
    }
  }
  return { shelf: { file, text, reagents }, remarks: remarksIn(file, text, findings) };
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
