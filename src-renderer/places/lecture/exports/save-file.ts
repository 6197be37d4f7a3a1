/** Puts a file where the person wants it: through the program around the page, or as a download where there is none. */

/** A name that every system takes, of the letters with their marks, digits, dots, dashes and spaces of a text. */
export function fileName(title: string, ending: string): string {
  const clean = title
    .replace(/[^\p{L}\p{M}\p{N} ._-]+/gu, ' ')
    .replace(/\s+/gu, ' ')
    .replace(/^[^\p{L}\p{N}]+/u, '')
    .trim()
    .slice(0, 80)
    .trim();
  return `${clean === '' ? 'rimward' : clean}.${ending}`;
}

/** @returns the name it was saved under, null when the person changed their mind; rejects with a line for the person */
export function saveFile(name: string, content: string | Uint8Array): Promise<string | null> {
  const host = window.rimwardHost;
  if (host === undefined) return Promise.resolve(download(name, content));
  return typeof content === 'string' ? host.saveTextFile(name, content) : host.saveBinaryFile(name, content);
}

function download(name: string, content: string | Uint8Array): string {
  const address = URL.createObjectURL(new Blob([content as BlobPart], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // the browser reads the address after this turn
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  return name;
}
