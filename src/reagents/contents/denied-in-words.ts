// What a sentence names and takes back, or means otherwise: what was not put in, what cleaned only the maker's hands,
// a thermometer, a colour that is called after a stuff.
import { once } from '../../once.js';
import { patternThatSays, wordsThatSay } from './sentence-words.js';

/** Words on both sides of a name in small letters: of its clause, and all of its sentence behind it. */
export interface Around {
  /** The last few of its clause before it. */
  readonly before: string;
  readonly clauseBefore: string;
  readonly after: string;
  readonly rest: string;
}

const between = once(() => (['between', 'filler', 'measure'] as const).map((what) => patternThatSays(what)).join('|'));

/** `did not add the`, `didn't use any of the`, `skipped the`; only with deeds that put something in. */
const notPutIn = once(() => {
  const deed = String.raw`(?:${patternThatSays('put-in')}|${patternThatSays('takes')})(?: (?:in|on))?`;
  const not = String.raw`(?:\w+n['’]t|${patternThatSays('denies')})`;
  const words = String.raw`(?: (?:${between()}))*$`;
  return new RegExp(String.raw`(?:^| )(?:${not} ${deed}|${patternThatSays('leaves-out')})${words}`);
});

/** `I did not skip the bleach`: it was put in. */
const deniesLeavingOut = once(() => {
  const not = String.raw`(?:\w+n['’]t|${patternThatSays('denies')})`;
  return new RegExp(String.raw`(?:^| )${not}(?: \w+){0,2} (?:${patternThatSays('leaves-out')}|left|leave)(?![\w'’-])`);
});

/** What may stand behind it, and leaves it denied: `this time`, `to it`; not `slowly`, `at first`. */
const staysDenied = once(() => new RegExp(String.raw`^(?:$|(?:${patternThatSays('at-all')})(?![\w'’-]))`));

/** It was put in later: `not until the morning`. */
const isOnlyLater = once(() => new RegExp(String.raw`(?:^| )(?:${patternThatSays('later')})(?![\w'’-])`));

/** `left the bleach out`, and nothing behind it. */
const leftOut = /(?:^| )(?:left|leave|leaves|leaving)(?: (?:the|that|this|all|any|its))*$/;
const outAltogether = /^out(?: (?:altogether|entirely|completely|this time|here))?$/;

/** Behind a name: it stayed where it is kept, or the end of a sentence denies it, as in German. */
const staysAway = once(() => new RegExp(String.raw`^(?:${patternThatSays('stays-away')})(?![\w'’-])`));

/** `put the bleach back on the shelf before the ammonia was opened`: `before` says of the other when, not of this. */
const putBackBefore = once(
  () =>
    new RegExp(
      String.raw`^(?=back )(?:${patternThatSays('stays-away')}) before(?![\w'’-])(?!.* (?:it|them|some)(?![\w'’-]))`,
    ),
);

