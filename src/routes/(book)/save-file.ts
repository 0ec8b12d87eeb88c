/** Hands a file to the browser's own saving. */
export function saveFile(file: File): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
