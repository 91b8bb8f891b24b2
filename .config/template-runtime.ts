// Tests run from sources: what templates are compiled to call is taken from there too, and not from `dist`.
import { fileURLToPath } from 'node:url';

export const templateRuntime = [
  {
    find: /^#templates\/jsx(?:-dev)?-runtime$/,
    replacement: fileURLToPath(new URL('../templates/jsx-runtime.ts', import.meta.url)),
  },
];
