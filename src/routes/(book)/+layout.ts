// The phone's shell: no server rendering, and `/` is written out once at build time; it then routes every address itself.
export const ssr = false;
