// Reads drawings as trees: what stands in them, and what no drawing may ever hold.
import type { Element, Nodes } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { visit } from 'unist-util-visit';
import { expect } from 'vitest';

export const elements = (tree: Nodes, wanted: (element: Element) => boolean): Element[] => {
  const found: Element[] = [];
  visit(tree, 'element', (element) => { if (wanted(element)) found.push(element); });
  return found;
};
export const named = (tree: Nodes, tagName: string): Element[] => elements(tree, (element) => element.tagName === tagName);
export const classed = (tree: Nodes, name: string): Element[] => elements(tree, ({ properties }) => Array.isArray(properties.className) && properties.className.includes(name));
export const words = (tree: Nodes): string => {
  let said = '';
  visit(tree, 'text', ({ value }) => { said += value; });
  return said;
};
export const fills = (tree: Nodes): unknown[] => elements(tree, () => true).map(({ properties }) => properties.fill);

/** Sound: numbers are numbers, nothing is styled in place, no id twice, and a large drawing's text alternative is there. */
export function expectSound(tree: Nodes): void {
  const html = toHtml(tree);
  expect(html).not.toMatch(/="[^"]*(?:NaN|Infinity|undefined|null)/);
  expect(html).not.toMatch(/<[^>]*\s(?:style|on[a-z]+)=/);
  const ids = elements(tree, () => true).map(({ properties }) => properties.id).filter((id) => id !== undefined);
  expect(new Set(ids).size).toBe(ids.length);
  for (const svg of named(tree, 'svg')) {
    if (svg.properties.ariaHidden === 'true') continue;
    expect(svg.properties.role).toBe('img');
    const [title] = named(svg, 'title');
    expect(title && words(title)).toBeTruthy();
    const labels = svg.properties.ariaLabelledBy;
    if (!Array.isArray(labels)) continue;
    expect(labels.length).toBe(2);
    for (const label of labels) expect(elements(svg, ({ properties }) => properties.id === label).map(words).join('')).not.toBe('');
  }
}

/** Every coordinate of a path, in order: x, y, x, y … (commands M, L, C and l). */
export function coordinates(path: Element | undefined): number[] {
  const found: number[] = [];
  let command = 'M';
  for (const token of String(path?.properties.d ?? '').match(/[MLClZ]|-?\d*\.?\d+/g) ?? []) {
    if (/[A-Za-z]/.test(token)) command = token;
    else found.push(Number(token) + (command === 'l' ? found[found.length - 2] ?? 0 : 0));
  }
  return found;
}
