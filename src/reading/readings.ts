// Readings of one journal, each made of the last: what an edit has not touched is neither read nor reckoned nor
// rendered again.
import type { SiteContext } from '../../templates/frame.js';
import type { ReadOptions, Remark } from '../journal/index.js';
import { KeptInMemory, madeOf } from '../kept/kept.js';
import { openJournal } from '../open.js';
import { accepted } from '../site/acceptance.js';
import type { Rendered } from '../site/entry-pages.js';
import type { SitePage } from '../site/page-list.js';
import { planAgain, planSite, type SitePlan } from '../site/plan.js';

/** The journal as last read. */
export interface JournalRead {
  /** Missing where the folder holds no usable journal. */
  readonly plan?: SitePlan;
  readonly remarks: readonly Remark[];
  /** Remarks, these or some of them with those of a page, without what the maker has accepted. */
  readonly withoutAccepted: (remarks: readonly Remark[]) => readonly Remark[];
}

export class Readings {
  private readonly memory: NonNullable<ReadOptions['memory']> = new Map();
  private readonly kept = new KeptInMemory();
  private plan: SitePlan | undefined;

  /** @param frame what the pages of the reading copy have besides */
  constructor(
    private readonly folder: string,
    private readonly frame: NonNullable<SiteContext['reading']>,
  ) {}

  async read(): Promise<JournalRead> {
    const { folder, memory, kept, frame } = this;
    kept.turn();
    const opened = await openJournal(folder, { drafts: true, memory, kept });
    const { remarks } = opened;
    // Without a word of settings there is no journal to show yet, only what is wrong.
    const model = opened.model?.journal.settingsText === '' ? undefined : opened.model;
    const options = { reading: frame, kept };
    this.plan = model && ((this.plan && planAgain(model, this.plan, options)) ?? planSite(model, options));
    return {
      ...(this.plan && { plan: this.plan }),
      remarks,
      withoutAccepted: (all) => accepted(all, model, false).remarks,
    };
  }

  /** A page as it was rendered last, where it is made of the same as then. */
  rendered({ address, inputs, render }: SitePage): Rendered {
    return madeOf(this.kept, 'page', [address, ...inputs], render);
  }
}
