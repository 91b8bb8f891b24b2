// What is asked of a finished entry of which no colour is told, though the trade knows what colour its pigment has.
import { untoldFamily } from './crosslinks/untold-families.js';
import { keysOfUse } from './journal/mending/uses.js';
import { remarksOn } from './journal/place.js';
import { onceFor } from './once.js';
import type { ReckonedEntry } from './reckoning/contracts.js';
import { Findings } from './remarks/findings.js';
import type { Remark } from './remarks/remark.js';

/** The remark on such an entry, made once; none on any other. */
export const remarksOnColour = onceFor((reckoned: ReckonedEntry): readonly Remark[] => {
  const family = untoldFamily(reckoned);
  const { entry } = reckoned;
  if (family === undefined || !entry.pigment) return [];
  const findings = new Findings();
  const { name, formula } = entry.pigment;
  const inOneText = /^pigment:[ \t]*[^\s{&]/m.test(entry.matter);
  findings.add('colour-not-told', ['pigment'], {
    pigment: name,
    family,
    ...(inOneText && { whole: keysOfUse({ name, ...(formula !== undefined && { formula }), family }) }),
  });
  return remarksOn(entry, findings.all);
});
