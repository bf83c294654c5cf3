/** What is published, each after what it needs. */
export const folders = [
  ...['calculators', 'profiles', 'policy', 'core', 'figures', 'cli'].map((name) => `packages/${name}`),
  'services/adapter',
];
