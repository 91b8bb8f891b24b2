// Rules on links and images of write-ups, and on the names of pages that become addresses.
import { exampleEntryText } from '../example.js';
import type { Example } from '../rule.js';
import { rule } from '../rule.js';

/** A link as it was written, shortened. */
export interface LinkFacts {
  readonly what: 'link' | 'image';
  readonly written: string;
}

const body = (words: string): string => `samples: [{ sample: A }]\n---\n${words}`;
/** A page with a link to an entry that is still running. */
const toRunning = (finished: boolean): Example => ({
  matter: '---\nAs in [the other](002-second.md).',
  files: { 'entries/002-second.md': exampleEntryText('number: 2\ntitle: Another\nstatus: running') },
  finished,
});
const page = (file: string): Example => ({ matter: '', files: { [file]: 'Words.\n' } });

export const linkRules = {
  'link-scheme': rule<{ scheme: string }>({
    when: 'A link begins with something other than https, http or mailto.',
    severity: 'warning',
    found: ({ scheme }) => `A link begins with ${scheme}: and is left out of the page.`,
    advice: 'Link to an https address, or to a file of the journal.',
    fires: body('See [my notes](file:///home/me/notes.txt).'),
    silent: body('See [my notes](https://example.org/notes).'),
  }),
  'image-elsewhere': rule({
    when: 'An image is on another server.',
    severity: 'warning',
    found: () => 'An image is on another server, and is not shown.',
    advice: 'Put the image into the journal’s folder, under photos/.',
    fires: body('![Two dishes](https://example.org/two.jpg)'),
    silent: { matter: body('![Two dishes](../photos/two.jpg)'), files: { 'photos/two.jpg': '' } },
  }),
  'address-signs': rule<LinkFacts>({
    when: 'The name of a file holds a space, `#`, `?` or `%`, which have a meaning of their own in an address.',
    severity: 'error',
    found: ({ what, written }) =>
      `The ${what} ${written} does not lead to the file of that name: spaces, #, ? and % have a meaning of their own.`,
    advice: 'Write %20 for a space, %23 for #, %3F for ? and %25 for %; or rename the file.',
    fires: { matter: body('![Two dishes](../photos/two dishes.jpg)'), files: { 'photos/two dishes.jpg': '' } },
    silent: { matter: body('![Two dishes](../photos/two%20dishes.jpg)'), files: { 'photos/two dishes.jpg': '' } },
  }),
  'empty-link': rule<{ what: 'link' | 'image' }>({
    when: 'A link or an image has no address.',
    severity: 'warning',
    found: ({ what }) => `The ${what} has no address, and leads nowhere.`,
    advice: 'Write the file between the round brackets, or take the brackets away.',
    fires: body('As in [the first]().'),
    silent: body('As in [the first](001-example.md).'),
  }),
  'link-as-words': rule<{ written: string; file?: string }>({
    when: 'What looks like a link names a title in place of a file, so that it is printed as it stands.',
    severity: 'warning',
    found: ({ written }) => `What names '${written}' is no link, and is printed with its brackets.`,
    advice: 'Write the name of the file: [words](009-name.md).',
    cure: ({ file }) => (file === undefined ? undefined : `Write [words](${file}).`),
    fires: body('As in [the first](What example).'),
    silent: body('As in [the first](001-example.md).'),
  }),
  'link-from-root': rule<LinkFacts>({
    when: 'A link begins at the root of the site.',
    severity: 'warning',
    found: ({ what, written }) =>
      `The ${what} ${written} begins at the root of the site, which moves when the site’s address does.`,
    advice: 'Write a relative link to the file: ../entries/009-name.md.',
    fires: body('As in [entry 1](/1/).'),
    silent: body('As in [entry 1](001-example.md).'),
  }),
  'link-to-draft': rule<{ of: 'link' | 'follows' | 'repeats'; entry: number; status: string }>({
    when: 'A link, `follows` or `repeats` leads to an entry that is left out.',
    severity: 'warning',
    found: ({ of, entry, status }) =>
      `${of === 'link' ? 'The link leads to' : `\`${of}\` names`} entry ${entry}, which is ${status} and is left out.`,
    advice: 'Publish with --drafts, or finish that entry.',
    cure: ({ of }) =>
      of === 'link'
        ? 'It becomes plain words; publish with --drafts, or finish that entry.'
        : 'It is not shown; publish with --drafts, or finish that entry.',
    fires: toRunning(true),
    silent: toRunning(false),
  }),
  'dangling-link': rule<
    | { lacks: 'file'; what: LinkFacts['what']; target: string; near?: string; address?: string }
    | { lacks: 'page'; what: LinkFacts['what']; target: string }
    | { lacks: 'sample'; entry: number; sample: string; samples: readonly string[] }
  >({
    when: 'A link leads to a file, a page or a sample that does not exist.',
    severity: {
      among: ['error', 'warning'],
      of: ({ lacks }) => (lacks === 'sample' ? 'warning' : 'error'),
    },
    found: (facts) => {
      if (facts.lacks === 'sample')
        return `The link leads to sample ${facts.sample} of entry ${facts.entry}, which has none of that id.`;
      return (
        `The ${facts.what} leads to ${facts.target}, which ` +
        `${facts.lacks === 'file' ? 'does not exist' : 'is not a page of the site'}.`
      );
    },
    advice: 'Correct the path; it is relative to this file.',
    cure: (facts) => {
      if (facts.lacks === 'page') return 'Link to an entry, or to a file under pages/, series/ or colours/.';
      if (facts.lacks === 'file')
        return facts.near === undefined
          ? undefined
          : `Did you mean ${facts.near}? From this file that is ${facts.address ?? facts.near}.`;
      return facts.samples.length > 0 ? `Its samples are ${facts.samples.join(', ')}.` : 'The entry has no samples.';
    },
    fires: body('As in [the other](002-second.md).'),
    silent: body('As in [this one](001-example.md#A).'),
  }),
  'series-name': rule<{ name: string }>({
    when: 'The file of a series’ words is not named after an element.',
    severity: 'warning',
    found: ({ name }) => `'${name}' is not the symbol of an element, so these words stand nowhere.`,
    advice: 'Name the file after the element: Cu.md.',
    fires: page('series/copper.md'),
    silent: page('series/Cu.md'),
  }),
  'family-name': rule<{ name: string; family?: string; families: readonly string[] }>({
    when: 'The file of a family’s words is not named after a colour family.',
    severity: 'warning',
    found: ({ name }) => `'${name}' is not a colour family, so these words stand nowhere.`,
    advice: 'Name the file after a colour family: green.md.',
    cure: ({ family, families }) =>
      family === undefined ? `Name the file after a family: ${families.join(', ')}.` : `Name the file ${family}.md.`,
    fires: page('colours/greenish.md'),
    silent: page('colours/green.md'),
  }),
  'page-name': rule<{ name: string; taken: boolean }>({
    when: 'The name of a page cannot be its address.',
    severity: 'error',
    found: ({ name, taken }) =>
      taken
        ? `A page can’t be called '${name}', since /${name}/ is an address of the site’s own.`
        : `'${name}' can’t stand in an address.`,
    advice: 'Give the file another name.',
    cure: ({ taken }) => (taken ? undefined : 'Name the file with letters, digits and hyphens.'),
    fires: page('pages/search.md'),
    silent: page('pages/searching.md'),
  }),
  'moved-from': rule<{ name: string; taken: boolean; of: 'page' | 'words' | 'reagent' }>({
    when: 'A page or a reagent says that it had a name before which is another’s, or which none can have.',
    severity: 'error',
    found: ({ name, taken, of }) => {
      if (of === 'words')
        return `The words of a series or a colour never move, so that they can’t come from '${name}'.`;
      if (of === 'reagent')
        return taken
          ? `'${name}' is the id of a reagent on the shelf, and can’t lead here.`
          : `No reagent can have had the id '${name}'.`;
      return taken
        ? `'${name}' is the name of another page, and can’t lead here.`
        : `No page can have been called '${name}'.`;
    },
    advice:
      'Write under `moved-from` the names, without .md, that the page’s own file had before; ' +
      'of a reagent its own former ids.',
    fires: { matter: '', files: { 'pages/about.md': '---\nmoved-from: [search]\n---\nWords.\n' } },
    silent: { matter: '', files: { 'pages/about.md': '---\nmoved-from: [workshop]\n---\nWords.\n' } },
  }),
};
