// masstone foresee: what could go wrong when these are mixed or heated, with no entry needed.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseQuantity } from '../chemistry/quantity/index.js';
import { foresee } from '../hazards/foresee.js';
import type { Foreseen, Foresight, PotHeating, PotIngredient } from '../hazards/foreseen.js';
import { readIngredient, statedStrength } from '../hazards/ingredient-text.js';
import type { ShelfReagent } from '../journal/schema.js';
import { WrongUse, type Command } from './command.js';

const standing = [
  'The list of rules is incomplete, and the amounts are those you gave. A worst-case sum is not an exposure assessment.',
  'Follow the safety data sheets, your local rules and licences; ask someone competent before going further.',
];
export const nothingMatched = 'Nothing on our list matched. The list is incomplete; that is no all-clear.';

const notHeated = 'No heat was given: drying and firing were not judged.';

/**
 * The shelf of the journal, where there is one; without a journal names and formulae still do. It is read only where its
 * text has one of the words asked about, since reading it takes longer than all the rest.
 */
async function shelfOf(folder: string, words: readonly string[]): Promise<ReadonlyMap<string, ShelfReagent>> {
  const file = join(folder, 'shelf.yaml');
  if (!existsSync(file)) return new Map();
  const text = readFileSync(file, 'utf8');
  const plain = text.toLowerCase();
  if (!words.some((word) => plain.includes(word.toLowerCase()))) return new Map();
  const { readShelf } = await import('../journal/yaml-file.js');
  return readShelf('shelf.yaml', text).shelf.reagents;
}

function fromShelf(given: PotIngredient, shelf: ReadonlyMap<string, ShelfReagent>): PotIngredient {
  const reagent =
    shelf.get(given.name) ??
    [...shelf.values()].find(({ name, 'also-called': others = [] }) =>
      [name, ...others].some((one) => one.toLowerCase() === given.name.toLowerCase()),
    );
  if (!reagent) return given;
  const strength = reagent.strength === undefined ? undefined : parseQuantity(reagent.strength);
  const density = reagent.density === undefined ? undefined : parseQuantity(reagent.density);
  const stated = strength?.ok ? statedStrength(strength.value) : undefined;
  return {
    ...given,
    name: reagent.name,
    ...(given.formula === undefined && reagent.formula !== undefined && { formula: reagent.formula }),
    ...(given.strength === undefined && stated && { strength: stated }),
    ...(given.density === undefined && density?.ok && { density: density.value.base.toFixed() }),
  };
}

/** `400 °C`, or `product: 60 °C` for one thing only. */
function heatingOf(text: string): PotHeating {
  const [, of = 'mixture', degrees = text] = /^(.+?)\s*[:=]\s*(.+)$/.exec(text) ?? [];
  const read = parseQuantity(/^-?[\d.]+$/.test(degrees.trim()) ? `${degrees} °C` : degrees);
  if (!read.ok || read.value.dimension !== 'temperature')
    throw new WrongUse(`--heat takes a temperature, like '400 °C', not '${text}'.`);
  return {
    of: of.trim(),
    toCelsius: (read.value.high ?? read.value.base).toNumber(),
  };
}

function roomOf(text: string): string {
  const read = parseQuantity(/^[\d.]+$/.test(text.trim()) ? `${text} m3` : text);
  if (!read.ok || read.value.dimension !== 'volume' || !read.value.base.gt(0))
    throw new WrongUse(`--room takes a volume, like '25 m3', not '${text}'.`);
  return read.value.base.div('1e6').toFixed();
}

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** One hazard for a tired reader. */
export function hazardWords(one: Foreseen): string {
  const gas = one.gas ? ` (${one.gas}${one.gases ? `: ${one.gases.map(({ name }) => name).join(', ')}` : ''})` : '';
  const lines = [
    `${one.severity.toUpperCase()}: ${one.title}. ${upper(one.consequence)}${gas}.`,
    `Partners: ${one.partners.join(', ')}.`,
    `When: ${one.condition}.`,
    ...(one.worstCase ? [`At worst: ${one.worstCase.words}`] : []),
    ...(one.severity !== 'note' && one.gases
      ? one.gases
          .filter(({ smellWarns }) => smellWarns !== '')
          .map(
            ({ name, smellWarns, late }) => `${upper(name)}: smell as a warning: ${smellWarns}. Harm later: ${late}.`,
          )
      : []),
    `Do: ${one.precaution}.`,
    `Source: ${one.source}.`,
  ];
  return lines.map((line, at) => `${at === 0 ? '' : '  '}${line.replace(/\.\.$/, '.')}`).join('\n');
}

