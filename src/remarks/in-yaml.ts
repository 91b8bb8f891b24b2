// Texts as they are pasted into YAML.

/** What YAML would take for something else than text, in braces or at their beginning. */
const needsQuotes = /[,:#{}[\]"]|^[\s|>&*!%@`']|^[?-]\s|\s$|^(?:yes|no|on|off|true|false|null)$/i;

/**
 * A text as it can stand anywhere in YAML, braces included: in quotes where it needs them.
 * @example inYaml('soda, washing') // '"soda, washing"'
 */
export const inYaml = (text: string): string => (needsQuotes.test(text) ? JSON.stringify(text) : text);
