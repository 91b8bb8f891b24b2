// Links of write-ups that name a part of a page (`…/009-verditer.md#A`): is the part there?
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Place, Remark } from '../remarks/remark.js';
import type { PartLink } from './markdown.js';

/**
 * Whether `#part` leads to one of the ids, as it is written or encoded, as browsers try it; the top is always there.
 */
export const hasPart = (ids: ReadonlySet<string>, part: string): boolean =>
  part === '' || part.toLowerCase() === 'top' || ids.has(part) || ids.has(encodeURI(part));

/** Parts that a maker can have meant: neither the frame's own nor those of footnotes. */
const offered = (ids: ReadonlySet<string>): string[] =>
  [...ids].filter((id) => id !== 'main' && !id.startsWith('text-'));

const inWords = ({ file, line, column }: Place): string => `${file}:${line}:${column}`;

/**
 * A warning for each link to a part that its page has not.
 * @param idsOf ids of a page by its address; undefined where there is no such page
 * @param known remarks so far: what the reading of the journal found already is not said twice
 */
export function partRemarks(
  links: readonly PartLink[],
  idsOf: (page: string) => ReadonlySet<string> | undefined,
  known: readonly Remark[],
): Remark[] {
  const dangling = new Set(known.filter(({ ruleId }) => ruleId === 'dangling-link').map(inWords));
  const findings = new Findings();
  for (const { page, part, place } of links) {
    const ids = idsOf(page);
    if (!ids || hasPart(ids, part) || dangling.has(inWords(place))) continue;
    const shown = part.slice(0, 60);
    findings.add('no-such-part', place, { part: shown, page, actual: shown, expected: offered(ids) });
  }
  return remarksFrom(findings.all, () => ({ file: '', line: 1, column: 1 }));
}
