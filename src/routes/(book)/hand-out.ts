/** Hands files to the browser's own saving: also the way out when the store takes nothing more. */
export function handOut(files: readonly File[]): void {
  for (const file of files) {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(file);
    link.download = file.name;
    link.click();
    // The browser reads the address after the click has returned.
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  }
}
