// A reagent as it stands in a hazard box: itself at its strength, or all that its name is sold as, with its maker's
// sheet.
import { forMachines } from '../chemistry/index.js';
import {
  contentsOf,
  nameOfContent,
  namesInWords,
  saysDry,
  strengthAssumptionsOf,
  substancesNamed,
  usualHydrate,
  type ReagentContent,
  type ResolvedReagent,
} from '../reagents/index.js';
import { hazardBox, type HazardBox, type SubstanceInUse } from './ghs/index.js';

/** The strongest that it can be, percent by mass; undefined where no strength is told, which counts as undiluted. */
function percentOf({ strength: { basis, atMost } }: ResolvedReagent): string | undefined {
  if (basis === 'undiluted' || basis === 'not-given') return undefined;
  // Of an unknown solute, grams in a mL count as grams in a gram: hardly a solution is lighter than water.
  const share = atMost.massFraction ?? atMost.massConcentration;
  return share && (share.gt(1) ? '100' : forMachines(share.times(100)));
}

const behindName = /\s*(?:\([^()]*\)|,.*$)/g;
const holdsMore = /(?<![a-z])(?:with|contain|holds?|mixed|toned|mit|avec|con)/i;

/** `green earth (Verona)`, `quartz flour, 400 mesh`: the name before it, where what is behind names nothing else. */
function shorterName(name: string): string | undefined {
  const behind = name.match(behindName)?.join(' ');
  if (behind === undefined || holdsMore.test(behind) || namesInWords(behind).length > 0) return undefined;
  const shorter = name.replace(behindName, '').trim();
  return shorter === '' ? undefined : shorter;
}

/** An earth, a glass, an ash: it is known under its name, and no formula says all that it is. */
function isKnownByNameAlone(names: readonly string[]): boolean {
  const { substances, exactly } = names.map(substancesNamed).find((one) => one.substances.length > 0) ?? {};
  return exactly === true && substances!.every(({ formulae, group }) => formulae.length === 0 && !group);
}

/** A resolved reagent as something in a hazard box. */
export function substanceOf(reagent: ResolvedReagent, role?: string): SubstanceInUse {
  const { name, written, substance, sheet } = reagent;
  // What was hoped for is not what was made.
  const shorter = role === 'product' ? undefined : shorterName(name);
  const alsoCalled = [...(written.alsoCalled ?? []), ...(shorter === undefined ? [] : [shorter])];
  const isLikeIt = substance?.takenAs !== 'formula' && isKnownByNameAlone([name, ...alsoCalled]);
  const formula = written.formula ?? (substance && !substance.roughly && !isLikeIt ? substance.formula : undefined);
  const percent = percentOf(reagent);
  // A strength told by a density is a range: beside `a 25 % solution` the box would show 25.5 % without a word.
  const isRange = reagent.strength.basis === 'density';
  const assumed =
    percent === undefined ? [] : [...strengthAssumptionsOf(reagent), ...(isRange ? ['Judged at its strongest.'] : [])];
  return {
    name,
    ...(alsoCalled.length > 0 && { alsoCalled }),
    ...(formula && { formula }),
    ...(written.cas && { cas: written.cas }),
    ...(role && { role }),
    ...(percent !== undefined && { percent }),
    ...(assumed.length > 0 && { assumed }),
    ...(sheet && { sheet }),
    ...(sheet?.isForStrength !== undefined && { sheetIsFor: sheet.isForStrength }),
  };
}

/** What a name surely means; undefined where other things are sold under it too. */
export const surelyMeant = ({ substance }: ResolvedReagent): string | undefined =>
  substance && !substance.roughly ? substance.constituents.dry : undefined;

/** Everything that a name is sold as or holds, each content once; nothing where the name is plain or has a sheet. */
export function contentsSold(reagent: ResolvedReagent): readonly ReagentContent[] {
  if (reagent.sheet) return [];
  const contents = contentsOf(reagent).contents.filter(({ variant }) => variant !== 'water');
  if (contents.length === 0) return contents;
  return [...new Map(contents.map((content) => [nameOfContent(content), content])).values()];
}

/** A content of a product, as something in a hazard box. */
function contentInUse(product: string, content: ReagentContent, role?: string): SubstanceInUse {
  const { name, substance } = content.reagent;
  const own = substanceOf(content.reagent, role);
  return {
    ...own,
    name: `${product} as ${nameOfContent(content)}`,
    alsoCalled: [name, ...(own.alsoCalled ?? [])],
    ...(substance && !isKnownByNameAlone([name]) && { formula: substance.formula }),
  };
}

const severalWords = (contents: readonly ReagentContent[]): string => {
  const [first = '', ...others] = contents.map(nameOfContent);
  const also = others.length > 0 ? `, may also be ${others.join(', ')}; shown with the hazards of all of them` : '';
  return `Taken as ${first}${also}. Its label says which it is.`;
};

/** A salt that only its name tells may be the hydrate that is mostly sold: the statements of that are shown too. */
function withHydrate(reagent: ResolvedReagent, one: SubstanceInUse): readonly SubstanceInUse[] {
  const { written, name, substance, sheet } = reagent;
  const isWritten = written.formula !== undefined || written.cas !== undefined || sheet !== undefined;
  if (isWritten || one.percent !== undefined || one.formula === undefined || saysDry(written.name ?? name))
    return [one];
  const hydrate = substance && usualHydrate(substance.formula);
  if (hydrate === undefined) return [one];
  const sold = { ...one, name: `${name} as ${hydrate}`, formula: hydrate };
  const [own = [], further = []] = hazardBox([one, sold]).substances?.map(({ codes }) => codes) ?? [];
  return further.every((code) => own.includes(code)) ? [one] : [one, sold];
}

/** A reagent as it stands in a box: itself, or all that its name may mean. */
export function inUse(
  reagent: ResolvedReagent,
  role?: string,
  sold = contentsSold(reagent),
): readonly SubstanceInUse[] {
  if (sold.length === 0) return withHydrate(reagent, substanceOf(reagent, role));
  const own = surelyMeant(reagent);
  const contents = sold.filter(({ reagent: { substance } }) => substance?.constituents.dry !== own);
  if (contents.length === 0) return [substanceOf(reagent, role)];
  const substances = contents.map((content) => contentInUse(reagent.name, content, role));
  if (own !== undefined) return [substanceOf(reagent, role), ...substances];
  return substances.map((one, at) =>
    at > 0 ? one : { ...one, assumed: [severalWords(contents), ...(one.assumed ?? [])] },
  );
}

/** The box of a reagent as it stands on the shelf. */
export const reckonReagentBox = (reagent: ResolvedReagent): HazardBox => hazardBox(inUse(reagent));

/** The box of several reagents at once. */
export const boxOfReagents = (reagents: readonly ResolvedReagent[]): HazardBox =>
  hazardBox(reagents.map((reagent) => substanceOf(reagent)));
