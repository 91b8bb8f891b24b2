// Pages as they are laid out, nothing rendered yet, each with everything that it is made of.
import type { ElementContent, Root } from 'hast';
import type { SiteContext } from '../../templates/frame.js';
import type { Page } from '../journal/entry.js';
import { lookedUp } from '../looked-up.js';
import { once } from '../once.js';
import {
  addressesNamed,
  addressIn,
  formulaElement,
  picturesIn,
  renderedPage,
  type Addresses,
  type Rendered,
} from './entry-pages.js';
import { noBody, renderBody, type BodyContext, type RenderedBody } from './markdown.js';

/**
 * A page, and everything that it is made of. What `render` makes depends on `inputs` and on nothing else, so that a
 * page is made anew only when one of them is another than it was.
 */
export interface SitePage {
  /** `/14/`, `/404.html` */
  readonly address: string;
  /** Plain data; `identityOf` tells whether they are the same as before. */
  readonly inputs: readonly unknown[];
  readonly render: () => Rendered;
}

const withInputs = lookedUp<() => SitePage['inputs'], Pick<SitePage, 'inputs'>>({ inputs: (gather) => gather() });

/** Words that a maker wrote for a page that is not an entry's, and where their links lead. */
interface Words {
  readonly page: Page;
  readonly addresses: Addresses;
}

/** Lays out pages: the template of each is given the site, the inputs that are declared, and nothing else. */
export class PageList {
  readonly pages = new Map<string, SitePage>();
  readonly bodies: (() => RenderedBody)[] = [];

  constructor(
    private readonly context: SiteContext,
    private readonly addresses: Addresses,
  ) {}

  /** @example list.add('/ideas/', [model.ideas], ideasPage) */
  add<const Inputs extends readonly unknown[]>(
    address: string,
    inputs: Inputs,
    template: (site: SiteContext, ...inputs: Inputs) => Root,
  ): void {
    this.addLater(address, () => inputs, template);
  }

  /**
   * A page whose inputs are put together when it is asked for: those of long lists would take the longest otherwise.
   */
  addLater<const Inputs extends readonly unknown[]>(
    address: string,
    gather: () => Inputs,
    template: (site: SiteContext, ...inputs: Inputs) => Root,
  ): void {
    const { context } = this;
    const inputs = once(gather);
    const render = (): Rendered => renderedPage(template(context, ...inputs()));
    this.take(address, () => [context, ...inputs()], render);
  }

  /** A page that shows words of the maker's too. */
  addWithWords<const Inputs extends readonly unknown[]>(
    address: string,
    page: Page | undefined,
    gather: () => Inputs,
    template: (site: SiteContext, body: ElementContent[], ...inputs: Inputs) => Root,
  ): void {
    const { context } = this;
    const inputs = once(gather);
    const words = page && { page, addresses: addressesNamed(page, this.addresses) };
    const body = (): RenderedBody => (words ? bodyOf(words, context) : noBody);
    if (words) this.bodies.push(body);
    const render = (): Rendered => {
      const own = body();
      return renderedPage(template(context, own.children, ...inputs()), own);
    };
    this.take(address, () => [context, words ?? null, ...inputs()], render);
  }

  /** @param gather puts its inputs together each time they are asked for */
  take(address: string, gather: () => SitePage['inputs'], render: () => Rendered): void {
    this.pages.set(address, withInputs({ address, render }, gather));
  }
}

const bodyOf = ({ page, addresses }: Words, context: SiteContext): RenderedBody =>
  renderBody(page.body, plainContext({ page, addresses }, context));

/** Pages without an entry behind them can set formulae, but have no samples and no values. */
function plainContext({ page, addresses }: Words, context: SiteContext): BodyContext {
  return {
    file: page.file,
    bodyLine: page.bodyLine,
    addressOf: addressIn(context, addresses),
    picture: picturesIn(context),
    chem: formulaElement,
    value: () => undefined,
    valueNames: () => [],
    swatch: () => undefined,
  };
}