function words({ foreseen, unknown, cautions }: Foresight): string {
  return [
    ...foreseen.map(hazardWords),
    ...(foreseen.length === 0 ? [nothingMatched] : []),
    ...(unknown.length > 0
      ? [
          `Not recognised: ${unknown.join(', ')}. With these the mixture cannot be called safe: give a formula, or look them up in their safety data sheets.`,
        ]
      : []),
    ...(cautions.length > 0 ? [cautions.join('\n')] : []),
    '',
  ].join('\n\n');
}

export const command: Command = {
  name: 'foresee',
  summary: 'what could go wrong when these are mixed or heated, with no entry needed',
  help: `
Use: masstone foresee REAGENT… [--heat TEMPERATURE] [--room VOLUME] [--extraction] [--reaction EQUATION] [--json]

Everything named is taken to meet. A reagent is a name, a formula or an id of the shelf, with its strength and amount
where they are known; what is not said is taken at its worst.

  masstone foresee 'sodium nitrite 5 g' 'acetic acid 60 % 10 mL' --room '25 m3'
  masstone foresee 'Cu(NO3)2·3H2O 10 g' --heat '400 °C'
  masstone foresee bleach vinegar
  masstone foresee 'sulfuric acid (dilute)' 'CdS 2 g'

--heat TEMPERATURE   the whole mixture, or one thing: --heat 'product: 60 °C'; may be repeated
--room VOLUME        of the closed room; 30 m3 where it is not given
--extraction         there is extraction; it is said, not reckoned with
--reaction EQUATION  its gases and by-products count too
--product NAME       what is made, which meets the rest and may be heated

Exit code 0 when all could be judged, 1 when a name was not recognised. Nothing found is no all-clear.
`,
  options: {
    heat: { type: 'string', multiple: true },
    room: { type: 'string' },
    extraction: { type: 'boolean', default: false },
    reaction: { type: 'string' },
    product: { type: 'string' },
  },
  run: async ({ values, positionals, journal, json }, streams) => {
    if (positionals.length === 0)
      throw new WrongUse("Name what is mixed or heated: masstone foresee 'sodium nitrite 5 g' 'vinegar 20 mL'.");
    const readings = positionals.map((text) => ({ text, read: readIngredient(text) }));
    const made = typeof values.product === 'string' ? readIngredient(values.product) : undefined;
    const shelf = await shelfOf(
      journal,
      [...readings.map(({ read }) => read), ...(made ? [made] : [])].flatMap((read) =>
        read.ok ? [read.value.name] : [],
      ),
    );
    const unread: string[] = [];
    const ingredients = readings.flatMap(({ text, read }): PotIngredient[] => {
      if (read.ok) return [fromShelf(read.value, shelf)];
      unread.push(`${text}: ${read.fault.message} ${read.fault.cure ?? ''}`.trim());
      return [{ name: text }];
    });
    if (made)
      ingredients.push({
        ...(made.ok ? fromShelf(made.value, shelf) : { name: String(values.product) }),
        made: 'product',
      });
    const heating = ((values.heat as string[] | undefined) ?? []).map(heatingOf);
    const foresight = foresee({
      ingredients,
      heating,
      extraction: values.extraction === true,
      ...(typeof values.room === 'string' && { roomCubicMetres: roomOf(values.room) }),
      ...(typeof values.reaction === 'string' && { reaction: values.reaction }),
    });
    const cautions = [
      ...(foresight.foreseen.length === 0 ? [nothingMatched] : []),
      ...(foresight.unknown.length > 0
        ? [`cannot be called safe: not recognised: ${foresight.unknown.join(', ')}`]
        : []),
      ...unread,
      ...(heating.length === 0 ? [notHeated] : []),
      ...foresight.cautions,
      ...(values.extraction === true ? ['Extraction was stated; the sums do not count on it.'] : []),
      ...standing,
    ];
    if (json) streams.result(`${JSON.stringify({ ...foresight, cautions })}\n`);
    else
      streams.result(
        words({
          ...foresight,
          cautions: cautions.filter((text) => text !== nothingMatched && !text.startsWith('cannot be called safe')),
        }),
      );
    return foresight.unknown.length > 0 ? 1 : 0;
  },
};
