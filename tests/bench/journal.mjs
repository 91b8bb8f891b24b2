// Makes a large journal for measuring, by repeating the demonstration journal's entries under new numbers.
import { cpSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Writes a journal of at least `count` entries (whole rounds of those in `from`, so that no link dangles) to
 * `folder`; tells how many.
 */
export function makeJournal(from, folder, count) {
  mkdirSync(join(folder, 'entries'), { recursive: true });
  for (const name of readdirSync(from))
    if (name !== 'entries' && name !== 'register.txt')
      cpSync(join(from, name), join(folder, name), { recursive: true });
  const files = readdirSync(join(from, 'entries'))
    .filter((name) => name.endsWith('.md'))
    .sort();
  const texts = files.map((name) => readFileSync(join(from, 'entries', name), 'utf8'));
  const numbers = texts.map((text) => Number(/^number:\s*(\d+)/m.exec(text)[1]));
  const block = Math.max(...numbers);
  const all = Math.ceil(count / files.length) * files.length;
  for (let made = 0; made < all; made += 1) {
    const at = made % files.length;
    const shift = Math.floor(made / files.length) * block;
    const renumber = (digits) => (shift === 0 ? digits : String(Number(digits) + shift));
    const text = texts[at]
      .replace(/^number:\s*(\d+)/m, (_, digits) => `number: ${renumber(digits)}`)
      .replace(/^title:\s*(.*)$/m, (_, title) =>
        shift === 0
          ? `title: ${title}`
          : `title: ${title.replace(/["']$/, '')} (run ${shift / block + 1})${/["']$/.exec(title)?.[0] ?? ''}`,
      )
      .replace(/^((?:follows|repeats):\s*\[)([^\]]*)\]/gm, (_, key, list) => `${key}${list.replace(/\d+/g, renumber)}]`)
      .replace(/^---\n[\s\S]*?\n---\n/, (matter) =>
        matter.replace(/(?<![\w./-])(\d+)\/([A-Z]\w*)\b/g, (_, digits, sample) => `${renumber(digits)}/${sample}`),
      )
      .replace(/\]\((\d+)-([^)]*?\.md)/g, (_, digits, rest) => `](${renumber(digits)}-${rest}`);
    const name = files[at].replace(/^(\d+)/, (digits) => renumber(digits));
    writeFileSync(join(folder, 'entries', name), text);
  }
  return all;
}
