import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import tseslint from 'typescript-eslint';

// The pure packages take the time, the zone and every input as arguments; what they compute must not depend on
// when, where or on which machine it runs.
const machineGlobals = [
  'process',
  'Date',
  'performance',
  'setTimeout',
  'setInterval',
  'fetch',
  'navigator',
  'console',
].map((name) => ({
  name,
  message: 'Pure packages read no clock, environment, network or console: take it as an argument.',
}));

const machineSyntax = [
  {
    selector: "MemberExpression[object.name='Temporal'][property.name='Now']",
    message: 'Pure packages read no clock: take the instant as an argument.',
  },
  {
    selector: "MemberExpression[object.name='Math'][property.name='random']",
    message: 'Same input, same output: no random numbers here.',
  },
  {
    selector: "CallExpression[callee.property.name='resolvedOptions']",
    message: 'Pure packages do not ask the machine for its zone or language.',
  },
  {
    selector: 'CallExpression[callee.property.name=/^toLocale/]',
    message: 'The output must not depend on the machine’s language.',
  },
  {
    selector: "CallExpression[callee.property.name='localeCompare']",
    message: 'Sort by code unit, not by language.',
  },
];

export default tseslint.config(
  {
    ignores: ['**/dist/**', '**/node_modules/**', '**/coverage/**', '**/reports/**', '**/src/generated/**'],
  },
  js.configs.recommended,
  ...tseslint.configs.strict,
  prettier,
  {
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-non-null-assertion': 'error',
      // A member that is taken out of an object is named to be left out.
      '@typescript-eslint/no-unused-vars': ['error', { ignoreRestSiblings: true }],
      eqeqeq: ['error', 'always'],
      'max-lines': ['error', { max: 350, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    // What is read at one sitting. Tests and their kits tell a story and stay out.
    files: ['{packages,services}/*/src/**/*.ts'],
    ignores: ['**/*.test.ts', '**/*.kit.ts'],
    rules: {
      'max-lines-per-function': ['error', { max: 80, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    files: ['**/*.test.ts', 'tests/**/*.ts'],
    rules: { 'max-lines': 'off', '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    files: ['**/*.js', '**/*.mjs', '**/*.cjs'],
    languageOptions: {
      globals: {
        ...{ process: 'readonly', console: 'readonly', URL: 'readonly', module: 'writable' },
        ...{ setTimeout: 'readonly', clearTimeout: 'readonly', structuredClone: 'readonly' },
      },
    },
  },
  {
    files: ['packages/{calculators,policy,core,profiles,figures}/src/**/*.ts'],
    // What a library is loaded by when it is first asked for.
    ignores: ['**/*.test.ts', 'packages/policy/src/outside/later.ts'],
    rules: {
      'no-restricted-globals': ['error', ...machineGlobals],
      'no-restricted-syntax': ['error', ...machineSyntax],
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              group: ['node:*', 'fs', 'path', 'os', 'http', 'https', 'crypto'],
              message: 'Pure packages do no I/O.',
            },
          ],
        },
      ],
    },
  },
);
