// The reader of citations that tests hold ours against has no types of its own.
declare module '@citation-js/core' {
  export const Cite: new (data: string) => unknown;
}
declare module '@citation-js/plugin-bibtex';
declare module '@citation-js/plugin-csl';
