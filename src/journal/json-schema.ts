// The journal's format as JSON Schema, made from the same description that checks it, so that editors complete and
// check it.
import { z } from 'zod';
import { prepared } from '../tables/prepared.js';
import { entrySchema, journalSchema, shelfSchema } from './schema.js';

export type JsonSchema = z.core.JSONSchema.BaseSchema;

const documents = {
  entry: {
    schema: entrySchema,
    title: 'Entry of a Masstone journal',
    description: 'Front matter of a file in entries/',
  },
  shelf: {
    schema: shelfSchema,
    title: 'Shelf of a Masstone journal',
    description: 'shelf.yaml: the reagents the maker owns, by id (small letters, digits and hyphens)',
  },
  journal: { schema: journalSchema, title: 'Settings of a Masstone journal', description: 'journal.yaml' },
} as const;

export type SchemaName = keyof typeof documents;
export const schemaNames = Object.keys(documents) as SchemaName[];

/**
 * JSON Schema (draft 2020-12) of one kind of file.
 * @example jsonSchemaOf('entry').required // ['number', 'title', 'date', 'status']
 */
export function jsonSchemaOf(name: SchemaName): JsonSchema {
  const { schema, title, description } = documents[name];
  const made = z.toJSONSchema(schema, {
    io: 'output',
    override: ({ zodSchema, jsonSchema }) => {
      const { type, shape } = zodSchema._zod.def as { type: string; shape?: Record<string, z.core.$ZodType> };
      // What has a default may be left out by the maker.
      if (type === 'object' && shape) {
        const required = Object.keys(shape).filter(
          (key) => !['optional', 'default'].includes(shape[key]?._zod.def.type ?? ''),
        );
        if (required.length > 0) jsonSchema.required = required;
        else delete jsonSchema.required;
      }
      if (type === 'record') jsonSchema.propertyNames = { pattern: '^[a-z0-9]+(-[a-z0-9]+)*$' };
    },
  });
  const { $schema, ...rest } = made;
  return { $schema, title, description, ...rest } as JsonSchema;
}

/** The schema as the text of its file. */
export const jsonSchemaText = (name: SchemaName): string => `${JSON.stringify(jsonSchemaOf(name), null, 2)}\n`;

/** A figure of the reckoning as it is published. */
const figure = {
  type: 'object',
  properties: {
    value: { type: 'string', pattern: '^-?[0-9]+(\\.[0-9]+)?(e-?[0-9]+)?$', description: 'decimal, unrounded' },
    uncertainty: { type: 'string', description: 'expanded uncertainty, k = 2, in the same unit' },
    unit: { type: 'string' },
    text: { type: 'string', description: 'for readers, rounded to its uncertainty, with its unit' },
    within: {
      type: 'object',
      properties: { low: { type: 'string' }, high: { type: 'string' } },
      description: 'bounds, where weighing cannot tell what limits; the uncertainty reaches to the farther one',
    },
  },
  required: ['value', 'unit', 'text'],
} as const;

const reckonedSample = {
  type: 'object',
  properties: {
    sample: { type: 'string', description: 'id of the sample; empty where the entry has none' },
    limiting: { type: 'string', description: 'name of the limiting reagent' },
    theoreticalYield: { $ref: '#/$defs/figure' },
    obtained: { $ref: '#/$defs/figure' },
    percentYield: { $ref: '#/$defs/figure' },
    cumulativeYield: { $ref: '#/$defs/figure' },
    assayedYield: { $ref: '#/$defs/figure' },
    cost: { $ref: '#/$defs/figure' },
    ingredients: { type: 'array', items: { type: 'object', required: ['id', 'name', 'role', 'limiting'] } },
  },
  required: ['sample', 'ingredients'],
} as const;

const reckoned = {
  type: 'object',
  description: 'everything reckoned from the entry; further keys may stand beside those named here',
  properties: {
    amounts: {
      type: 'object',
      properties: { samples: { type: 'array', items: { $ref: '#/$defs/reckonedSample' } } },
      required: ['samples'],
    },
    dangers: {
      type: 'object',
      properties: {
        box: { type: 'object', required: ['pictograms', 'statements', 'precautionary', 'unknown'] },
        foreseen: { type: 'array', items: { type: 'object', required: ['rule', 'severity', 'title', 'consequence'] } },
      },
      required: ['box'],
    },
    appearance: {
      type: 'object',
      properties: { samples: { type: 'array', items: { type: 'object', required: ['sample'] } } },
      required: ['samples'],
    },
  },
  required: ['amounts', 'dangers', 'appearance'],
} as const;

/**
 * JSON Schema (draft 2020-12) of what is published of the entries: front matter with its defaults, and what was
 * reckoned from it.
 * @example publishedEntriesSchema().type // 'array'
 */
export const publishedEntriesSchema = prepared<JsonSchema>('published-entries-schema', () => {
  const { $schema, $defs, properties, required = [], ...entry } = jsonSchemaOf('entry');
  return {
    $schema: $schema ?? 'https://json-schema.org/draft/2020-12/schema',
    title: 'Entries of a Masstone journal, as published',
    description: 'data/entries.json',
    type: 'array',
    items: {
      ...entry,
      properties: {
        ...properties,
        file: { type: 'string', description: 'path of the entry below the journal' },
        address: { type: 'string', pattern: '^/[1-9][0-9]*/$', description: 'address below the site' },
        elements: { type: 'array', items: { type: 'string' }, description: 'colour-giving elements' },
        reckoned: { $ref: '#/$defs/reckoned' },
      },
      required: [...required, 'address', 'elements', 'reckoned'],
    },
    $defs: { ...$defs, figure, reckonedSample, reckoned },
  };
});
