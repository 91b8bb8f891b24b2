// Rules on the words of write-ups and pages: what their Markdown asks for and where their links lead.
import { rule } from '../rule.js';

const body = (words: string): string => `samples: [{ sample: A, obtained: 1.98 g }]\n---\n${words}`;

/** What is a value of a sample, wherever it is known. */
const ofSample = /^[A-Z]\d?\.(?:yield|obtained|theoretical|limiting|mean-yield|lab|family|opacity|lamplight)$/;

export const writeUpRules = {
  'raw-html': rule({
    when: 'There is raw HTML in a write-up.',
    severity: 'warning',
    found: () => 'Raw HTML in the write-up is shown as text.',
    advice: 'Write it as Markdown; HTML is never passed on to the page.',
    fires: body('It was <b>very</b> green.'),
    silent: body('It was **very** green. <!-- Was it? -->'),
  }),
  chem: rule<{ word: string }>({
    when: 'What stands in :chem[…] is not a formula.',
    severity: 'warning',
    found: ({ word }) => `'${word}' is not a formula that can be read.`,
    advice: 'Write it as in the front matter: :chem[CuSO4·5H2O].',
    fires: body('It is :chem[rust].'),
    silent: body('It is :chem[CuO].'),
  }),
  value: rule<{ word: string }>({
    when: 'What stands in :value[…] is no reckoned value of the entry.',
    severity: 'warning',
    found: ({ word }) => `There is no reckoned value '${word}' in this entry.`,
    advice: 'Name a sample and a value, as in :value[A.yield].',
    cure: ({ word, expected = [] }) => {
      const known = expected.length === 0 ? '' : ` Known are ${expected.slice(0, 8).join(', ')}.`;
      const [sample = ''] = word.split('.');
      const isOfSample = ofSample.test(word) && expected.some((one) => one.startsWith(`${sample}.`));
      return isOfSample
        ? `It could not be reckoned; what else the proof says of this entry tells why.${known}`
        : undefined;
    },
    fires: body('It weighs :value[B.obtained].'),
    silent: body('It weighs :value[A.obtained].'),
  }),
  swatch: rule<{ word: string }>({
    when: 'The sample in :swatch[…] has no colour that could be shown.',
    severity: 'warning',
    found: ({ word }) => `Sample '${word}' has no colour to show here.`,
    advice: 'Give the sample a colour in the front matter, or name another sample.',
    fires: 'samples: [{ sample: A }]\n---\nSee :swatch[A].',
    silent:
      'samples: [{ sample: A, colour: { lab: [54.1, -30.2, 6.0], ' +
      'illuminant: D65, observer: 10 } }]\n---\nSee :swatch[A].',
  }),
  'no-such-moment': rule<{ at: string }>({
    when: 'What stands in :moment[…], or a photograph’s moment, is no moment of one of the entry’s videos.',
    severity: 'warning',
    found: ({ at }) => `No video of this entry has a moment at '${at}'.`,
    advice: 'Give the time of a moment as the front matter has it: :moment[3:40].',
    fires: body('It foams, :moment[9:99].'),
    silent:
      'videos: [{ url: "https://video.example/1", moments: [{ at: "3:40", ' +
      'shows: froth }] }]\n---\nIt foams, :moment[3:40].',
  }),
  'no-such-part': rule<{ part: string; page: string }>({
    when: 'A link names a part of a page of the site that the page has not.',
    severity: 'warning',
    found: ({ part, page }) => `The link leads to #${part} of ${page}, which has no part of that name.`,
    advice: 'Link to the page without #.',
    cure: ({ expected = [] }) =>
      expected.length === 0
        ? undefined
        : `Its parts are ${expected.slice(0, 8).join(', ')}; or link to the page without #.`,
    fires: body('As in [the results](001-example.md#results).'),
    silent: body('As in [sample A](001-example.md#A).'),
  }),
};
