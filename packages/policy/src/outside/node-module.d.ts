// Of Node this package knows how a module is loaded, and nothing else.
declare module 'node:module' {
  export function createRequire(from: string): (name: string) => unknown;
}

interface ImportMeta {
  url: string;
}
