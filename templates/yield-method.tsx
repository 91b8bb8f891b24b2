// How amounts and yields are reckoned in the journal: what stands behind ±, and what it leaves out.
import type { Root } from 'hast';
import { page, type SiteContext } from './frame.js';

export const yieldMethodAddress = '/results/how/';

/** What verdicts on yields leave out, in sentences: of single samples, and of repeats. */
export interface LeftOut {
  readonly ofSingles: string;
  readonly ofRepeats: string;
}

/** The page. */
export function yieldMethodPage(site: SiteContext, { ofSingles, ofRepeats }: LeftOut): Root {
  return page(site, {
    title: 'How yields are reckoned',
    description: 'What stands behind ± in the amounts and yields of this journal, and what it leaves out.',
    address: yieldMethodAddress,
    part: '/results/',
    main: [
      <h1>How yields are reckoned</h1>,
      <h2 id="behind">What ± holds</h2>,
      <p>
        Behind ± stands the expanded uncertainty (k = 2, about 95 %) from weighing, stated purity and atomic weights.
        Losses and impurities that nobody stated are not in it. Written digits decide what ± a weighing has, unless the
        balance is coarser; half of the last of them, a stated ± and the ends of a range are read as bounds between
        which every value is as likely (GUM 4.3.7), so that 2 % behind ± of a strength count as 2.3 %. “About” is a
        tenth either way. Of what has no stated purity the entry says that it was reckoned as if pure.
      </p>,
      <h2 id="compared">What verdicts on yields leave out</h2>,
      <p>{`Of samples that were made once each: ${lowered(ofSingles)}`}</p>,
      <p>{`Of repeats: ${lowered(ofRepeats)}`}</p>,
    ] as never,
  });
}

const lowered = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);
