// The shape of what can be foreseen when things are mixed or heated; what is foreseen is plain data, decimals as text.
import { contentShown, type ResolvedReagent } from '../../reagents/index.js';

/** danger stops publication until it is answered; warning and note are told. */
export type ForeseenSeverity = 'danger' | 'warning' | 'note';

const gravity: Readonly<Record<ForeseenSeverity, number>> = { danger: 0, warning: 1, note: 2 };
/** Order of severities, the gravest first. */
export const compareSeverity = (a: ForeseenSeverity, b: ForeseenSeverity): number => gravity[a] - gravity[b];

/** One thing that goes into a mixture. What is not known of it is taken at its worst. */
export interface MixedReagent {
  readonly reagent: ResolvedReagent;
  /**
   * It is not weighed in: the reaction makes it, it is left over in a lot that is, or the others make it `on-the-way`.
   */
  readonly made?: 'product' | 'by-product' | 'carried' | 'on-the-way';
}

export interface MixtureHeating {
  /** `mixture`, `product`, or the name of an ingredient */
  readonly of: string;
  readonly toCelsius: number;
}

/** What meets, and what becomes of it. */
export interface Mixture {
  readonly ingredients: readonly MixedReagent[];
  readonly heating?: readonly MixtureHeating[];
  /** Volume of the closed room, m3; 30 m3 where it is not stated. */
  readonly roomCubicMetres?: string;
  /** Nobody said where these stand: judged as under a roof all the same, unless words say outdoors, or tell a fire. */
  readonly placeUntold?: boolean;
  readonly extraction?: boolean;
  /** The reaction as written; its gases and by-products count too. */
  readonly reaction?: string;
}

export interface LimitReached {
  /** Formula of the gas that it is of. */
  readonly gas: string;
  /** `NIOSH REL ceiling, chlorine` */
  readonly name: string;
  /** Level immediately dangerous to life or health. */
  readonly immediatelyDangerous?: true;
  /** For a short stay or any moment, not for a working day. */
  readonly shortTerm?: true;
  readonly ppm: string;
  /** How many times the limit the bound is. */
  readonly times: string;
  readonly source: string;
}

/** Gas at worst: all of the limiting partner reacts, all of the gas leaves at once, into a closed room. */
export interface WorstCase {
  readonly mol: string;
  /** At 25 °C and 101.325 kPa. */
  readonly litres: string;
  /** Never more than 1,000,000: then there is nothing but the gas. */
  readonly roomPpm: string;
  readonly limits: readonly LimitReached[];
  /** The room reckoned with, m3. */
  readonly room: string;
  readonly roomStated: boolean;
  /** Name of what limits, as far as amounts were given. */
  readonly limiting: string;
  /** Two significant figures and the usual hedges, as sentences. */
  readonly words: string;
}

/** What a gas is like. */
export interface GasFacts {
  readonly formula: string;
  readonly name: string;
  readonly smell: string;
  /** Whether smell warns in time; never a control. */
  readonly smellWarns: string;
  /** Harm may come hours later. */
  readonly late: string;
  readonly source: string;
}

export interface Foreseen {
  /** Short stable name of the rule, kebab-case: `nitrite-weak-acid`. */
  readonly rule: string;
  /** Row of the published pair list, where the rule comes from one: `P02`. */
  readonly pair?: string;
  readonly severity: ForeseenSeverity;
  /** `nitrite with weak acid` */
  readonly title: string;
  /** `toxic gas`, `fire; explosion` … */
  readonly consequence: string;
  /** Names of the ingredients that take part. */
  readonly partners: readonly string[];
  /** Formulae of the gases, as shown: `NO + NO2`. */
  readonly gas?: string;
  readonly gases?: readonly GasFacts[];
  readonly equation?: string;
  readonly worstCase?: WorstCase;
  /** When it happens, and what was assumed. */
  readonly condition: string;
  readonly precaution: string;
  readonly source: string;
  readonly sourceUrl?: string;
  /** `seen`: a copy of the source was read; `memory`: not seen; `practice`: common practice, no source */
  readonly basis: string;
  /** Words any of which, in `against:`, names this hazard. */
  readonly answers: readonly string[];
}

/** Everything that a name was taken as, the content that threatens most first. */
export interface ContentsTaken {
  readonly name: string;
  readonly contents: readonly string[];
}

export interface Foresight {
  readonly foreseen: readonly Foreseen[];
  /** Names that were not recognised; with any of these the pot cannot be called safe. */
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
  /** Names that may mean several things, or hold them: each was judged. */
  readonly taken: readonly ContentsTaken[];
}

/**
 * What a name was taken as, in a sentence.
 * @example takenSentence({ name: 'lye', contents: ['NaOH'] }) // 'lye: taken as caustic soda (NaOH).'
 */
export const takenSentence = ({ name, contents }: ContentsTaken): string => {
  const all = contents.length > 1 ? '; each of these was judged' : '';
  return `${name}: taken as ${contents.map(contentShown).join(', ')}${all}.`;
};
