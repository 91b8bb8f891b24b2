// A drawing (SVG) as it is published: only what draws is written anew. Scripts, what loads from elsewhere, events,
// links and what a drawing program noted of its file and its user are left behind.
import type { Element, ElementContent, Properties } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { SaxesParser, type SaxesAttributeNS, type SaxesTagNS } from 'saxes';
import { decodeText } from '../colour/instruments/text.js';
import { bad, good, type Outcome } from '../outcome.js';
import { limits } from './pixels.js';

const svgSpace = 'http://www.w3.org/2000/svg';

/** Elements that draw. Source: SVG 2, W3C Candidate Recommendation, appendix of elements. */
const drawing = new Set(
  (
    'svg g defs symbol use path rect circle ellipse line polyline polygon text tspan textPath title desc switch ' +
    'linearGradient radialGradient stop clipPath mask pattern marker image style filter feBlend feColorMatrix ' +
    'feComponentTransfer feComposite feConvolveMatrix feDiffuseLighting feDisplacementMap feDistantLight ' +
    'feDropShadow feFlood feFuncA feFuncB feFuncG feFuncR feGaussianBlur feMerge feMergeNode feMorphology feOffset ' +
    'fePointLight feSpecularLighting feSpotLight feTile feTurbulence'
  ).split(' '),
);

/** Of a link what it holds is drawn all the same. */
const unwrapped = new Set(['a']);

/** What is left behind, as readers are told; what only describes the file is left behind without a word. */
const told: Readonly<Record<string, string>> = {
  script: 'a script',
  foreignObject: 'HTML within it',
  animate: 'an animation',
  animateMotion: 'an animation',
  animateTransform: 'an animation',
  set: 'an animation',
  a: 'a link',
  iframe: 'another page',
  audio: 'sound',
  video: 'a video',
  feImage: 'a picture from elsewhere',
};

