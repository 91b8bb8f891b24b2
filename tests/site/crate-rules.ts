// What RO-Crate 1.2 asks of every crate (https://w3id.org/ro/crate/1.2), rule by rule, each with the page it stands on.

export interface Entity {
  readonly '@id': string;
  readonly '@type': string | string[];
  readonly [property: string]: unknown;
}

interface Crate {
  readonly context: unknown;
  readonly graph: readonly Entity[];
  readonly byId: ReadonlyMap<string, Entity>;
  /** Whether the crate's folder has a file or folder. */
  readonly has: (path: string) => boolean;
}

type Rule = (crate: Crate) => readonly string[];

const refs = (value: unknown): string[] =>
  [value]
    .flat()
    .flatMap((one) =>
      typeof one === 'object' && one !== null && '@id' in one ? [String((one as Entity)['@id'])] : [],
    );
const typesOf = (one: Entity | undefined): readonly string[] => (one ? [one['@type']].flat() : []);
const unless = (holds: boolean, what: string): readonly string[] => (holds ? [] : [what]);

const isFlat = (value: unknown): boolean =>
  [value].flat().every((part) => typeof part !== 'object' || (part !== null && Object.keys(part).join() === '@id'));

/** Structure: the context by reference; JSON-LD flattened and compacted. */
const structure: Rule = ({ context, graph, byId }) => [
  ...unless(context === 'https://w3id.org/ro/crate/1.2/context', 'context'),
  ...unless(byId.size === graph.length, 'an @id is there twice'),
  ...graph.flatMap((one) => [
    ...unless(typeof one['@id'] === 'string' && one['@type'] !== undefined, `no @id or @type: ${JSON.stringify(one)}`),
    ...Object.entries(one).flatMap(([key, value]) => unless(isFlat(value), `nested in ${one['@id']}: ${key}`)),
  ]),
];

const rootOf = ({ byId }: Crate): Entity | undefined =>
  byId.get(refs(byId.get('ro-crate-metadata.json')?.['about'])[0] ?? '');

/** Root Data Entity: the metadata descriptor. */
const descriptor: Rule = ({ byId }) => {
  const found = byId.get('ro-crate-metadata.json');
  return [
    ...unless(found?.['@type'] === 'CreativeWork', 'descriptor type'),
    ...unless(refs(found?.['conformsTo']).join() === 'https://w3id.org/ro/crate/1.2', 'descriptor conformsTo'),
  ];
};

/** Root Data Entity: its direct properties; its licence with name and description. */
const root: Rule = (crate) => {
  const found = rootOf(crate);
  const [licence] = refs(found?.['license']);
  const terms = licence === undefined ? undefined : crate.byId.get(licence);
  return [
    ...unless(found?.['@id'] === './' && typesOf(found).includes('Dataset'), 'root'),
    ...['name', 'description', 'datePublished', 'license'].flatMap((key) =>
      unless(Boolean(found?.[key]), `root ${key}`),
    ),
    ...unless(/^\d{4}-\d{2}-\d{2}$/.test(String(found?.['datePublished'])), 'root datePublished is a day'),
    ...unless(licence === undefined || Boolean(terms?.['name'] && terms['description']), 'licence is described'),
  ];
};

/** Everything that hasPart leads to, directly or not. */
function partsOf(crate: Crate): ReadonlySet<string> {
  const reached = new Set<string>();
  const open = ['./'];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (reached.has(id)) continue;
    reached.add(id);
    open.push(...refs(crate.byId.get(id)?.['hasPart']));
  }
  return reached;
}

const isData = (one: Entity): boolean =>
  typesOf(one).some((type) => type === 'File' || type === 'Dataset') && !/^(?:#|https?:)/.test(one['@id']);

/** Data Entities: files and folders are there under a relative URI, and are linked from the root. */
const data: Rule = (crate) => {
  const reached = partsOf(crate);
  return crate.graph.filter(isData).flatMap((one) => {
    const id = one['@id'];
    return [
      ...unless(reached.has(id), `${id} is not reached by hasPart`),
      ...unless(!/[\s\\]|^\//.test(id), `${id} is no relative URI`),
      ...unless(id === './' || crate.has(decodeURIComponent(id)), `${id} is not there`),
      ...unless(Boolean(one['name']), `${id} has no name`),
    ];
  });
};

/** Structure: what is referred to is described. */
const described: Rule = ({ graph, byId }) =>
  graph.flatMap((one) =>
    Object.entries(one)
      .filter(([key]) => key !== 'conformsTo')
      .flatMap(([key, value]) => refs(value).flatMap((id) => unless(byId.has(id), `${one['@id']} ${key} → ${id}`))),
  );

/** What is wrong with a crate; empty where it keeps every rule. */
export function crateFaults(text: string, has: (path: string) => boolean): readonly string[] {
  const { '@context': context, '@graph': graph } = JSON.parse(text) as { '@context': unknown; '@graph': Entity[] };
  const crate = { context, graph, byId: new Map(graph.map((one) => [one['@id'], one])), has };
  return [structure, descriptor, root, data, described].flatMap((rule) => rule(crate));
}
