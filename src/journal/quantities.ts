// Checks amounts that stand in a journal: each key wants one kind of quantity, with its unit.
import { parseQuantity, type Dimension } from '../chemistry/quantity/index.js';
import type { Wrong } from './values.js';

export type QuantityKind =
  | 'mass'
  | 'volume'
  | 'amount'
  | 'temperature'
  | 'time'
  | 'density'
  | 'strength'
  | 'purity'
  | 'percent'
  | 'price'
  | 'oil-absorption';

/** What a kind may be, how a sentence names it, and what one looks like. */
const kinds: Readonly<
  Record<
    QuantityKind,
    {
      readonly dimensions: readonly Dimension[];
      readonly name: string;
      readonly unit: string;
      readonly example: string;
    }
  >
> = {
  mass: { dimensions: ['mass'], name: 'a mass', unit: 'g', example: '1.98 g' },
  volume: { dimensions: ['volume'], name: 'a volume', unit: 'mL', example: '25 mL' },
  amount: {
    dimensions: ['mass', 'volume', 'amount', 'drops', 'excess'],
    name: 'a mass, a volume, an amount of substance, a number of drops or `excess`',
    unit: 'g',
    example: '5.00 g',
  },
  temperature: { dimensions: ['temperature'], name: 'a temperature', unit: '°C', example: '60 °C' },
  time: { dimensions: ['time'], name: 'a time', unit: 'h', example: '3 h' },
  density: { dimensions: ['density'], name: 'a density', unit: 'g/mL', example: '1.18 g/mL' },
  strength: {
    dimensions: [
      'mass-percent',
      'mass-volume-percent',
      'concentration',
      'density',
      'volume-percent',
      'oxygen-volumes',
      'degrees-baume',
      'degrees-twaddell',
    ],
    name: 'a strength',
    unit: '%',
    example: '60 %, 10 % w/v or 2.0 mol/L',
  },
  purity: { dimensions: ['mass-percent'], name: 'a purity', unit: '%', example: '98 %' },
  percent: { dimensions: ['mass-percent'], name: 'a percentage', unit: '%', example: '0.4 %' },
  price: { dimensions: ['money-per-amount'], name: 'a price', unit: 'EUR / 500 g', example: '4.20 EUR / 500 g' },
  'oil-absorption': {
    dimensions: ['ratio'],
    name: 'a mass of oil for a mass of pigment',
    unit: 'g/100 g',
    example: '22 g/100 g',
  },
};

const names: Readonly<Record<Dimension, string>> = {
  mass: 'a mass',
  volume: 'a volume',
  amount: 'an amount of substance',
  concentration: 'a concentration',
  'mass-percent': 'a percentage',
  'mass-volume-percent': 'a strength by mass and volume',
  'volume-percent': 'a percentage by volume',
  'oxygen-volumes': 'a strength in volumes of oxygen',
  'degrees-baume': 'a density in degrees Baumé',
  'degrees-twaddell': 'a density in degrees Twaddell',
  density: 'a density',
  temperature: 'a temperature',
  time: 'a time',
  length: 'a length',
  drops: 'a number of drops',
  ratio: 'a mass for a mass',
  excess: '`excess`',
  'money-per-amount': 'a price',
};

/** The same amounts stand in many entries; what was said of each is kept. */
const said = new Map<string, Wrong | undefined>();
const kept = 4096;

/**
 * What is wrong with an amount for a key of this kind, if anything.
 * @example quantityFault('1.98', 'mass')?.cure // 'Write the unit: 1.98 g'
 */
export function quantityFault(text: string, kind: QuantityKind): Wrong | undefined {
  const key = `${kind} ${text}`;
  if (said.has(key)) return said.get(key);
  const wrong = examine(text, kind);
  if (said.size >= kept) said.clear();
  if (key.length < 80) said.set(key, wrong);
  return wrong;
}

function examine(text: string, kind: QuantityKind): Wrong | undefined {
  const { dimensions, name, unit, example } = kinds[kind];
  // A price may leave its currency to journal.yaml.
  const written = kind === 'price' ? text.replace(/^\s*(\d+(?:\.\d+)?)\s*(?=\/|per\b)/, '$1 EUR ') : text;
  const shown = text.length > 60 ? `${text.slice(0, 59)}…` : text;
  const parsed = parseQuantity(written);
  if (!parsed.ok) {
    const { fault } = parsed;
    if (fault.code === 'unit-missing')
      return {
        rule: 'unit',
        found: `is '${shown}', which has no unit`,
        expected: [name],
        cure: `Write the unit: ${shown} ${unit}`,
      };
    const ownCure =
      ['comma', 'range', 'tolerance', 'price'].includes(fault.code) || /if that is meant/.test(fault.cure ?? '')
        ? fault.cure
        : undefined;
    return {
      rule: fault.code === 'unit' ? 'unit' : 'quantity',
      found: `is '${shown}', which can’t be read as ${name}: ${fault.message.replace(/\.$/, '')}`,
      expected: [fault.expected ?? name],
      cure: ownCure ?? `Write it like ${example}.`,
    };
  }
  if (!dimensions.includes(parsed.value.dimension)) {
    return {
      rule: 'dimension',
      found: `is '${shown}', ${names[parsed.value.dimension]}, where ${name} should stand`,
      expected: [name],
      cure: `Write ${name}, like ${example}.`,
    };
  }
  return undefined;
}
