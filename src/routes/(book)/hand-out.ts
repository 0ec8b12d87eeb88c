/** The way out when the store takes nothing more: files leave the page as downloads. */
export function handOut(files: readonly File[]): void {
  for (const file of files) {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(file);
    link.download = file.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  }
}
