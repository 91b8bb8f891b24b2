// What is put where somebody may eat or drink it, as words tell: into a sugar tin, a lemonade bottle, by the coffee, or
// on a brush that is pointed between the lips.
import { says, wordsThatTell } from './around-words.js';
import { clausesOf } from './heat-in-words.js';

/** Asked before the words are. */
const mayTell = new RegExp(
  [
    'jar|tin|bowl|tub|carton|shaker|caddy|canister|box|dish|bottle|cellar|mill|plate|glass|smoothie|next to|beside',
    'among|with the|kettle|cupboard|dose|streuer|flasche|schüssel|teller|schrank|bouteille|sucrier|salière|boîte|bol',
    'placard|azucar|salero|botella|lata|bote|zucch|salier|bottigl|scatol|baratt|lips|mouth|tongue|l[ie]c[kc]|suck',
    'finger|sandwich|lunch|\\bate\\b|eating|lippe|mund|zunge|l[eé]ch|lèvre|bouche|langue|suc[eé]|labio|boca|lengua',
    'chup|lam[ei]|labbra|bocca|lingua|succhi|mangi|becher|frigo|réfrig|nevera|kühl|yaourt|yog|fridge|larder|pantry',
    'garde-manger|dispensa|spoon|rack',
  ].join('|'),
  'i',
);

function isInClause(clause: string): boolean {
  return (['food-vessel', 'in-mouth'] as const).some((what) => {
    const told = wordsThatTell(what).placeIn(clause);
    return told !== undefined && !says('no-mouth', clause.slice(0, told.from));
  });
}

/** Whether something goes into a vessel from which somebody may eat or drink, or stands beside food. */
export const isAmongFood = (words: string): boolean => mayTell.test(words) && clausesOf(words).some(isInClause);

const mayBeKitchen =
  /oven|microwave|fryer|pan|pot|blender|processor|grinder|mill|machine|tray|tin|ofen|herd|mikrow|topf|pfanne|mixer|mühle|blech|four|casserole|poêle|moulin|mixeur|horno|cazuela|sart|molinillo|forno|pentola|padella|macina/i;

/** Whether something is dried, boiled or ground in an oven, a pot or a mill of the kitchen. */
export const isFoodMadeThere = (words: string): boolean =>
  mayBeKitchen.test(words) && says('food-made', words) && !says('not-for-food', words);
