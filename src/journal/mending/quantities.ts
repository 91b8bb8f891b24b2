// Values, counts, heats and washes in another notation.
import { parseQuantity } from '../../chemistry/quantity/index.js';
import { readHeat } from '../../reagents/index.js';
import { found, type Path } from '../../remarks/findings.js';
import type { ValueFault } from '../../remarks/value-fault.js';
import { quantityFault, type QuantityKind } from '../quantities.js';
import { saysNothing } from './use-in-one-text.js';
import { set, takeOut, type Issue, type Mending } from './mending.js';
import { keysOfUse } from './uses.js';

/** A value that its own check reads as another. */
export function ofValue(issue: Extract<Issue, { code: 'custom' }>, path: Path, subject: string): Mending[] {
  const fault = issue.params as unknown as ValueFault;
  if (fault.rule !== 'read-as') return [];
  const facts = { ...fault.facts, subject, actual: fault.facts.written };
  return [{ path, mend: set(fault.facts.meant), found: found('read-as', facts) }];
}

/** A quantity as the format has it, if that is what it can only mean. */
function asRead(text: string, kind: QuantityKind): string | undefined {
  const fault = quantityFault(text, kind);
  if (!fault) return text;
  return fault.rule === 'read-as' ? fault.facts.meant : undefined;
}

/** How long, where the words tell a time; none for `overnight` or `a while`. */
function timeRead(written: string): string | undefined {
  const read = asRead(written, 'time');
  return read === undefined || !(/\d/.test(read) || parseQuantity(read).ok) ? undefined : read;
}

const forSoLong = String.raw`\b(?:for|für|pendant|durante|per|lang|gedurende|voor|podczas|przez|i)\b|в течение`;
const heatBefore = new RegExp(String.raw`^(.+?)\s*(?:,|;|\s[-–—]\s|\s?\/\s?(?=\d)|\s[x×]\s|${forSoLong})\s*(.+)$`, 'i');
const degreesBefore = /^(\d+\s*(?:°\s*[CF]?|[CF]|[a-zà-ɏа-я]{4,9}(?:\s[CF])?))\s+(\d.*)$/i;
const timeBefore = /^(\d.*?)\s*(?:@|\b(?:at|bei|auf|à|a|bij|op|vid|ved|przy|при)\s)\s*(.+)$/i;

/** The heat and the time of one text, in either order; neither where they do not stand apart. */
function heatAndTime(value: string): readonly (string | undefined)[] {
  const [, heat, time] = heatBefore.exec(value) ?? degreesBefore.exec(value) ?? [];
  if (heat !== undefined) return [heat, time];
  const [, first, second] = timeBefore.exec(value) ?? [];
  return [second, first];
}

/** A heating in one text: `900 °C, 1 h`, `60 °C für 3 h`. */
export function ofHeating(value: string, path: Path, subject: string): Mending[] {
  if (saysNothing(value))
    return [{ path, mend: takeOut, found: found('says-nothing', { subject, written: value, actual: value }) }];
  const [heat, time] = heatAndTime(value);
  const to = heat === undefined ? undefined : asRead(heat, 'temperature');
  const lasting = time === undefined ? undefined : timeRead(time);
  // `on the hotplate, about 90 °C`: a heat that says more than the first words, and no time.
  if (to === undefined || lasting === undefined || readHeat(lasting).known === 'number') return [];
  const facts = { subject, written: value, meant: `{ to: ${to}, for: ${lasting} }`, actual: value };
  return [{ path, mend: set({ to, for: lasting }), found: found('read-as', facts) }];
}

const washVolume = String.raw`\d+(?:[.,]\d+)?\s?(?:m[lL]|[cd]?[lL]|litres?|liters?|Liter)`;
const timesOver = String.raw`(?:(\d{1,2})\s*(?:[x×]|times|mal|fois)\s*)?`;
const timesBefore = new RegExp(String.raw`^${timesOver}(${washVolume})\s+(?:of\s+|de\s+)?(\D+)$`, 'i');
const timesBehind = new RegExp(String.raw`^(?:with\s+|mit\s+|avec\s+)?(\D+?)[\s,]+${timesOver}(${washVolume})$`, 'i');

/** A wash in one text: `3x200ml water`, `water 2 × 50 mL`. */
export function ofWash(value: string, path: Path, subject: string): Mending[] {
  const [, times, volume, water] = timesBefore.exec(value.trim()) ?? [];
  const [, other, count, measured] = water === undefined ? (timesBehind.exec(value.trim()) ?? []) : [];
  const [what, read] = [water ?? other, asRead(volume ?? measured ?? '', 'poured')];
  if (what === undefined || read === undefined) return [];
  const many = times ?? count;
  const meant = { with: what.trim(), volume: read, ...(many !== undefined && { times: many }) };
  const facts = { subject, written: value, meant: keysOfUse(meant), actual: value };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

const counts = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** `No. 7`, `#7`, `Nr. 7.`: the number of an entry. */
const numbered = /^(?:no|nr|num|n|entry|eintrag|versuch|essai|#)?\s*[.°º]*\s*[:#]?\s*0*(\d{1,6})\.?$/i;

/** `4x`, `three times`, `three or four`: the fewest that are said. */
export function ofCount(value: string, path: Path, subject: string): Mending[] {
  const number = path.length === 1 && path[0] === 'number' ? numbered.exec(value.trim())?.[1] : undefined;
  if (number !== undefined) {
    const facts = { subject, written: value, meant: number, actual: value };
    return [{ path, mend: set(number), found: found('read-as', facts) }];
  }
  const words = value
    .toLowerCase()
    .replace(/(?<=\d)\s*[x×]$|\s*\b(?:times|x|times over)$/g, '')
    .trim();
  const [, first = '', more] = /^(\d+|[a-z]+)(?:\s*(?:-|–|or|to)\s*(?:\d+|[a-z]+))?$/.exec(words) ?? [];
  const count = /^\d+$/.test(first) ? Number(first) : counts.indexOf(first) + 1;
  if (count < 1) return [];
  const several = more !== undefined || words !== first;
  const facts = { subject, written: value, meant: String(count), ...(several && { why: 'the fewest of them' }) };
  return [{ path, mend: set(count), ...(several && { found: found('read-as', facts) }) }];
}
