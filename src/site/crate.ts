// The journal as an RO-Crate 1.2: what it is, whose, under what terms, and each entry as a dataset with its files, what
// was measured with what, and what reckoned it. Source: RO-Crate 1.2, https://w3id.org/ro/crate/1.2
import type { JournalModel } from '../crosslinks/model.js';
import { filesNamedIn } from '../journal/named-files.js';
import { orcidUrl } from '../journal/values.js';
import { hashOf, identityOf } from '../kept/inputs.js';
import { softwareVersion } from '../package-folder.js';
import type { Figure, ReckonedEntry } from '../reckoning/contracts.js';
import { rowsOfReckoning } from '../reckoning/gist.js';
import type { FileContent, Part } from './assets.js';
import { splitAddress } from './context.js';

export interface Reference {
  readonly '@id': string;
}
export interface Entity extends Reference {
  readonly '@type': string | readonly string[];
  readonly [property: string]: unknown;
}

export const crateFile = 'ro-crate-metadata.json';
const specification = 'https://w3id.org/ro/crate/1.2';
const softwareId = '#masstone';
const reckoningId = '#reckoning';

const ref = (id: string): Reference => ({ '@id': id });

/**
 * A path as an identifier: letters of other scripts stay, signs that an address cannot have are escaped.
 * Source: RO-Crate 1.2, Data Entities, Encoding file paths.
 * @example idOfPath('photos/4 A.jpg') // 'photos/4%20A.jpg'
 */
