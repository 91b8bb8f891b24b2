// Groups that no substance belongs to: they stand for what words say of a vessel, a place or a deed.
import { toldAfterwards, type Circumstance } from '../../reagents/index.js';

/** Groups that say something of the whole pot, by what the words say of it. */
export const circumstanceOf: Readonly<Record<string, Circumstance>> = {
  closed_vessel: 'closed',
  open_flame: 'flame',
  in_a_heap: 'heap',
  confined_space: 'confined',
  damaged_thing: 'damaged',
  old: 'old',
  enclosed_place: 'enclosed',
  indoors: 'indoors',
  ignition_source: 'ignition',
  burner: 'burner',
  smouldering_fire: 'smoulders',
  dust_cloud: 'airborne',
  on_charge: 'charging',
  fresh: 'fresh',
  oily: 'oily',
  molten_thing: 'molten',
  pressurised: 'pressurised',
  casting: 'casting',
  mouldy: 'mouldy',
  rubbed: 'rubbed',
  liquid_words: 'liquid',
  on_skin: 'skin',
  microwaved: 'microwaved',
  spilt: 'spilt',
  vacuumed: 'vacuumed',
  catalysed: 'catalysed',
  electric_current: 'current',
  plunged: 'plunged',
  damp: 'damp',
  open_standing: 'evaporating',
  swept_up: 'swept',
  soaked_in: 'soaked',
  in_the_eyes: 'eyes',
  machined: 'machined',
  swallowed: 'swallowed',
  smell_of_eggs: 'egg-smell',
  smell_of_almonds: 'almond-smell',
  smell_of_garlic: 'garlic-smell',
  smell_of_chlorine: 'chlorine-smell',
  smell_of_hay: 'hay-smell',
  smell_of_matches: 'match-smell',
  smell_of_ammonia: 'ammonia-smell',
  smell_of_fuel_gas: 'gas-smell',
  smell_of_solvent: 'solvent-smell',
  brown_fumes: 'brown-fumes',
  green_fumes: 'green-fumes',
  white_fumes: 'white-fumes',
  felt_ill: 'felt-ill',
  gone_in: 'gone-in',
  breathed: 'breathed',
  water_last: 'water-last',
  evacuated: 'evacuated',
  thin_glass: 'thin-glass',
  food_made: 'food-made',
};

/** Whether what this group stands for has happened already. */
export function isToldAfterwards(group: string): boolean {
  const told = circumstanceOf[group];
  return toldAfterwards.some((one) => one === told);
}

/** The groups of `circumstanceOf` by what the words say. */
export const groupsOfCircumstance: ReadonlyMap<Circumstance, readonly string[]> = groupedByCircumstance();

function groupedByCircumstance(): ReadonlyMap<Circumstance, readonly string[]> {
  const groups = new Map<Circumstance, string[]>();
  for (const [group, told] of Object.entries(circumstanceOf)) groups.set(told, [...(groups.get(told) ?? []), group]);
  return groups;
}

/** Groups that are no substance: a flame, a vessel, a place. */
export const circumstanceGroups: ReadonlySet<string> = new Set(Object.keys(circumstanceOf));
