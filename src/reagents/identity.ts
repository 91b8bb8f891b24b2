// Which substance it is: by formula, CAS number, name, the words of its ions, a household product; and how that is
// known.
import { parseFormula } from '../chemistry/index.js';
import { constituents, type Constituents } from './constituents.js';
import type { NamedStrength, ResolvedSubstance } from './contracts.js';
import { formulaInAnyCase } from './formulae-in-any-case.js';
import { casPattern, formulaOf, substancesNamed, substancesOfCas } from './known-substances.js';
import { isColourIndexName } from '../chemistry/formula/colour-index.js';
import { materialNamed, type Material } from './names.js';
import { inEnglish } from './other-languages.js';
import { strengthNamed } from './sold-as.js';
import { looksIn } from './usual-hydrates.js';

/** What is said of what it is. */
export interface IdentityGiven {
  readonly name: string;
  /** The name without words of state and quantities. */
  readonly plainName?: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
  readonly state?: readonly string[];
}

export interface Identified {
  readonly substance: ResolvedSubstance;
  /** Strength that the name alone tells. */
  readonly named?: NamedStrength;
}

/**
 * `PVC` and `SNOW` can be read as formulae and are none: three or more capitals whose ions make no salt of the trade.
 */
const isAbbreviation = (text: string, { kind, ions }: Constituents): boolean =>
  isColourIndexName(text) ||
  (/^[A-Z]{3,}$/.test(text) &&
    text !== 'COS' &&
    kind !== 'acid' &&
    !(kind !== 'unknown' && ['hydroxide', 'cyanide', 'thiocyanate', 'cyanate'].some((id) => ions.has(id))));

/** A text as a formula with something in it; undefined where it is none or only looks like one. */
function asFormula(text: string | undefined, mayBeAbbreviation: boolean): Constituents | undefined {
  if (text === undefined || text.trim() === '') return undefined;
  const read = constituents(text);
  if (!read.ok || read.value.formula.parts.length === 0) return undefined;
  return mayBeAbbreviation && isAbbreviation(text, read.value) ? undefined : read.value;
}

type TakenAs = ResolvedSubstance['takenAs'];
interface Found {
  readonly formula: string;
  readonly constituents: Constituents;
  readonly takenAs: TakenAs;
}

const found = (formula: string | undefined, takenAs: TakenAs, mayBeAbbreviation = false): Found | undefined => {
  const read = asFormula(formula, mayBeAbbreviation);
  return read && { formula: formula!, constituents: read, takenAs };
};

const materialTakenAs = (material: Material): TakenAs => (material.by === 'ions' ? 'name-of-ions' : 'material');

/** Told to be organic, and no more than that: taken as cellulose. */
const organic = 'C6H10O5';

function look({ name, formula, cas, state }: IdentityGiven, material: Material | undefined): Found | undefined {
  const byMaterial = (): Found | undefined => material && found(material.formula, materialTakenAs(material));
  if (formula !== undefined) {
    // `KCn` and `CUSO4` can be read as formulae, of copernicium and uranium; nobody means those.
    const meant = formula === name ? formulaInAnyCase(name) : undefined;
    return found(meant, 'material') ?? found(formula, 'formula', formula === name) ?? byMaterial() ?? byState(state);
  }
  return (
    (cas === undefined ? undefined : found(formulaOf(substancesOfCas(cas)), 'cas')) ??
    byMaterial() ??
    found(strengthNamed([name])?.named.formula, 'material') ??
    (casPattern.test(name) ? found(formulaOf(substancesOfCas(name)), 'cas') : undefined) ??
    found(formulaOf(substancesNamed(name).substances), 'known-name') ??
    found(name, 'name-is-formula', true) ??
    byState(state)
  );
}

const byState = (state: readonly string[] | undefined): Found | undefined =>
  state?.includes('organic') ? found(organic, 'organic') : undefined;

const identified = new Map<string, Identified | undefined>();
const mostKept = 5000;

/**
 * Which substance it is; undefined where nothing tells. A formula goes before a CAS number, that before a name;
 * a name is looked up as a material of the trade, put together from its ions, then among published names, and read as a
 * formula at last. Told once for each.
 * @example identify({ name: 'potassium sulfite' })?.substance.formula // 'K2SO3'
 */
export function identify(given: IdentityGiven): Identified | undefined {
  const key = JSON.stringify([
    given.name,
    given.plainName,
    given.formula,
    given.cas,
    given.alsoCalled,
    given.state?.includes('organic') ?? false,
    looksOfState(given),
  ]);
  if (!identified.has(key)) {
    if (identified.size >= mostKept) identified.clear();
    identified.set(key, tell(given));
  }
  return identified.get(key);
}

/** Words of state that tell of looks. */
const looksOfState = ({ state = [] }: IdentityGiven): readonly string[] =>
  state.length === 0 ? [] : (looksIn(state.join(' ').toLowerCase())?.looks ?? []);

/** The name with the looks that stand beside it, where no formula says what it is. */
function nameWithLooks(given: IdentityGiven): string | undefined {
  const looks = given.formula === undefined ? looksOfState(given) : [];
  return looks.length === 0 ? undefined : `${looks.join(' ')} ${given.plainName ?? given.name}`;
}

function tell(given: IdentityGiven): Identified | undefined {
  const looking = nameWithLooks(given);
  const own = [
    ...(looking === undefined ? [] : [looking]),
    given.name,
    ...(given.plainName === undefined ? [] : [given.plainName]),
  ];
  const names = [...own, ...(given.alsoCalled ?? [])];
  const material = names.map((name) => materialNamed(name)).find((one) => one !== undefined);
  const what = look(given, material) ?? lookFurther(given);
  if (!what) return undefined;
  const parsed = what.constituents.formula;
  const groups = what.takenAs === 'organic' ? ['organic_combustible'] : (material?.groups ?? []);
  // `Ammoniak` is sold as strong as what it is called in English, and not only as what that is mostly taken for.
  const called = [...own, ...own.flatMap((name) => inEnglish(name) ?? [])];
  const sold = strengthNamed(material ? [...called, material.name] : called);
  const same = sold !== undefined && sameSubstance(sold.named.formula, what.constituents);
  return {
    substance: {
      formula: what.formula,
      parsed,
      constituents: what.constituents,
      takenAs: what.takenAs,
      roughly:
        what.takenAs === 'organic' || (what.takenAs === 'material' && (groups.length > 0 || material?.varies === true)),
      groups,
      ...(material?.note && { note: material.note }),
      alternatives: same ? sold.alternatives : [],
    },
    ...(same && { named: sold.named }),
  };
}

/** By its name without words of state, or by another name that the shelf gives it. */
const lookFurther = ({ plainName, alsoCalled = [], formula, state }: IdentityGiven): Found | undefined => {
  if (formula !== undefined) return undefined;
  for (const name of plainName === undefined ? alsoCalled : [plainName, ...alsoCalled]) {
    const known = look({ name, ...(state && { state }) }, materialNamed(name));
    if (known) return known;
  }
  return undefined;
};

function sameSubstance(formula: string, { dry }: Constituents): boolean {
  const read = constituents(formula);
  return read.ok && read.value.dry === dry;
}

/** Small letters only, three and more to a word: no formula is written so. */
const surelyWords = /^[a-z]{3,}(?: [a-z]{3,})*$/;

/** Whether a text is a formula, and not a name of the Colour Index. */
export const isFormula = (text: string): boolean =>
  !surelyWords.test(text) && !isColourIndexName(text) && parseFormula(text).ok;
