// Reads drawings as trees: what stands in them, and what no drawing may ever hold.
import type { Element, Nodes } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { visit } from 'unist-util-visit';
import { expect } from 'vitest';

export const elements = (tree: Nodes, wanted: (element: Element) => boolean): Element[] => {
  const found: Element[] = [];
  visit(tree, 'element', (element) => {
    if (wanted(element)) found.push(element);
  });
  return found;
};
export const named = (tree: Nodes, tagName: string): Element[] =>
  elements(tree, (element) => element.tagName === tagName);
export const classed = (tree: Nodes, name: string): Element[] =>
  elements(tree, ({ properties }) => Array.isArray(properties.className) && properties.className.includes(name));
/** The text alternative of a drawing. */
export const alternative = (svg: Element | undefined): string => String(svg?.properties.ariaLabel ?? '');
/** What stands in the tree, drawings' text alternatives before their words. */
export const words = (tree: Nodes): string => {
  let said = '';
  visit(tree, (node) => {
    if (node.type === 'text') said += node.value;
    else if (node.type === 'element' && node.tagName === 'svg') said += alternative(node);
  });
  return said;
};
export const fills = (tree: Nodes): unknown[] => elements(tree, () => true).map(({ properties }) => properties.fill);

/** Tags as written, their quoted values left out: what a browser takes for markup. */
export const markup = (tree: Nodes): string => toHtml(tree).replace(/="[^"]*"/g, '=""');

/**
 * Sound: numbers are numbers, nothing is styled in place, no id twice, and a large drawing's text alternative is
 * there.
 */
export function expectSound(tree: Nodes): void {
  const html = toHtml(tree);
  expect(html).not.toMatch(/="[^"]*(?:NaN|Infinity|undefined|null)/);
  expect(markup(tree)).not.toMatch(/<[^>]*\s(?:style|on[a-z]+)=/);
  const ids = elements(tree, () => true)
    .map(({ properties }) => properties.id)
    .filter((id) => id !== undefined);
  expect(new Set(ids).size).toBe(ids.length);
  for (const svg of named(tree, 'svg')) {
    if (svg.properties.ariaHidden === 'true') continue;
    expect(svg.properties.role).toBe('img');
    const [title] = named(svg, 'title');
    expect(alternative(svg) || (title && words(title))).toBeTruthy();
    if (classed(svg, 'drawing').includes(svg)) expect(alternative(svg)).toMatch(/^[^ ].*\. .+\.$/s);
  }
}

/** Where the painted fields of a group lie: level strokes as broad as the group says. */
export function boxesOf(
  group: Element | undefined,
): { x: number; y: number; width: number; height: number; colour: unknown }[] {
  const height = Number(group?.properties.strokeWidth);
  return (group ? named(group, 'path') : []).map(({ properties }) => {
    const [, x, y, width] = /^M(\S+) (\S+)h(\S+)$/.exec(String(properties.d)) ?? [];
    return { x: Number(x), y: Number(y) - height / 2, width: Number(width), height, colour: properties.stroke };
  });
}

/** Every coordinate of a path, in order: x, y, x, y … (commands M, L, C and, in steps, l, c, s), control points too. */
export function coordinates(path: Element | undefined): number[] {
  const found: number[] = [];
  const each = { M: 2, L: 2, C: 6, l: 2, c: 6, s: 4 } as const;
  for (const [, command, rest] of String(path?.properties.d ?? '').matchAll(/([MLClcsZz])([^A-Za-z]*)/g)) {
    const numbers = (rest!.match(/-?\d*\.?\d+/g) ?? []).map(Number);
    const length = each[command as keyof typeof each] ?? 2;
    for (let at = 0; at < numbers.length; at += length) {
      const from = command === command!.toLowerCase() ? [found.at(-2) ?? 0, found.at(-1) ?? 0] : [0, 0];
      numbers
        .slice(at, at + length)
        .forEach((value, i) => found.push(Math.round((value + from[i % 2]!) * 1000) / 1000));
    }
  }
  return found;
}
