// Reads journal.yaml and shelf.yaml, and the pages: what is not an entry.
import { check, withoutEmpty } from './check.js';
import type { Page, Shelf } from './entry.js';
import { placeInFile } from './place.js';
import { remark, type Remark } from './remarks.js';
import { journalSchema, pageSchema, shelfSchema, type JournalSettings, type ShelfReagent } from './schema.js';
import { split } from './split.js';
import { reagentIdPattern } from './values.js';
import { readYaml, yamlFileLimit } from './yaml.js';

/** Data of a YAML file, empty keys taken out. */
function dataOf(file: string, text: string, remarks: Remark[]): unknown {
  const yaml = readYaml(text, yamlFileLimit);
  if (!yaml.ok) {
    remarks.push(
      ...yaml.faults.map(({ rule, line, column, found, actual, cure }) =>
        remark({ place: { file, line, column }, severity: 'error', rule, found, actual, cure }),
      ),
    );
    return undefined;
  }
  return withoutEmpty(yaml.value ?? {}, (path) => {
    remarks.push(
      remark({
        place: placeInFile(file, text, path, 'key'),
        severity: 'note',
        rule: 'empty-key',
        found: `\`${String(path.at(-1))}\` has nothing after it, and counts as left out.`,
        cure: 'Fill it in, or take the line out.',
      }),
    );
  });
}

/** The least that journal.yaml can hold, to show to someone who has none. */
export const leastSettings = 'title: My pigment journal\nauthor: Your name\naddress: https://example.org/\n';

/** Reads the text of journal.yaml. @example readSettings('journal.yaml', 'title: T\nauthor: A\naddress: https://a.example/\n').settings?.language // 'en-GB' */
export function readSettings(
  file: string,
  text: string,
): { readonly settings?: JournalSettings; readonly remarks: Remark[] } {
  const remarks: Remark[] = [];
  const data = dataOf(file, text, remarks);
  if (data === undefined) return { remarks };
  const checked = check(journalSchema, data, 'journal', (path, at) => placeInFile(file, text, path, at));
  remarks.push(...checked.remarks);
  return { settings: checked.value, remarks };
}

/** Reads the text of shelf.yaml: reagents by id. */
export function readShelf(file: string, text: string): { readonly shelf: Shelf; readonly remarks: Remark[] } {
  const remarks: Remark[] = [];
  const data = dataOf(file, text, remarks);
  const reagents = new Map<string, ShelfReagent>();
  if (data !== undefined) {
    const checked = check(shelfSchema, data, 'shelf', (path, at) => placeInFile(file, text, path, at));
    remarks.push(...checked.remarks);
    for (const [id, reagent] of Object.entries(checked.value ?? {})) {
      if (reagentIdPattern.test(id) && id.length <= 80) reagents.set(id, reagent);
      else {
        const better = id
          .normalize('NFKD')
          .toLowerCase()
          .replace(/[^a-z0-9]+/g, '-')
          .replace(/^-+|-+$/g, '');
        remarks.push(
          remark({
            place: placeInFile(file, text, [id], 'key'),
            severity: 'error',
            rule: 'reagent-id',
            found: `'${id.slice(0, 80)}' can’t be the id of a reagent; it becomes part of an address.`,
            actual: id,
            expected: ['small letters, digits and hyphens'],
            cure:
              better === ''
                ? 'Write small letters, digits and hyphens.'
                : `Write ${better.slice(0, 80)}: and keep the words under \`name\`.`,
          }),
        );
      }
    }
  }
  return { shelf: { file, text, reagents }, remarks };
}

/** Reads a page, or the words of a series or a colour family; front matter may be left out. */
export function readPage(file: string, text: string): { readonly page?: Page; readonly remarks: Remark[] } {
  const name = file.replace(/^.*\//, '').replace(/\.md$/, '');
  const parts = split(text);
  if (!parts.ok) {
    if (parts.plain) return { page: { file, name, body: text, bodyLine: 1 }, remarks: [] };
    const { rule, line, column, found, cure } = parts.fault;
    return { remarks: [remark({ place: { file, line, column }, severity: 'error', rule, found, cure })] };
  }
  const { matter, matterLine, body, bodyLine, yaml } = parts.split;
  const remarks: Remark[] = [];
  if (!yaml.ok) {
    remarks.push(
      ...yaml.faults.map(({ rule, line, column, found, actual, cure }) =>
        remark({ place: { file, line: line + matterLine - 1, column }, severity: 'error', rule, found, actual, cure }),
      ),
    );
    return { page: { file, name, body, bodyLine }, remarks };
  }
  const checked = check(
    pageSchema,
    withoutEmpty(yaml.value ?? {}, () => undefined),
    'page',
    (path, at) => {
      const place = placeInFile(file, matter, path, at);
      return { ...place, line: place.line + matterLine - 1 };
    },
  );
  remarks.push(...checked.remarks);
  return { page: { file, name, title: checked.value?.title, order: checked.value?.order, body, bodyLine }, remarks };
}
