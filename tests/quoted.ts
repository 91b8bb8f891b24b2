// A published page with every attribute's value in double quotes, so that tests look for `class="dab"` whether a page
// needed the quotes or not.

const tag = /<[a-z][^\s>]*(?:\s+[^\s=>/"]+(?:="[^"]*"|=[^ \t\n\f\r"'<=>`]+)?)*\s*\/?>/gi;
const attribute = /=(?:"[^"]*"|[^ \t\n\f\r"'<=>`]+)/g;

/** @example quoted('<p class=small>') // '<p class="small">' */
export const quoted = (html: string): string =>
  html.replace(tag, (found) =>
    found.replace(attribute, (value) => (value.startsWith('="') ? value : `="${value.slice(1)}"`)),
  );
