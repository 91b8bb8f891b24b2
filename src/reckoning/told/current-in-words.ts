// An electric current through a pot, as the words of a step tell it.
import { says } from './around-words.js';
import { clausesOf } from './heat-in-words.js';

/** Asked before its words are. */
const mayCharge = new RegExp(
  [
    'electr|élect|elettr|elekt|anod|ánod|cathod|kathod|cátod|catod|current|strom|courant|corri?ent',
    String.raw`\d\s?V(?:olts?)?(?![a-zß-ɏ])|\bvolt|charger|batter|supply|brick|ladeger|netz`,
  ].join('|'),
  'i',
);
const volts = /\d\s?(?:V|volts?)(?![a-zß-ɏ])/i;
const amperes = /\d\s?(?:m?A|amps?|amperes?)(?![a-zß-ɏ])/;
const noCurrent = new RegExp(
  [
    String.raw`(?<![a-zß-ɏ])(?:no|not|without|never|instead of|rather than|beside|next to`,
    String.raw`nicht|kein[a-zß-ɏ]*|ohne|pas|sans|sin|senza`,
    String.raw`current (?:batch|entry|stock|lot|price)|(?:current|strom|courant) (?:off|aus|coupé))(?![a-zß-ɏ])`,
  ].join('|'),
  'iu',
);

/** Whether a current goes through the pot: told outright, by volts and amperes, or by a supply and its poles. */
export function isElectrolysed(words: string): boolean {
  if (!mayCharge.test(words)) return false;
  return clausesOf(words).some((clause) => {
    if (!mayCharge.test(clause) || noCurrent.test(clause)) return false;
    const hasVolts = volts.test(clause);
    if (says('electrolyses', clause)) return !says('worked', clause) || hasVolts;
    if (says('worked', clause)) return false;
    return (hasVolts && amperes.test(clause)) || ((hasVolts || says('supply', clause)) && says('pole', clause));
  });
}
