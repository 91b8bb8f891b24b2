// Writes the journal's format as JSON Schema into public/schema (npm run schema).
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { packageFolder } from '../package-folder.js';
import { jsonSchemaText, schemaNames } from './json-schema.js';

const folder = join(packageFolder, 'public', 'schema');
mkdirSync(folder, { recursive: true });
for (const name of schemaNames) writeFileSync(join(folder, `${name}.schema.json`), jsonSchemaText(name));
