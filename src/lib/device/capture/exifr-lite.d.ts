declare module 'exifr/dist/lite.esm.mjs' {
  export { default } from 'exifr';
}