const keeps = /(?:^| )(?:keep|keeps|kept|keeping)(?: \S+){0,5}$/;
const awayFrom = /^(?:well |far |safely |all )?away from(?![\w'’-])/;

/** Behind a name: `and sulphur are kept well away from the mill`. */
const isKeptAway = new RegExp(
  [
    String.raw`^(?:(?:and|or) \S+(?: \S+)? )?(?:is|are|was|were|stays?|stayed)(?: (?:always|both|all))?`,
    String.raw`(?: (?:kept|stored|held))? (?:well |far |safely |right )?away from(?![\w'’-])`,
  ].join(''),
);

/** Whether words say that something was not put in at all. `did not add the acid until cold` does not. */
export function isDenied({ before, clauseBefore, after, rest }: Around): boolean {
  if ((keeps.test(clauseBefore) && awayFrom.test(after)) || isKeptAway.test(after)) return true;
  if (putBackBefore().test(after)) return true;
  if (isOnlyLater().test(rest)) return false;
  if (deniesLeavingOut().test(before)) return false;
  if (notPutIn().test(before)) return staysDenied().test(after);
  return (leftOut.test(before) && outAltogether.test(after)) || staysAway().test(after);
}

const insteadOf = [
  String.raw`(?:^| )(?:instead of|in place of|statt|anstelle von|au lieu de|en lugar de|en vez de|invece di)`,
  String.raw`(?: (?:the|any|a|der|des|du|de|la|el|il))*$`,
].join('');
const replaced = new RegExp(insteadOf);
const none = /(?:^| )no$/;
const wasAdded = /^(?:was|were) (?:added|used|taken|needed|put)(?![\w'’-])/;

/** Whether something else is plainly taken in its place, or none of it. */
export const isReplaced = ({ before, after, rest }: Around): boolean =>
  !isOnlyLater().test(rest) && (replaced.test(before) || (none.test(before) && wasAdded.test(after)));

/** What a book, a recipe or somebody says, up to the name. */
const hearsay = once(() => new RegExp(String.raw`(?:^| )(?:${patternThatSays('hearsay')})(?![\w'’-])`));
export const isHearsay = (wordsUpToName: string): boolean => hearsay().test(wordsUpToName);

const mayBeDone = String.raw`(?:may|might|will|could|shall|should|would|want to|hope to|mean to)`;
const another = String.raw`(?:next time|another time|one day|some day|in future)`;
const isNextTime = new RegExp(
  String.raw`(?:^| )(?:${another}(?: \w+){0,2} ${mayBeDone}|${mayBeDone}(?: \w+){0,3} ${another})(?![\w'’-])`,
);

const longAgo = /(?:^| )(?:(?:in|around|about|since|until|before) (?:the )?1[0-9]\d\ds?|\d\dth century)(?![\w'’-])/;
const somebodyThen = /(?:^| )(?:they|dyers|painters|masters|makers|monks|people)(?![\w'’-])/;
const maker = /(?:^| )(?:i|we|my|our|us|me|mine|ours|here|today|now|so|likewise|too)(?![\w'’-])/;

/** `Next time I may try`; `in 1850 they struck it with`, in a sentence that tells of nobody else. */
export const isOfAnotherTime = ({ clauseBefore, before, rest }: Around, sentence: string): boolean =>
  isNextTime.test(clauseBefore) ||
  (longAgo.test(sentence) && somebodyThen.test(clauseBefore) && !maker.test(`${sentence} ${before} ${rest}`));

const ofMaker = String.raw`(?:my|our|his|her|their|your|own)(?: own)? (?:hands|fingers|fingertips|skin|forearms|arms)`;
const cleaned = String.raw`(?:^| )(?:wash|clean|rins|wip|scrub)[a-z]*(?: \S+){0,5}?`;
const cleanedWith = new RegExp(
  String.raw`${cleaned} ${ofMaker}(?: (?:off|well|clean|again))? (?:with|in)(?: \w+){0,3}$`,
);
const rubbed = /(?:^| )(?:rub|rubbed|rubbing)(?: \w+){0,2}$/;
const onHands = new RegExp(String.raw`^(?:on|onto|over|into) ${ofMaker}(?![\w'’-])`);

/** `Brown fingers come clean with lemon juice and`, `stained hands were washed in`. */
const handsCleanedWith = new RegExp(
  [
    String.raw`(?:^| )(?:hands|fingers|fingertips|skin|forearms)(?: \S+){0,4}?`,
    String.raw` (?:clean|cleaned|washed|wiped|scrubbed|rinsed)(?: \S+){0,3}? (?:with|in)(?: \w+){0,5}$`,
  ].join(''),
);

/** Of other languages: `me lavé las manos con`, `mir die Hände mit`, `mi sono lavato le mani con`. */
const handsOf = String.raw`(?:hände|finger|haut|mains|doigts|peau|manos|dedos|piel|mani|dita|pelle)`;
const onlyHands = new RegExp(
  String.raw`(?:^| )(?:mir|uns|me|nos|mi|ci|m['’]|meine|mes|mis|le mie|las|le|les|die) ?(?:\S+ ){0,4}?${handsOf}` +
    String.raw`(?: \S+){0,3}? (?:with|in|mit|avec|con|au|à la|col|coll\S+)(?: \S+){0,3}$`,
);

/** `a hand cream with`, `crema con`: what is in it goes on the skin. */
const creamWith =
  /(?:^| )(?:hand )?(?:creams?|crem[ea]|crème|handcreme|lotion|lozione|loción|salve|salbe|pommade|pomada|pomata|balm|ointment)(?: \S+){0,2}? (?:with|of|in|mit|avec|con|à la|de|alla)(?: \S+){0,2}$/;
const creamBehind = /^(?:hand ?)?(?:cream|lotion|balm|salve|ointment|soap)(?![\w'’-])/;
const otherSkin = 'hands?|fingers|skin|knuckles|arms|lips|lippen|lèvres|labios|labbra';
const skin = new RegExp(`(?<![a-zß-ɏ])(?:${otherSkin}|${handsOf})(?![a-zß-ɏ])`);

const ownNails = String.raw`(?:my|her|his|their|our|your|own) (?:finger ?|toe ?)?nails`;
const nailsWith = new RegExp(String.raw`(?:^| )${ownNails}(?: \S+){0,3}? (?:with|in)(?: \w+){0,3}$`);
const beforeNails = /(?:^| )(?:my|her|his|their|our|your|own)$/;

/** `Did her nails with`: those of fingers, and not of iron. */
export const areOwnNails = (name: string, before: string): boolean => name === 'nails' && beforeNails.test(before);

const isCream = ({ clauseBefore, after, rest }: Around): boolean =>
  (creamWith.test(clauseBefore) || creamBehind.test(after)) && skin.test(`${clauseBefore} ${rest}`);

/** `washed my hands with a little vinegar`: it meets the maker, and not the pot. */
export const isForHands = (around: Around): boolean => {
  const { before, clauseBefore, after } = around;
  if (cleanedWith.test(clauseBefore) || handsCleanedWith.test(clauseBefore)) return true;
  if (nailsWith.test(clauseBefore)) return true;
  return onlyHands.test(clauseBefore) || isCream(around) || (rubbed.test(before) && onHands.test(after));
};

const rinsedWith = /(?:^| )(?:rins|wash|clean|wip)[a-z]*(?: \S+){0,4}? (?:with|in)(?: \w+){0,3}$/;
const glassware =
  /(?<![a-z])(?:funnels?|glass\w*|beakers?|jars?|jugs?|dish(?:es)?|flasks?|bottles?|pipettes?|spatulas?|tools?|rods?|cylinders?)(?![a-z])/;
const whatWasMade =
  /(?<![a-z])(?:cake|pigment|product|precipitate|powder|solid|filter paper|crystals|slurry|rest|residue)(?![a-z])/;
const daysBefore =
  /(?<![a-z])(?:(?:the|a) (?:day|night|evening|week|month) (?:before|earlier)|yesterday|last (?:night|week|month)|(?:days|weeks) (?:before|ago|earlier)|long before)(?![a-z])/;
const driedSince = /(?<![a-z])(?:dry|dried|drying|aired|(?:stood|stand|left|lain|lay) in the air|bone-dry)(?![a-z])/;

/** `The funnel had been rinsed with acetone the day before and left to dry`: it is gone when the work begins. */
export const isRinsedBefore = ({ clauseBefore }: Around, sentence: string): boolean =>
  rinsedWith.test(clauseBefore) &&
  daysBefore.test(sentence) &&
  driedSince.test(sentence) &&
  glassware.test(sentence) &&
  !whatWasMade.test(sentence);

const thermometers = /(?:^| )thermometers?$/;
const breaks =
  /(?<![a-z])(?:br[oe]ak\w*|broke\w*|crack\w*|burst\w*|smash\w*|snap\w*|shatter\w*|drop\w*|fell|fall\w*|leak\w*|spil\w*|beads?|globules?|shards?|pieces|damaged|gave way|from (?:an?|the|my|our)(?: \w+)? thermometer|zerbr\w*|cass\w*|romp\w*|rott\w*|rot[oa]s?|out of)(?![a-z])/;

const foilOf = 'aluminium|aluminum|alu|ally|ali|kitchen|tin|baking|household|cooking|silver';
const foils = new RegExp(String.raw`^(?:(?:${foilOf}) )*foil$|^alu(?:minium)?folie$`);
const covers = 'lids?|cover(?:s|ed|ing)?|caps?|capped|hood|tent|parcel|wrap(?:s|ped|ping)?|lin(?:ed|ing)|closed|sealed';
const coversBefore = String.raw`(?:${covers})(?: (?!add|mix|grind|ground|stir|drop)\S+){0,6}?`;
const underIt = String.raw`(?:stood|stands|stand|set|lay|lies|laid|put|spread|baked|dried|dry|rests?)(?: \S+){0,5}? on`;
const sheetOf = '(?: (?:with|in|of|by|a|an|the|some|sheet|piece|double|loose|loosely))*$';
const asCover = new RegExp(`(?:^| )(?:${coversBefore}|${underIt})${sheetOf}`);
const coversBehind =
  /^(?:lids?|covers?|over|on top|laid over|hood|cap|parcel|wrapping|wrapper|round|around|under)(?![\w'’-])/;
const inPieces =
  /(?<![a-z])(?:torn|tear|shred\w*|scraps?|bits|strips|cut (?:up|small|into)|balls?|crumpled|pellets|filings)(?![a-z])/;

/** `A lid of aluminium foil`, `wrapped in kitchen foil`: a sheet beside the stuff and not among it. */
export const isCover = (name: string, { clauseBefore, after }: Around, sentence: string): boolean =>
  foils.test(name) && (asCover.test(clauseBefore) || coversBehind.test(after)) && !inPieces.test(sentence);

const lamps = /^(?:spirit|alcohol|meths|paraffin|oil|kerosene) (?:lamp|burner|stove)s?$/;
const overIt = /(?:^| )(?:over|on|above|with|by)(?: (?:a|the|my|our|an|small|little|lit))*$/;
const filled = /(?<![a-z])(?:fill\w*|refill\w*|top\w* up|tipp\w*|upset|knock\w*)(?![a-z])/;

/** `Warmed over a spirit lamp`: what burns in it stays in it; not where it is filled, or breaks. */
export const isLamp = (name: string, before: string, sentence: string): boolean =>
  lamps.test(name) && overIt.test(before) && !breaks.test(sentence) && !filled.test(sentence);

/** A thermometer that measures, or the word before it (`an alcohol thermometer`); one that broke is what is in it. */
export const isInstrument = (name: string, after: string, sentence: string): boolean =>
  (thermometers.test(name) || /^thermometers?(?![\w-])/.test(after)) && !breaks.test(sentence);

/** What wet things are laid on so that it drinks their water. */
const beds = once((): ReadonlySet<string> => new Set(wordsThatSay('bed')));
const articles = 'an?|the|some|my|dry|old|thick|clean|eine[rmn]?|dem|der|une?|la|le|el';
const slabs = 'slabs?|bats?|blocks?|plates?|tiles?|bricks?|beds?|boards?|plaques?|platten?|lastra|placa|losa';
const laidOn = new RegExp(
  [
    String.raw`(?:^| )(?:on|onto|upon|auf|sur|su|sobre)(?: (?:${articles}))*`,
    String.raw`(?: (?:${slabs})(?: (?:of|aus|von|de|en))?)?$`,
  ].join(''),
);
const wetsIt = /(?<![a-z])(?:pour|tip|add|drip|splash|gie(?:ß|ss)|vers)/;

/** `Dry on plaster`, `spread on a slab of gypsum`: what it lies on. */
export const isBed = (name: string, { before, clauseBefore }: Around): boolean =>
  beds().has(name) && laidOn.test(before) && !wetsIt.test(clauseBefore);

const hues =
  /(?:^| )(?:yellow|red|green|blue|white|black|brown|violet|orange|vermilion|vermillion|scarlet|cinnabar|emerald)$/;
/** Stuffs that colours are called after: `amber`. */
const huesOfStuffs = once((): ReadonlySet<string> => new Set(wordsThatSay('hue')));
const shades = 'a|an|to|quite|almost|pale|deep|bright|clear|dull|cold|warm|dark|light';
const turns = new RegExp(
  [
    String.raw`(?:^| )(?:(?:turn(?:s|ed|ing)?|becomes?|became|(?<!\bin )(?:went|goes)|grew)`,
    String.raw`|(?:until|till) (?:it|they|all|the \w+) (?:was|were|is|are))(?: (?:${shades}))*$`,
  ].join(''),
);
const isTinted =
  /^(?:slip|liquor|liquid|water|broth|tint|tinge|tone|hue|shade|colou?r|glow|cast|flush|light|flowers?|petals)(?![\w'’-])/;
const isTint = /^(?:tint|tinge|tone|hue|shade|colou?r|glow|cast|flush)(?![\w'’-])/;
const seen =
  'liquor|liquid|filtrate|solution|supernatant|colou?r|shade|cake|paste|powder|precipitate|residue|crust|slurry';
const becoming =
  'is|was|by|then|now|comes?|came|runs?|ran|stays?|stayed|remains|dries|dried|looks?|looked|through|out|still';
/** `the liquor amber`, `the filtrate comes through a deep amber`; not `into the liquor indigo`. */
const looks = new RegExp(
  [
    String.raw`(?:^| )(?<!\b(?:in|into|to|on|onto|under|over)(?: (?:the|a|this|that|its))? )`,
    String.raw`(?:${seen})(?: (?:${becoming}|${shades}))*$`,
  ].join(''),
);
const isAllOfIt = /^(?:$|(?:and|or|when|by|throughout|overnight|all|grey|gray|in the light)(?![\w'’-]))/;

/** `Lemon yellow while hot`: when it looks so. */
const isSeenWhen = once(() => new RegExp(String.raw`^(?:${patternThatSays('seen-when')})(?![\w'’-])`));

/** `Bright lemon at once`, `a pale lemon.` */
const shaded =
  /^(?:(?:it |all )?(?:is |was |went |came )?(?:an? )?(?:bright|pale|deep|clear|dull|soft|lovely|light|dark) ?)+$/;
const isSeenAtOnce = /^(?:$|at once|straight ?away|immediately|already|now)/;

/** `turned chrome yellow`, `the lemon yellow slip`, `with the liquor amber`: what it looks like. */
export const isHue = (name: string, { before, after }: Around): boolean => {
  if ((hues.test(name) || huesOfStuffs().has(name)) && isSeenWhen().test(after)) return true;
  if (huesOfStuffs().has(name) && shaded.test(before) && isSeenAtOnce.test(after)) return true;
  if (turns.test(before)) return huesOfStuffs().has(name) || hues.test(name);
  if (huesOfStuffs().has(name)) return isTint.test(after) || (looks.test(before) && isAllOfIt.test(after));
  return hues.test(name) && isTinted.test(after);
};
