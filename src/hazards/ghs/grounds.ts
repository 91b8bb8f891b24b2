// The words for why a class or statement stands; everything else decides on the data.
import type { Ground, LimitShare, MixtureClassification } from './contracts.js';

const shareText = ({ name, percent, specific, limit }: LimitShare): string =>
  `${name} ${percent} %, ${specific ? 'specific' : 'generic'} limit ${limit} %`;

/** @example groundText({ rule: 'aquatic-sum', weightedPercent: '30' }) // 'weighted sum 30 %, limit 25 %' */
export function groundText(ground: Ground): string {
  switch (ground.rule) {
    case 'own-classification':
      return 'classification of the substance';
    case 'limit-at-full-strength':
      return `specific concentration limit of ${ground.limit} %`;
    case 'concentration-limits':
      return ground.shares.map(shareText).join('; ');
    case 'acute-toxicity-estimate': {
      const unknown = ground.partUnknown ? ', with a part of unknown toxicity' : '';
      return `acute toxicity estimate of the mixture ${ground.estimate} ${ground.unit}${unknown}`;
    }
    case 'aquatic-sum':
      return `weighted sum ${ground.weightedPercent} %, limit 25 %`;
    case 'kept-without-limit':
      return 'kept: no limit known';
    case 'own-statement':
      return 'statement of the substance';
    case 'statement-of-ingredient':
      return 'statement of the ingredient';
    case 'sensitiser-below-limit':
      return 'a tenth of the limit of a sensitiser (from memory)';
  }
}

const restsOnLimit = ({ rule }: Ground): boolean => rule !== 'own-classification' && rule !== 'own-statement';

/**
 * Why a mixture has a statement, in words; undefined where it does not have it, or only has it as the substance does.
 */
export function reasonFor(code: string, result: MixtureClassification, from?: string): string | undefined {
  const held = result.classes.find((one) => one.code === code && (from === undefined || one.from.includes(from)));
  const extra = result.supplementary.find((one) => one.code === code && (from === undefined || one.from === from));
  const grounds = held?.grounds ?? (extra ? [extra.ground] : []);
  return grounds.some(restsOnLimit) ? grounds.map(groundText).join('; ') : undefined;
}
