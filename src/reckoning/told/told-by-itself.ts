// Dangers that the words of a step tell whatever is in the pot: a fire that burns charcoal under a roof, glass that was
// not made for it under vacuum, water on burning magnesium, rags with oil in a heap.
import { says, wordsThatTell } from './around-words.js';
import { clausesOf } from './heat-in-words.js';
import { ragsLieSafely } from './oily-rags.js';

/** Asked before the words are. */
const mayTell =
  /barb|bbq|brazi|ember|coal|coke|fire|hibachi|briquet|brikett|kohle|koks|glut|feuer|grill|brais|braser|bras|ascua|brac|carb[oó]n|charbon|stove|gas|primus|heater|generator|engine|kocher|brenner|r[ée]chaud|hornillo|fornello|vacuum|vakuum|suction|evacuat|pump|mbar|aspirat|nutsch|saug|vide|vac[ií]o|vuoto|bleeder|compressor|degassed|trompe|magn[eé]si/i;

/** Whether a fire burns where its carbon monoxide stays: `indoors`, or shut in with a burner. */
function fireIn(words: string): 'fire-indoors' | 'burner-shut-in' | undefined {
  const told = wordsThatTell('no-fire').replacedIn(words, ' ');
  const isInRoom = says('room', told);
  if (!isInRoom && !says('tent', told)) return undefined;
  if (says('outside', told) && !says('carried-in', told)) return undefined;
  if (says('embers', told) || (says('coal', told) && says('burns', told))) return 'fire-indoors';
  return says('stove', told) && (says('tent', told) || says('shut-room', told)) ? 'burner-shut-in' : undefined;
}

/** Whether a vacuum is drawn in thin glass; what is only put by in a jar stands in a clause of its own. */
function isThinGlassEvacuated(words: string): boolean {
  const told = wordsThatTell('no-suction').replacedIn(words, ' ');
  if (!says('suction', told) || says('filter-flask', told)) return false;
  return clausesOf(told).some((clause) => says('thin-glass', clause) && !says('put-by', clause));
}

const magnesium = /(?<![a-zß-ɏ])magn[eé]si(?:um|o)(?![a-zß-ɏ]|\s+(?:carb|ox|sul|chl|salt|hydr))/iu;
const noWater =
  /(?<![a-zß-ɏ])(?:never|not|no|without|sand|nicht|kein[a-zß-ɏ]*|ohne|jamais|pas|nunca|mai)(?![a-zß-ɏ])/iu;
const water = /(?<![a-zß-ɏ])(?:water|wasser|eau|agua|acqua)(?![a-zß-ɏ])/iu;

/** Whether burning magnesium is put out with water; it may have been lit at the step before. */
const isMetalFireDoused = (words: string, before: string): boolean =>
  magnesium.test(`${before} ${words}`) &&
  water.test(words) &&
  !noWater.test(words) &&
  says('doused', words) &&
  says('alight', `${before} ${words}`);

/** Whether rags are heaped up, in words that name the oil on them or behind words that do. */
const areRagsHeaped = (words: string, before: string): boolean =>
  says('rags', words) &&
  says('heaped', words) &&
  !says('unheaped', words) &&
  !ragsLieSafely(words) &&
  (says('oiled', words) || says('oiled', before));

/**
 * What the words of a step tell by themselves.
 * @param before those of the step before
 */
export function toldByItself(
  words: string,
  before: string,
): readonly ('fire-indoors' | 'burner-shut-in' | 'evacuated' | 'metal-fire-doused' | 'rags-heaped')[] {
  const doused = isMetalFireDoused(words, before) ? (['metal-fire-doused'] as const) : [];
  const rags = areRagsHeaped(words, before) ? (['rags-heaped'] as const) : [];
  if (!mayTell.test(words)) return [...doused, ...rags];
  const fire = fireIn(words);
  const evacuated = isThinGlassEvacuated(words) ? (['evacuated'] as const) : [];
  return [...(fire ? [fire] : []), ...evacuated, ...doused, ...rags];
}
