// Dangers that the words of a step tell whatever is in the pot: a fire that burns charcoal under a roof, glass that was
// not made for it under vacuum.
import { says, wordsThatTell } from './around-words.js';
import { clausesOf } from './heat-in-words.js';

/** Asked before the words are. */
const mayTell =
  /barb|bbq|brazi|ember|coal|coke|fire|hibachi|briquet|brikett|kohle|koks|glut|feuer|grill|brais|braser|bras|ascua|brac|carb[oó]n|charbon|stove|gas|primus|heater|generator|engine|kocher|brenner|r[ée]chaud|hornillo|fornello|vacuum|vakuum|suction|evacuat|pump|mbar|aspirat|nutsch|saug|vide|vac[ií]o|vuoto|bleeder|compressor|degassed|trompe/i;

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

/** What the words of a step tell by themselves. */
export function toldByItself(words: string): readonly ('fire-indoors' | 'burner-shut-in' | 'evacuated')[] {
  if (!mayTell.test(words)) return [];
  const fire = fireIn(words);
  return [...(fire ? [fire] : []), ...(isThinGlassEvacuated(words) ? (['evacuated'] as const) : [])];
}
