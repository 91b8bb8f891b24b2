// The journal's format as JSON Schema, made from the same description that checks it, so that editors complete and
// check it.
import { z } from 'zod';
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
