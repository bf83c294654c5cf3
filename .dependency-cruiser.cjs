/** The arrows of the design: calculators <- policy <- core <- figures <- cli, adapter; profiles is read by all but calculators. */
const only = (name, from, to) => ({
  name,
  severity: 'error',
  comment: `${from} may reach only: ${to}`,
  from: { path: `^${from}/` },
  to: { path: '^(packages|services|fixtures|tests)/', pathNot: `^(${to})/` },
});

/** The rooms of core in the order of the data’s way: each may read those before it, never those behind it. */
const rooms = [
  'model',
  'versions',
  'mapping',
  'record',
  'timeline',
  'facts',
  'lumens',
  'rules',
  'due',
  'words',
  '(explain|draw|repair|fhir|table|handover|preview|apply|codes|board|chart|cards|plain)',
];
const downwards = rooms.slice(0, -1).map((room, at) => ({
  name: `core-${room}-reads-only-what-comes-before`,
  severity: 'error',
  from: { path: `^packages/core/src/${room}/` },
  to: { path: `^packages/core/src/(${rooms.slice(at + 1).join('|')})/` },
}));

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'resolvable', severity: 'error', from: {}, to: { couldNotResolve: true } },
    only('calculators-alone', 'packages/calculators', 'packages/calculators'),
    only('profiles-alone', 'packages/profiles', 'packages/profiles'),
    only('policy-arrows', 'packages/policy', 'packages/policy|packages/calculators|packages/profiles'),
    only(
      'core-arrows',
      'packages/core',
      'packages/core|packages/policy|packages/calculators|packages/profiles',
    ),
    only('figures-arrows', 'packages/figures', 'packages/(figures|core|calculators|profiles)'),
    only('cli-arrows', 'packages/cli', 'packages/(cli|figures|core|policy|calculators|profiles)'),
    only(
      'adapter-arrows',
      'services/adapter',
      'services/adapter|packages/(figures|core|policy|calculators|profiles)',
    ),
    only('demo-server-alone', 'services/demo-server', 'services/demo-server'),
    {
      name: 'board-over-http',
      severity: 'error',
      comment: 'The board asks the adapter over HTTP; of core it knows the types of the answers alone.',
      from: { path: '^services/board/' },
      to: {
        path: '^(packages|services|fixtures|tests)/',
        pathNot: '^services/board/',
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'one-public-face',
      severity: 'error',
      comment: 'Another package is reached through its public face only.',
      from: { path: '^((packages|services)/[^/]+|fixtures)/' },
      to: {
        path: '^((packages|services)/[^/]+|fixtures)/src/',
        pathNot: [
          '^$1/',
          '/src/index\\.ts$',
          '^packages/calculators/src/catalog\\.ts$',
          '^packages/core/src/words/safe-text\\.ts$',
          '^packages/policy/src/shape\\.ts$',
        ],
      },
    },
    ...downwards,
    {
      name: 'calculators-no-dependency',
      severity: 'error',
      from: { path: '^packages/calculators/src', pathNot: '\\.test\\.ts$' },
      to: { dependencyTypes: ['npm', 'npm-dev', 'core'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(/dist/|\\.test\\.ts$)' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tests/tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['dwellward-source', 'import', 'node', 'default'],
    },
  },
};
