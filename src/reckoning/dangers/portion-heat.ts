// Heat of the finished product where it is looked at: while it dries to be weighed, and when a portion is ignited.
import type { Foreseen, MixtureHeating } from '../../hazards/foresee/contracts.js';
import { foresee } from '../../hazards/foresee/foresee.js';
import type { Path } from '../../journal/place.js';
import type { Sample } from '../../journal/schema.js';
import { memoise } from '../../memoise.js';
import { judgedCelsius, readHeat, resolveNamed } from '../../reagents/index.js';

/** How hot something is that is ignited, where nothing says it: as `ignited` in heat-deeds.csv. */
const ignited = 1000;

/** `not done`, `none` */
const isNotDone = (words: string): boolean => /^\s*(?:no|not|none|never)\b/i.test(words);

/** A heat that is written, with its place below the sample. */
export interface PortionHeat {
  readonly to?: string;
  readonly toCelsius: number;
  readonly path: Path;
}

function ofIgnition({ ignition }: Sample): readonly PortionHeat[] {
  const path: Path = ['ignition'];
  if (ignition === undefined) return [];
  if (typeof ignition === 'object') {
    const { to } = ignition;
    return [to === undefined ? { toCelsius: ignited, path } : { to, toCelsius: judgedCelsius(to), path }];
  }
  if (isNotDone(ignition)) return [];
  const told = readHeat(ignition);
  return [{ toCelsius: told.known === 'not-known' ? ignited : told.high.toNumber(), path }];
}

function ofDrying({ dried = [] }: Sample): readonly PortionHeat[] {
  if (typeof dried === 'string') {
    const told = readHeat(dried);
    return told.known === 'not-known' ? [] : [{ toCelsius: told.high.toNumber(), path: ['dried'] }];
  }
  return dried.flatMap(({ at }, place) =>
    at === undefined ? [] : [{ to: at, toCelsius: judgedCelsius(at), path: ['dried', place] }],
  );
}

/** Each heat that a sample's finished product gets by its `dried:`, its `ignition:` and an assay by ignition. */
export function portionHeats(sample: Sample): readonly PortionHeat[] {
  const { dried, ignition, assay } = sample;
  if (dried === undefined && ignition === undefined && assay === undefined) return [];
  const isAssayed = typeof assay === 'object' && assay.by === 'ignition';
  return [...ofDrying(sample), ...ofIgnition(sample), ...(isAssayed ? [{ toCelsius: ignited, path: ['assay'] }] : [])];
}

/** The same as heatings of the product. */
export const heatsOfPortions = (sample: Sample): readonly MixtureHeating[] =>
  portionHeats(sample).map(({ toCelsius }) => ({ of: 'product', toCelsius }));

/** The gravest danger of a product that somebody would ignite; undefined where no rule of the tables knows one. */
export const dangerIfIgnited: (product: string) => Foreseen | undefined = memoise(
  (product) => product,
  (product) => {
    const heating = [{ of: 'mixture', toCelsius: ignited }];
    const { foreseen } = foresee({ ingredients: [{ reagent: resolveNamed(product, product) }], heating });
    return foreseen.find(({ severity }) => severity === 'danger');
  },
  200,
);
