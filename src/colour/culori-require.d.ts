// The bundled culori has the types of the library.
declare module 'culori/require' {
  const culori: typeof import('culori');
  export default culori;
}
