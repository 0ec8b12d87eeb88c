import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import { defineConfig } from 'eslint/config';
import ts from 'typescript-eslint';

const NODE_GLOBALS = Object.fromEntries(
  ['Buffer', 'URL', 'clearTimeout', 'console', 'fetch', 'performance', 'process', 'setTimeout'].map((name) => [name, 'readonly']),
);

const DEFAULT_EXPORT = { selector: 'ExportDefaultDeclaration', message: 'Export by name: a name that is searched for is found.' };
const SIDE_WRITE = {
  selector: 'CallExpression[callee.property.name="transaction"] > Literal[value="readwrite"]',
  message: 'Writes go through the shelf: one strict transaction that holds entry and bytes and compares the head.',
};
const CLOCK = {
  selector: ':matches(NewExpression[arguments.length=0], CallExpression)[callee.name="Date"]',
  message: 'The time is an argument here.',
};

export default defineConfig(
  { ignores: ['build/', '.svelte-kit/', 'tests/.out/', 'src/lib/words/compiled/', 'static/'] },
  js.configs.recommended,
  { files: ['**/*.ts', '**/*.svelte'], extends: [ts.configs.strictTypeChecked] },
  svelte.configs.recommended,
  {
    files: ['**/*.ts', '**/*.svelte'],
    languageOptions: { parserOptions: { projectService: true, extraFileExtensions: ['.svelte'], parser: ts.parser } },
    rules: {
      // The compiler knows which names exist.
      'no-undef': 'off',
      // Archives and logs are checked for control characters.
      'no-control-regex': 'off',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      // A port is asynchronous for the implementation that must wait; the others have nothing to await.
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/no-misused-spread': ['error', { allow: ['string'] }],
      // There are no enums (types here can be erased), and looking for them takes a tenth of the time.
      '@typescript-eslint/no-unsafe-enum-assignment': 'off',
      // `Promise.withResolvers<void>()` is how a promise without a value is made.
      '@typescript-eslint/no-invalid-void-type': 'off',
      // A type argument the caller names reads better than a cast at each call.
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      // `!` stands where the line before has bounded the index; the compiler's noUncheckedIndexedAccess forces the choice into the open.
      '@typescript-eslint/no-non-null-assertion': 'off',
    },
  },
  // Types of components are svelte-check's: giving the compiler 150 of them one by one takes four times as long as all the rest of lint.
  { files: ['**/*.svelte'], ...ts.configs.disableTypeChecked, languageOptions: { parserOptions: { projectService: false } } },
  // A Map in a state module is plain when it is written plain.
  { files: ['src/**/*.svelte', 'src/**/*.svelte.ts'], rules: { 'svelte/prefer-svelte-reactivity': 'off' } },
  // A test may hand a method over as a stub.
  { files: ['tests/**/*.ts'], rules: { '@typescript-eslint/unbound-method': 'off' } },
  { files: ['**/*.mjs', '**/*.js'], languageOptions: { globals: NODE_GLOBALS } },
  {
    files: ['src/**/*.svelte'],
    rules: {
      'svelte/no-at-html-tags': 'error',
      'svelte/button-has-type': 'error',
      // The book lives at the top of its origin: there is no base path to resolve.
      'svelte/no-navigation-without-resolve': 'off',
    },
  },
  { files: ['src/lib/**/*.ts'], rules: { 'no-restricted-syntax': ['error', DEFAULT_EXPORT, SIDE_WRITE] } },
  {
    // What these rooms answer depends on their arguments alone.
    files: ['src/lib/{measure,trade,vision,voice,record,sync,job,report}/**/*.ts'],
    rules: {
      'no-restricted-syntax': ['error', DEFAULT_EXPORT, SIDE_WRITE, CLOCK],
      'no-restricted-globals': ['error', { name: 'performance', message: 'The time is an argument here.' }],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The time is an argument here.' },
        { object: 'Math', property: 'random', message: 'Ids and chance are arguments here.' },
      ],
    },
  },
  // The one place that writes.
  { files: ['src/lib/device/store/idb-shelf.ts'], rules: { 'no-restricted-syntax': ['error', DEFAULT_EXPORT] } },
);
