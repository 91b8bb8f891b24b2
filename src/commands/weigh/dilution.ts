// Making up and diluting: stock, water, what is made, and the order in which it is poured.
import { parseQuantity, type Decimal, type Quantity } from '../../chemistry/index.js';
import {
  assumptionsOf,
  dilute,
  doubtSentence,
  readReagentText,
  resolveReagent,
  resolveStrength,
  termsOf,
  type Cupboard,
  type Dilution,
  type ReagentWritten,
  type ResolvedStrength,
  type StrengthGiven,
  type StrengthTerms,
} from '../../reagents/index.js';
import { WrongUse } from '../command.js';
import { about, decimal, refuse, type Answer, type JsonQuantity, type Weighed } from './answer.js';
import { sure } from './options.js';

const strengthWords = ({ massFraction, molarConcentration, massConcentration }: StrengthTerms): string =>
  [
    massFraction && `${massFraction.times(100).toSignificantDigits(4).toFixed()} % by mass`,
    molarConcentration && `${molarConcentration.times(1000).toSignificantDigits(4).toFixed()} mol/L`,
    !massFraction &&
      !molarConcentration &&
      massConcentration &&
      `${massConcentration.times(100).toSignificantDigits(4).toFixed()} % w/v`,
  ]
    .filter(Boolean)
    .join(', ');

const inGramsOrMillilitres = (quantity: Quantity, option: string): { mass?: Decimal; volume?: Decimal } => {
  if (quantity.dimension === 'mass') return { mass: quantity.base };
  if (quantity.dimension === 'volume') return { volume: quantity.base };
  throw new WrongUse(`--${option} takes a mass or a volume, like "100 mL".`);
};

/** The way in which it is poured, where that matters. */
function pouring(order: Dilution['order'], name: string, known: boolean): string | undefined {
  if (order === 'acid-into-water')
    return (
      'Pour the acid into the water, slowly and stirring, never water into the acid: it heats and may spit. ' +
      'Goggles and gloves on.'
    );
  if (order === 'base-into-water')
    return (
      'Add the alkali to the water, slowly and stirring, never water to the alkali: it heats and may spit. ' +
      'Goggles and gloves on.'
    );
  return known
    ? undefined
    : `Nothing here says what ${name} is made of: add it to the water, slowly and stirring, not the other way round, ` +
        'and read its safety data sheet first.';
}

const strengthSaid = ({ strength, density, purity }: ReagentWritten): Partial<StrengthGiven> => ({
  strength,
  density,
  purity,
});

/** What had to be assumed of what is made; the density of something filled up to a mark plays no part. */
const madeAssumptions = (wanted: ResolvedStrength | undefined, make: Quantity | undefined): readonly string[] =>
  !wanted || make?.dimension !== 'volume' || termsOf(wanted).byVolume
    ? []
    : wanted.doubts.map((doubt) => `Of what is made: ${doubtSentence(doubt)}`);

/** Mass and volume of one part of a dilution. */
interface Part {
  readonly mass?: Decimal;
  readonly volume?: Decimal;
}

const jsonPart = ({ mass, volume }: Part): Record<string, JsonQuantity> => ({
  ...(mass && { mass: { value: decimal(mass), unit: 'g' } }),
  ...(volume && { volume: { value: decimal(volume), unit: 'mL' } }),
});

const partWords = ({ mass, volume }: Part): string =>
  [volume && `${volume.toSignificantDigits(4).toFixed()} mL`, mass && `${mass.toSignificantDigits(4).toFixed()} g`]
    .filter(Boolean)
    .join(' or ');

const jsonStrength = ({ massFraction, massConcentration, molarConcentration }: StrengthTerms) => ({
  ...(massFraction && { massPercent: decimal(massFraction.times(100)) }),
  ...(massConcentration && { massVolumePercent: decimal(massConcentration.times(100)) }),
  ...(molarConcentration && { concentration: { value: decimal(molarConcentration.times(1000)), unit: 'mol/L' } }),
});

function answerOf(name: string, made: Dilution, pour: string | undefined, assumed: readonly string[]): Answer {
  const strength = strengthWords(made.strength);
  const water = partWords(made.water);
  return {
    json: {
      stock: { name, ...jsonPart(made.stock) },
      water: jsonPart(made.water),
      makes: { ...jsonPart(made.made), ...jsonStrength(made.strength) },
      order: made.order,
      ...(pour && { caution: pour }),
      ...(assumed.length > 0 && { remarks: assumed }),
    },
    text: `${[
      `${name}: ${partWords(made.stock)} of stock`,
      ...(water === '' ? [] : [`Water: ${water}`]),
      `Makes ${partWords(made.made)}${strength === '' ? '' : ` of ${strength}`}`,
      ...(pour ? ['', pour] : []),
      ...(assumed.length > 0 ? ['', ...assumed] : []),
    ].join('\n')}\n`,
  };
}

/** What is asked of a dilution, as it was written. */
export interface DilutionText {
  readonly stock: string;
  readonly to?: string;
  readonly make?: string;
}

/** Reckons a dilution. */
export async function weighDilution(
  asked: DilutionText,
  cupboardFor: (names: readonly string[]) => Promise<Cupboard>,
): Promise<Weighed<Answer>> {
  const read = readReagentText(asked.stock);
  if (!read.ok) return refuse(read.fault, asked.stock);
  const stock = resolveReagent(read.value, await cupboardFor([read.value.name]));
  const { formula, amount } = stock.portion;
  const to = asked.to === undefined ? undefined : readReagentText(`wanted ${asked.to}`);
  if (to && !to.ok) return refuse(to.fault, asked.to!);
  const make = asked.make === undefined ? undefined : sure(parseQuantity(asked.make), 'make');
  const wanted = to && resolveStrength({ ...strengthSaid(to.value), stuff: 'made', formula, dissolved: true });
  const made = about(
    dilute({
      formula,
      stock: termsOf(stock.strength),
      ...(amount && { have: inGramsOrMillilitres(amount, 'dilute') }),
      ...(wanted && { to: termsOf(wanted) }),
      ...(make && { make: inGramsOrMillilitres(make, 'make') }),
    }),
    asked.stock,
  );
  if (!made.ok) return made;
  const assumed = [...assumptionsOf(stock), ...madeAssumptions(wanted, make), ...made.value.assumed];
  const pour = pouring(made.value.order, stock.name, formula !== undefined);
  return { ok: true, value: answerOf(stock.name, made.value, pour, assumed) };
}