/** A style that loads nothing: every `url()` leads into the drawing, and nothing is written in escapes. */
const loadsNothing = (css: string): boolean =>
  !/\\|@import|expression|behavior|-moz-binding|image-set\s*\(|\bimage\s*\(|\bsrc\s*\(/i.test(css) &&
  [...css.matchAll(/url\s*\(\s*(["']?)\s*([^)]*)/gi)].every(([, , to]) => to!.startsWith('#'));

const dataImage = /^data:image\/(?:png|jpe?g|gif|webp)(?:;charset=[\w-]+)?;base64,([A-Za-z0-9+/=\s]+)$/i;

const isPlainName = /^[a-zA-Z][a-zA-Z0-9-]*$/;
const elsewhere = 'something that loads from elsewhere';

/** Largest drawing that is read, and the deepest. */
const mostBytes = 10 * 1024 * 1024;
const deepest = 200;

/** Thrown while parsing, where the drawing can't be used at all. */
class NoDrawing extends Error {}

class DrawingCollector {
  root: Element | undefined;
  readonly taken = new Set<string>();
  /** Pictures within the drawing, to be made anew. */
  readonly images: Element[] = [];
  private readonly open: (Element | 'left' | 'unwrapped')[] = [];

  private parent(): Element | undefined {
    return this.open.findLast((one): one is Element => typeof one === 'object');
  }

  opened({ local, uri, attributes }: SaxesTagNS): void {
    if (this.open.length >= deepest) throw new NoDrawing('it is nested too deeply');
    if (this.open.length === 0 && (local !== 'svg' || (uri !== svgSpace && uri !== '')))
      throw new NoDrawing('its first element is not svg');
    this.open.push(this.made(local, uri, Object.values(attributes)));
  }

  private made(local: string, uri: string, attributes: readonly SaxesAttributeNS[]): Element | 'left' | 'unwrapped' {
    if (this.open.includes('left')) return 'left';
    const draws = uri === svgSpace || uri === '';
    if (draws && unwrapped.has(local)) {
      this.taken.add(told[local]!);
      return 'unwrapped';
    }
    if (!draws || !drawing.has(local)) {
      const words = told[local] ?? (uri === 'http://www.w3.org/1999/xhtml' ? 'HTML within it' : undefined);
      if (words !== undefined) this.taken.add(words);
      return 'left';
    }
    const properties = this.propertiesOf(attributes);
    if (local === 'image' && properties.href === undefined && properties['xlink:href'] === undefined) return 'left';
    const element: Element = { type: 'element', tagName: local, properties, children: [] };
    if (local === 'image') this.images.push(element);
    if (this.root) this.parent()!.children.push(element);
    else this.root = element;
    return element;
  }

  private propertiesOf(attributes: readonly SaxesAttributeNS[]): Properties {
    const properties: Properties = {};
    for (const attribute of attributes) {
      const name = this.nameOf(attribute);
      if (name !== undefined) properties[name] = attribute.value;
    }
    return properties;
  }

  /** Name under which an attribute is kept; undefined where it is left behind. */
  private nameOf({ prefix, local, value }: SaxesAttributeNS): string | undefined {
    if (local === 'href' && (prefix === '' || prefix === 'xlink')) return this.reference(prefix, value);
    if (prefix === 'xml') return local === 'space' || local === 'lang' ? `xml:${local}` : undefined;
    if (prefix !== '' || local === 'xmlns' || !isPlainName.test(local)) return undefined;
    if (/^on/i.test(local)) {
      this.taken.add('a script');
      return undefined;
    }
    // What programs note beside the drawing; and what XML has no place for in an attribute.
    if (/^data-/i.test(local) || /[<\p{Cc}]/u.test(value.replaceAll(/[\t\n\r]/g, ' '))) return undefined;
    if (!loadsNothing(value)) {
      this.taken.add(elsewhere);
      return undefined;
    }
    return local;
  }

  private reference(prefix: string, value: string): string | undefined {
    const name = prefix === '' ? 'href' : 'xlink:href';
    if (value.startsWith('#') || dataImage.test(value)) return name;
    this.taken.add(/^\s*(?:java|vb)script/i.test(value) ? 'a script' : elsewhere);
    return undefined;
  }

  text(value: string): void {
    const last = this.open.at(-1);
    if (last === undefined || last === 'left' || this.open.includes('left')) return;
    this.parent()?.children.push({ type: 'text', value });
  }

  closed(): void {
    const last = this.open.pop();
    if (typeof last === 'object' && last.tagName === 'style') this.mendStyle(last);
  }

  /** Letters that a style brings along and styles that it imports are left out; a style that loads more goes whole. */
  private mendStyle(style: Element): void {
    const css = style.children.map((child) => (child.type === 'text' ? child.value : '')).join('');
    const own = css.replaceAll(/@font-face\s*\{[^}]*\}/gi, '').replaceAll(/@import[^;]*;/gi, '');
    if (own !== css) this.taken.add(elsewhere);
    // A style is written as it stands: nothing in it may end it.
    const harmless = loadsNothing(own) && !/[<&]/.test(own);
    if (!harmless) this.taken.add(elsewhere);
    style.children = harmless ? [{ type: 'text', value: own }] : [];
  }
}

function collect(text: string): Outcome<DrawingCollector> {
  const parser = new SaxesParser({ xmlns: true, position: true });
  const collector = new DrawingCollector();
  parser.on('error', (error) => {
    throw new NoDrawing(`line ${parser.line}: ${error.message.replace(/^\d+:\d+: |\.$/g, '')}`);
  });
  parser.on('opentag', (tag) => collector.opened(tag));
  parser.on('text', (found) => collector.text(found));
  parser.on('cdata', (found) => collector.text(found));
  parser.on('closetag', () => collector.closed());
  try {
    parser.write(text).close();
  } catch (error) {
    if (error instanceof NoDrawing)
      return bad({
        code: 'unreadable-picture',
        message: `The drawing cannot be read as SVG: ${error.message.slice(0, 120)}.`,
        expected: 'plain SVG',
        cure: 'Save it as plain SVG, without entities, or export it as PNG.',
      });
    throw error;
  }
  return good(collector);
}

/** A picture within a drawing, made anew without its metadata; undefined where it can't be read. */
async function madeAnew(href: string): Promise<string | undefined> {
  const { default: sharp } = await import('sharp');
  try {
    const bytes = Buffer.from(dataImage.exec(href)![1]!, 'base64');
    const png = await sharp(bytes, limits).autoOrient().toColourspace('srgb').png().toBuffer();
    return `data:image/png;base64,${png.toString('base64')}`;
  } catch {
    return undefined;
  }
}

async function mendImages({ images, taken }: DrawingCollector): Promise<void> {
  for (const { properties } of images)
    for (const name of ['href', 'xlink:href']) {
      const href = properties[name];
      if (typeof href !== 'string' || href.startsWith('#')) continue;
      const mended = await madeAnew(href);
      if (mended === undefined) {
        taken.add('a picture that cannot be read');
        delete properties[name];
      } else properties[name] = mended;
    }
}

/** A length in pixels: `96`, `96px`, `25.4mm`. CSS Values and Units: an inch is 96 pixels. */
function pixels(length: string | undefined): number | undefined {
  const [, number, unit] = /^\s*\+?(\d*\.?\d+)\s*(px|mm|cm|in|pt|pc)?\s*$/i.exec(length ?? '') ?? [];
  if (number === undefined) return undefined;
  const perUnit = { px: 1, mm: 96 / 25.4, cm: 96 / 2.54, in: 96, pt: 96 / 72, pc: 16 };
  return Number(number) * perUnit[(unit?.toLowerCase() ?? 'px') as keyof typeof perUnit];
}

const word = (value: Properties[string]): string | undefined => (typeof value === 'string' ? value : undefined);

/** Breadth and height of a drawing in pixels, from its own words or those of its view. */
function sizeOf({ properties }: Element): { readonly width: number; readonly height: number } | undefined {
  const [, , across, down] = (word(properties.viewBox) ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [width, height] = [pixels(word(properties.width)) ?? across, pixels(word(properties.height)) ?? down];
  if (!width || !height || !(width > 0) || !(height > 0)) return undefined;
  return { width: Math.round(width), height: Math.round(height) };
}

export interface HarmlessDrawing {
  readonly svg: string;
  readonly size?: { readonly width: number; readonly height: number };
  /** What was left behind that a reader would have met, in words: `a script`. */
  readonly taken: readonly string[];
}

/**
 * A drawing without anything that runs, loads from elsewhere or tells of its maker.
 * @returns the drawing; or a fault: no SVG, broken XML, entities, too large
 */
export async function harmlessDrawing(bytes: Uint8Array): Promise<Outcome<HarmlessDrawing>> {
  if (bytes.length > mostBytes)
    return bad({
      code: 'unreadable-picture',
      message: `The drawing has ${Math.round(bytes.length / 1024 / 1024)} MB.`,
      expected: `at most ${mostBytes / 1024 / 1024} MB`,
      cure: 'Export it as PNG.',
    });
  const collected = collect(decodeText(bytes));
  if (!collected.ok) return collected;
  const { root, taken } = collected.value;
  await mendImages(collected.value);
  const size = sizeOf(root!);
  root!.properties.xmlns = svgSpace;
  if (JSON.stringify(root).includes('"xlink:href"')) root!.properties['xmlns:xlink'] = 'http://www.w3.org/1999/xlink';
  return good({ svg: asXml(root!), ...(size && { size }), taken: [...taken].sort() });
}

const asXml = (root: ElementContent): string =>
  toHtml(root, {
    space: 'svg',
    closeEmptyElements: true,
    quote: '"',
    characterReferences: { useNamedReferences: false },
  });
