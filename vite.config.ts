import { fileURLToPath } from 'node:url';
import adapter from '@sveltejs/adapter-node';
import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [
    // Kit 3 refuses a svelte.config.js beside this file, so its options stand here (docs/decisions/001).
    sveltekit({
      adapter: adapter({ out: 'build' }),
      // Absolute, so that the cached shell answers any deep link offline.
      paths: { relative: false },
      // The app registers it itself, after its first paint, and hears when a newer build waits.
      serviceWorker: { register: false },
      csp: {
        mode: 'auto',
        directives: {
          'default-src': ['self'],
          'script-src': ['self'],
          'style-src': ['self', 'unsafe-inline'],
          'img-src': ['self', 'blob:', 'data:'],
          'media-src': ['self', 'blob:'],
          'worker-src': ['self', 'blob:'],
          'connect-src': ['self', 'blob:'],
          'object-src': ['none'],
          'base-uri': ['none'],
          'form-action': ['none'],
          // Only for pages answered one by one: a prerendered page cannot carry it, and gets it from src/server.mjs.
          'frame-ancestors': ['none'],
        },
      },
    }),
  ],
  resolve: { alias: { 'blob-polyfill': fileURLToPath(new URL('src/lib/work/native-blob.ts', import.meta.url)) } },
  worker: { format: 'es' },
  build: { target: 'es2022' },
  environments: {
    client: {
      build: {
        rolldownOptions: {
          output: {
            // Some eighty small files cost more in headers and lost compression than a phone saves by not loading a few of them.
            // What is loaded lazily (the reader of EXIF, the spare signature) stays in files of its own.
            codeSplitting: {
              groups: [
                { name: 'words', test: /src[\\/]lib[\\/]words/, minShareCount: 2 },
                {
                  name: 'book',
                  test: /(src[\\/]lib[\\/](ui[\\/]parts|record|state|job|measure|trade|device)|node_modules[\\/](svelte|@sveltejs|zod|@noble[\\/]hashes|idb|canonicalize))/,
                  minShareCount: 2,
                },
              ],
            },
          },
        },
      },
    },
  },
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'tests/deep/**', 'tests/.out/**'],
    // Tests undo what they change, so files may share a process: starting one for each took longer than most of them.
    isolate: false,
    // One less than there are cores would leave half of a small machine idle.
    maxWorkers: '100%',
    // A half-hour zone with daylight saving: an assumed whole-hour offset shows at once.
    env: { TZ: 'Australia/Lord_Howe' },
    // A busy machine is no fault of a test: none asserts a time, and a hang still ends.
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
