// Rules on the names of files that become addresses of the site.
import { rule } from '../rule.js';

export const nameRules = {
  'names-collide': rule<{ other: string }>({
    when: 'Two files have names that differ only in capitals, or in how an accent is put together.',
    severity: 'error',
    found: ({ other }) => `The name differs from that of ${other} only in capitals or in how accents are put together.`,
    advice: 'Give one of them another name: many disks and hosts take the two for one.',
    fires: { files: { 'pages/about.md': 'Words.\n', 'pages/About.md': 'Other words.\n' } },
    silent: { files: { 'pages/about.md': 'Words.\n', 'pages/about-us.md': 'Other words.\n' } },
  }),
  'not-published': rule<{ what: 'image' | 'link' | 'photo'; file: string }>({
    when: 'A picture or a file that is linked to lies where nothing is published.',
    severity: 'error',
    found: ({ what, file }) =>
      `The ${what} ${what === 'photo' ? 'is' : 'leads to'} ${file}, ` +
      `which is not published: only photos/ and spectra/ are.`,
    advice: 'Move the file to photos/ or spectra/, and name it there.',
    fires: { matter: '---\n![Two dishes](../pictures/two.jpg)', files: { 'pictures/two.jpg': '' } },
    silent: { matter: '---\n![Two dishes](../photos/two.jpg)', files: { 'photos/two.jpg': '' } },
  }),
  'published-as-it-is': rule<{ file: string }>({
    when: 'A file below photos/ is no picture that is made anew: what it carries is published with it.',
    severity: 'warning',
    found: ({ file }) => `${file} is published as it is, with the place, date and device that it may carry.`,
    advice: 'Take such data out of it, or put the video where videos are shown and name it under videos:.',
    fires: { matter: '---\nSee [the froth](../photos/froth.mov).', files: { 'photos/froth.mov': 'x' } },
    silent: { matter: '---\nSee [the card](../photos/card.svg).', files: { 'photos/card.svg': '<svg/>' } },
  }),
  'drawing-mended': rule<{ file: string; taken: readonly string[] }>({
    when: 'A drawing (SVG) holds what runs, loads from elsewhere or leads away: it is published without that.',
    severity: 'warning',
    found: ({ file, taken }) =>
      `${file} is published without what a drawing must not bring along: ${taken.join('; ')}.`,
    advice: 'Look at it on the page. Save it as plain SVG, its letters as outlines and its pictures embedded.',
    fires: {
      matter: '---\n![The still](../photos/still.svg)',
      files: { 'photos/still.svg': '<svg xmlns="http://www.w3.org/2000/svg"><script>a()</script></svg>' },
    },
    silent: {
      matter: '---\n![The still](../photos/still.svg)',
      files: { 'photos/still.svg': '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0h9"/></svg>' },
    },
  }),
  'runs-in-a-browser': rule<{ file: string }>({
    when: 'A file below photos/ or spectra/ is a page or a program to a browser, which would run it.',
    severity: 'error',
    found: ({ file }) => `${file} is a page or a program to a browser, and is not published.`,
    advice:
      'Publish a page of your own below pages/, a drawing as plain .svg below photos/, anything else in a zip file.',
    fires: { matter: '---\nSee [the plot](../photos/plot.html).', files: { 'photos/plot.html': '<p>x</p>' } },
    silent: { matter: '---\nSee [the plot](../photos/plot.svg).', files: { 'photos/plot.svg': '<svg/>' } },
  }),
  'spelt-otherwise': rule<{ file: string; spelt: string }>({
    when: 'A file is named in other capitals, or with its accents put together otherwise, than it has on the disk.',
    severity: 'error',
    found: ({ file, spelt }) => `The file ${file} is ${spelt} on the disk; hosts tell the two apart.`,
    advice: 'Write the name as the disk has it.',
    cure: ({ spelt }) => `Write ${spelt}.`,
    fires: { matter: 'samples: [{ sample: A, photo: photos/two.jpg }]', files: { 'photos/Two.JPG': '' } },
    silent: { matter: 'samples: [{ sample: A, photo: photos/Two.JPG }]', files: { 'photos/Two.JPG': '' } },
  }),
};