export const idOfPath = (path: string): string =>
  path.replace(/[\s%#?<>"{}|\\^`]/g, (sign) => encodeURIComponent(sign));

/** A name as the part of an identifier behind `#`. */
const slugOf = (text: string): string => encodeURIComponent(text.trim().toLowerCase().replace(/\s+/g, '-'));

const mediaTypes: Readonly<Record<string, string>> = {
  html: 'text/html',
  csv: 'text/csv',
  json: 'application/json',
  txt: 'text/plain',
  md: 'text/markdown',
  yaml: 'application/yaml',
  cxf: 'application/xml',
  xml: 'application/xml',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  avif: 'image/avif',
  gif: 'image/gif',
  svg: 'image/svg+xml',
  cff: 'application/yaml',
};

/** Type of a file by the ending of its name. @example mediaTypeOf('data/samples.csv') // 'text/csv' */
export const mediaTypeOf = (path: string): string =>
  path.endsWith('.csv-metadata.json')
    ? 'application/csvm+json'
    : (mediaTypes[/\.([^./]+)$/.exec(path)?.[1]?.toLowerCase() ?? ''] ?? 'application/octet-stream');

export const fileEntity = (path: string, name: string, more: Readonly<Record<string, unknown>> = {}): Entity => ({
  '@id': idOfPath(path),
  '@type': 'File',
  name,
  encodingFormat: mediaTypeOf(path),
  ...more,
});

/** Units by QUDT (unitCode) and UCUM (unitText). */
const units = {
  gram: { unitCode: 'http://qudt.org/vocab/unit/GM', unitText: 'g' },
  percent: { unitCode: 'http://qudt.org/vocab/unit/PERCENT', unitText: '%' },
  one: { unitCode: 'http://qudt.org/vocab/unit/UNITLESS', unitText: '1' },
} as const;

function valueEntity(id: string, name: string, figure: Figure, unit: keyof typeof units): Entity {
  return {
    '@id': id,
    '@type': 'PropertyValue',
    name,
    value: Number(figure.value),
    ...units[unit],
    ...(figure.uncertainty !== undefined && {
      description: `expanded uncertainty ${figure.uncertainty} ${units[unit].unitText} (k = 2)`,
    }),
  };
}

/** What was weighed, reckoned and read of the samples of an entry. */
function valuesOf(one: ReckonedEntry): readonly Entity[] {
  const { entry } = one;
  const rows = one.rows ?? rowsOfReckoning(entry, one.amounts, one.appearance);
  const weighed = rows
    .flatMap(({ amounts }) => amounts ?? [])
    .filter(({ sample }) => sample !== '')
    .flatMap(({ sample, obtained, theoreticalYield, percentYield }) => {
      const id = (what: string): string => `#${entry.number}-${sample}-${what}`;
      return [
        ...(obtained ? [valueEntity(id('obtained'), `mass obtained, sample ${sample}`, obtained, 'gram')] : []),
        ...(theoreticalYield
          ? [valueEntity(id('theoretical'), `theoretical yield, sample ${sample}`, theoreticalYield, 'gram')]
          : []),
        ...(percentYield ? [valueEntity(id('yield'), `percent yield, sample ${sample}`, percentYield, 'percent')] : []),
      ];
    });
  const read = rows
    .flatMap(({ appearance }) => appearance ?? [])
    .flatMap(({ sample, lab, observer = 10, invented }) =>
      (lab ?? []).map((value, at): Entity => {
        const axis = ['L*', 'a*', 'b*'][at]!;
        return {
          '@id': `#${entry.number}-${sample}-${'Lab'[at]!}`,
          '@type': 'PropertyValue',
          name: `CIELAB ${axis}, sample ${sample}`,
          value,
          ...units.one,
          measurementTechnique: `CIE 1976 L*a*b*, illuminant D65, ${observer} degree observer`,
          ...(invented && { description: 'invented for a demonstration, not measured' }),
        };
      }),
    );
  return [...weighed, ...read];
}

const instrumentId = (name: string): string => `#instrument-${slugOf(name)}`;

/** Readings of colour with the instrument that made them, where it is named. */
function readingsOf({ entry }: ReckonedEntry, author: Reference): readonly Entity[] {
  return entry.samples.flatMap(({ sample, colour }) => {
    if (colour?.instrument === undefined) return [];
    const { spectrum, photo } = colour;
    const file = spectrum ?? photo;
    return [
      {
        '@id': `#${entry.number}-${sample}-reading`,
        '@type': 'CreateAction',
        name: `Colour reading of sample ${sample} of entry ${entry.number}`,
        endTime: entry.date,
        agent: author,
        instrument: ref(instrumentId(colour.instrument)),
        object: ref(`${entry.number}/`),
        ...(file !== undefined && { result: ref(idOfPath(file)) }),
      },
    ];
  });
}

const instrumentsOf = ({ entries }: JournalModel): readonly Entity[] => {
  const names = new Set(
    entries.flatMap(({ entry }) => entry.samples.flatMap(({ colour }) => colour?.instrument ?? [])),
  );
  return [...names].sort().map((name) => ({ '@id': instrumentId(name), '@type': 'IndividualProduct', name }));
};

/** What a crate is about. */
export interface CrateScope {
  /** Entries that are described. */
  readonly entries: readonly ReckonedEntry[];
  /** The file in which an entry is read: its page, or its Markdown. */
  readonly entryFile: (entry: ReckonedEntry['entry']) => string;
  /** A folder of its own for each entry (`14/`), which then is a dataset of files. */
  readonly entryFolders: boolean;
  /** Whether the crate holds a file of the journal. */
  readonly has: (path: string) => boolean;
  /** Other files, with what they hold. */
  readonly files: readonly { readonly path: string; readonly what: string; readonly reckoned?: boolean }[];
  readonly name: string;
  readonly description: string;
}

function authorOf({ journal }: OfJournal): Entity {
  const { author, orcid } = journal.settings;
  return { '@id': orcid === undefined ? '#author' : orcidUrl(orcid), '@type': 'Person', name: author };
}

/** What entries have in common. */
interface OfJournal {
  readonly journal: Pick<JournalModel['journal'], 'settings'>;
}

interface Licence {
  readonly value: unknown;
  readonly entities: readonly Entity[];
}

function licenceOf({ journal }: JournalModel): Licence {
  const { licence, 'licence-url': url } = journal.settings;
  if (url !== undefined) {
    const name = licence ?? url;
    return {
      value: ref(url),
      entities: [{ '@id': url, '@type': 'CreativeWork', name, description: `The terms of ${name}.`, url }],
    };
  }
  return { value: licence ?? 'No licence is stated: all rights are with the author.', entities: [] };
}

/** How one entry is described. */
type ScopeOfEntry = Pick<CrateScope, 'entryFile' | 'entryFolders' | 'has'>;

const entryId = ({ entry }: ReckonedEntry, { entryFolders }: ScopeOfEntry): string =>
  entryFolders ? `${entry.number}/` : `#entry-${entry.number}`;

/** One entry: a dataset with its page, photographs and spectra, and what was found. */
function entryEntities(
  one: ReckonedEntry,
  model: OfJournal,
  scope: ScopeOfEntry,
  author: Reference,
): readonly Entity[] {
  const { entry } = one;
  const { origin, base } = splitAddress(model.journal.settings.address);
  const page = scope.entryFile(entry);
  const named = filesNamedIn(entry).filter(scope.has);
  const values = valuesOf(one);
  const readings = readingsOf(one, author);
  const description = [entry.question, entry.answer].filter(Boolean).join(' ');
  return [
    {
      '@id': entryId(one, scope),
      '@type': 'Dataset',
      name: entry.title,
      description: description === '' ? `Entry ${entry.number}, ${entry.status}.` : description,
      identifier: String(entry.number),
      url: `${origin}${base}/${entry.number}/`,
      dateCreated: entry.date,
      creativeWorkStatus: entry.status,
      author,
      hasPart: [page, ...named].map((path) => ref(idOfPath(path))),
      ...(values.length > 0 && { variableMeasured: values.map((value) => ref(value['@id'])) }),
      ...(readings.length > 0 && { mentions: readings.map((reading) => ref(reading['@id'])) }),
    },
    fileEntity(page, `Write-up: ${entry.title}`),
    ...values,
    ...readings,
  ];
}

const newest = (entries: readonly ReckonedEntry[]): string =>
  entries.reduce((latest, { entry }) => (entry.date > latest ? entry.date : latest), '');

/** The descriptor, the root, and all that is no entry's. */
function* commonEntities(model: JournalModel, scope: CrateScope): Iterable<Entity> {
  const author = authorOf(model);
  const licence = licenceOf(model);
  const { entries, files } = scope;
  const { settings } = model.journal;
  const date = newest(entries);
  const reckoned = files.filter((file) => file.reckoned);
  yield {
    '@id': crateFile,
    '@type': 'CreativeWork',
    conformsTo: ref(specification),
    about: ref('./'),
  };
  yield {
    '@id': './',
    '@type': 'Dataset',
    name: scope.name,
    description: scope.description,
    datePublished: date,
    license: licence.value,
    author: ref(author['@id']),
    inLanguage: settings.language,
    url: settings.address,
    hasPart: [...entries.map((one) => ref(entryId(one, scope))), ...files.map(({ path }) => ref(idOfPath(path)))],
    ...(reckoned.length > 0 && { mentions: ref(reckoningId) }),
  };
  yield author;
  yield* licence.entities;
  yield { '@id': softwareId, '@type': 'SoftwareApplication', name: 'Masstone', version: softwareVersion() };
  if (reckoned.length > 0)
    yield {
      '@id': reckoningId,
      '@type': 'CreateAction',
      name: 'Reckoning of the journal',
      endTime: date,
      agent: ref(author['@id']),
      instrument: ref(softwareId),
      result: reckoned.map(({ path }) => ref(idOfPath(path))),
    };
  yield* instrumentsOf({ ...model, entries });
  yield* files.map(({ path, what }) => fileEntity(path, path.split('/').at(-1)!, { description: what }));
}

/** An entry with the files that no other before it names. */
export interface EntryWithFiles {
  readonly one: ReckonedEntry;
  readonly files: readonly string[];
}

function entriesWithFiles({ entries, files, has }: CrateScope): readonly EntryWithFiles[] {
  const seen = new Set<string>(files.map(({ path }) => path));
  return entries.map((one) => {
    const own = filesNamedIn(one.entry).filter((path) => has(path) && !seen.has(path));
    for (const path of own) seen.add(path);
    return { one, files: own };
  });
}

const entitiesOfEntry = ({ one, files }: EntryWithFiles, model: OfJournal, scope: ScopeOfEntry): readonly Entity[] => [
  ...entryEntities(one, model, scope, ref(authorOf(model)['@id'])),
  ...files.map((path) => fileEntity(path, `${path.split('/').at(-1)} of entry ${one.entry.number}`)),
];

/** Every entity of a crate, the descriptor and the root first; each once. */
export function* crateEntities(model: JournalModel, scope: CrateScope): Iterable<Entity> {
  yield* commonEntities(model, scope);
  for (const one of entriesWithFiles(scope)) yield* entitiesOfEntry(one, model, scope);
}

/** The crate's text, some entities at a time: of a large journal the whole would be tens of megabytes. */
function* pieces(entities: Iterable<Entity>): Iterable<string> {
  yield begin;
  let first = true;
  for (const entity of entities) {
    yield `${first ? '' : between}${JSON.stringify(entity)}`;
    first = false;
  }
  yield end;
}
const begin = '{"@context":"https://w3id.org/ro/crate/1.2/context","@graph":[\n';
const [between, end] = [',\n', '\n]}\n'];

/** The part of an entry in a crate. */
export function cratePart(of: EntryWithFiles, model: OfJournal, scope: ScopeOfEntry): Part {
  const { one, files } = of;
  const { address, author, orcid } = model.journal.settings;
  const named = filesNamedIn(one.entry).filter(scope.has);
  const identity = hashOf(one.identity ?? identityOf(one), identityOf([address, author, orcid ?? null, named, files]));
  const text = (entity: Entity): string => `${between}${JSON.stringify(entity)}`;
  return { identity, make: () => entitiesOfEntry(of, model, scope).map(text).join('') };
}

/** The same in parts, one for each entry. */
export function crateParts(model: JournalModel, scope: CrateScope): readonly Part[] {
  const common = begin + [...commonEntities(model, scope)].map((one) => JSON.stringify(one)).join(between);
  const ofEntries = entriesWithFiles(scope).map((of) => cratePart(of, model, scope));
  return [{ identity: hashOf(common), make: () => common }, ...ofEntries, { identity: 'end', make: () => end }];
}

/** The text of a crate. @param entities told anew each time it is read */
export const crateText = (entities: Iterable<Entity>): FileContent => ({ pieces: () => pieces(entities) });

/** How entries are described in the crate of a site. @param has whether the site holds a file of the journal */
export const entriesOnSite = (has: (path: string) => boolean): ScopeOfEntry => ({
  entryFile: ({ number }) => `${number}/index.html`,
  entryFolders: true,
  has,
});

/**
 * What the crate of a published site is about. A journal without entries has none: nothing of it has a date.
 * @param files other files of the site, with what they hold
 * @param published paths of the journal's files that the site holds
 */
export function siteScope(model: JournalModel, files: CrateScope['files'], published: ReadonlySet<string>): CrateScope {
  const { title, description, subtitle } = model.journal.settings;
  return {
    entries: [...model.entries].sort((a, b) => a.entry.number - b.entry.number),
    ...entriesOnSite((path) => published.has(path)),
    files,
    name: title,
    description: description ?? subtitle ?? `${title}: experiments with pigments.`,
  };
}
