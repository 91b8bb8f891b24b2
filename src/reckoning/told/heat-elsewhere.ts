// Heat that words tell of somebody else's work: `the kiln next door stood at 1060 °C with my neighbour's stoneware`.
// Only whole clauses that leave no room for what the entry makes, in a text that puts nothing in there.

const degree = String.raw`(?:(?:at|to|on)\s+)?(?:about\s+)?\d[\d.,]*\s*(?:[°º]\s?[CF]?|degrees?|deg)`;
const person = [
  'neighbou?r|friend|sister|brother|mother|father|wife|husband|daughter|son|aunt|uncle',
  'colleague|teacher|potter',
].join('|');
const kiln = String.raw`(?:kiln|oven|furnace|muffle|stove)`;
const [mine, somebody] = [`(?:my|our|the|a|an)\\s+(?:${person})`, '(?:somebody|someone)(?: else)?'];
const ofSomebody = String.raw`(?:${mine}['’]?s['’]?|${somebody}['’]s)`;
const nextDoor = String.raw`(?:next door|in the next room|across the (?:yard|road|street|hall))`;
const [stood, meanwhile] = ['(?:stood|was|were|ran)', String.raw`^(?:meanwhile,?\s+)?`];
const theirThings = String.raw`(?:with|for|full of|firing)\s+${ofSomebody}(?:\s+[a-z]+){1,2}`;
const end = String.raw`\s*(?:,?\s*(?:meanwhile|all the while|that day|at the time))?\s*[.;!]?\s*$`;

const theKilnNextDoor = String.raw`the ${kiln} ${nextDoor} ${stood} ${degree}(?:\s+${theirThings})?`;
const theirKiln = String.raw`(?:${nextDoor},?\s+)?${ofSomebody}\s+${kiln}(?:\s+${nextDoor})? ${stood} ${degree}`;
const theyFired = [
  String.raw`${mine}(?:\s+${nextDoor})? (?:fired|burnt|baked|was firing)`,
  String.raw`(?:her|his|their)(?: own)? [a-z]+ ${degree}`,
].join(' ');
const keptFrom = [
  String.raw`[^,;]*(?<![a-z])never (?:went|came|was put) (?:in|into|near) the ${kiln}, which ${stood} ${degree}`,
  String.raw`(?:\s+for the [a-z]+(?: of the [a-z]+)?)?`,
].join('');
const trade = '(?:maker|supplier|seller|vendor|manufacturer|colou?rman|merchant|dealer|factory|mill|shop|works)s?';
/** `had been calcined by its maker`, `comes already roasted from the mill`. */
const byOthers = [
  String.raw`[^,;]*(?<![a-z])(?:been|was|were|is|are|comes?|came|bought|sold|got)(?:\s+[a-z]+){1,2}?`,
  String.raw`(?:\s+at [a-z]+ heat)?(?:\s+(?:by|from|at))\s+(?:the|its|their|a|another)\s+${trade}`,
  String.raw`(?:(?: at|,|\s+and) [^;]*)?`,
].join('');
const elsewhere: readonly RegExp[] = [
  theKilnNextDoor,
  theirKiln,
  theyFired,
  String.raw`${ofSomebody}\s+[a-z]+ ${stood} in the ${kiln},? ${degree}`,
  keptFrom,
  byOthers,
].map((words) => new RegExp(`${meanwhile}${words}${end}`, 'i'));

/** What is done with a kiln, in any other clause: then it may be that heat. */
const goesIn =
  /(?<![a-z])(?:put|puts|place[ds]?|set|slid|laid|went|goes|brought|carried|took|taken|fired|heated|baked|roasted|calcined|dried|burnt|joined|added|in there|inside)(?![a-z])/i;
/** `none of the blue has been near it`, `never went in`. */
const keptOut =
  /(?<![a-z])(?:none of|nothing of|never|not|no)(?![a-z])[^,.;]{0,40}(?<![a-z])(?:near|in|into|inside) (?:it|there|that)(?![a-z])/i;

/** Asked before the patterns. */
const mayTell = new RegExp(String.raw`next|across|['’]s?(?![a-z])|never|${person}|${trade}`, 'i');

/**
 * Those clauses of a text that do not only tell of heat elsewhere.
 * @example withoutElsewhere(['My friend fired her pots at 1240 °C.']) // []
 */
export function withoutElsewhere(clauses: readonly string[]): readonly string[] {
  const isElsewhere = (clause: string): boolean => elsewhere.some((pattern) => pattern.test(clause.trim()));
  const left = clauses.filter((clause) => !mayTell.test(clause) || !isElsewhere(clause));
  return left.some((clause) => goesIn.test(clause) && !keptOut.test(clause)) ? clauses : left;
}
