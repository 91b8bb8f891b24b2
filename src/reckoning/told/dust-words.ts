// Words that grind, sieve, sand or sweep something dry.
import { inSmallLetters } from '../../small-letters.js';
import { says } from './around-words.js';

/** Asked before the words of the tables are looked for. */
const mayDustWords =
  /gr[iou][un]+d|crush|pound|powder|pulv|mill|mortar|pestle|blender|tritur|rub|rubb|scrap|fil(?:ed|e )|sand|siev|sift|riddle|mesh|bl[oe]w|dust|cloud|mask|sweep|swept|brush|broom|vacuum|hoover|m[aä]hl|reib|rieb|stoß|mörser|schl[ei]|schab|kratz|kugel|sieb|blas|staub|wolke|maske|kehr|feg|besen|broy|pil|moud|moul|écras|mortier|ponc|gratt|tamis|souffl|masque|nuage|bala|aspir|mole|moli|muel|machac|morter|lij|rasp|tamiz|cern|crib|sopl|nube|barr|escob|macin|pest|polver|mortaio|carteg|raschi|setac|soffi|nuvol|spazz|scop|press(?:ed|ée) air|dr[iy]er|heat gun|föhn|heißluft|cheveux|secador|capelli|\bfan|strain|stocking|nylon|muslin|colander|gauze|strumpf|passoire|\bbas\b|colador|colin|calza|sh[ao]ok?e?n? |crumb|finger|lumps|rolling|brös|klopf|nudelh|émiett|doigts|rouleau|desmen|rodill|sbric|matt|pumice|emery|wet-and-dry|schmirg|glasspaper/;
/** Whether words may tell of dust at all. */
export const mayDust = (words: string): boolean => mayDustWords.test(inSmallLetters(words));

/** `zinc dust`: a stuff, and no dust in the air. */
const namesDust =
  /(?:zinc|iron|alumini?um|magnesium|bronze|copper|brass|nickel|cobalt|coal|charcoal|marble|brick|metal|saw|stone|slate|tin|gold|silver|diamond)[- ]dust/giu;
/** What is not done: `never swept dry`, `no dry sweeping`; `not only ground` was ground. */
const notDone =
  /(?<![a-zß-ɏ])(?:never|not(?!\s+only)|no(?=\s+dry)|avoid(?:ed|ing)?|instead of|rather than|nie(?:mals)?|nicht(?!\s+nur)|kein[a-zß-ɏ]*(?=\s+trocken)|jamais|pas de|nunca|mai)(?:\s+[^\s,;.]+){1,3}/giu;
/** A paper for both: the clause says whether it was used wet. */
const eitherPaper = /(?<![a-zß-ɏ])wet[- ](?:and|or)[- ]dry(?![a-zß-ɏ])/giu;
/** What was ground before: `the ground pigment`. */
const groundBefore =
  /(?<![a-zß-ɏ])(?:the|of|an?|some|with|add|in|more|finely|freshly|very|well)\s+(?:finely[- ])?(?:ground|powdered|crushed|sieved|sifted|milled|gemahlene[a-zß-ɏ]*|gesiebte[a-zß-ɏ]*|gepulverte[a-zß-ɏ]*)(?=\s+[a-zß-ɏ])/giu;
/** `without water`: dry. */
const withoutLiquid = /(?<![a-zß-ɏ])(?:without|no|ohne|sans|sin|senza)\s+(?:any\s+)?[a-zß-ɏ]+/giu;
const worked = ['grinds', 'dusts', 'sweeps'] as const;

/** What words do with something dry; nothing where water or oil lays its dust. */
export function workedIn(words: string): readonly (typeof worked)[number][] {
  if (!mayDust(words)) return [];
  const clause = words.replace(namesDust, '').replace(groundBefore, '').replace(notDone, '');
  const told = worked.filter((one) => says(one, clause));
  if (told.length === 0 || says('wetly', clause.replace(withoutLiquid, '').replace(eitherPaper, ''))) return [];
  return told.includes('grinds') && !told.includes('dusts') && says('drily', clause) ? [...told, 'dusts'] : told;
}
