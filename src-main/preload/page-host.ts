/** Runs in a browser page served on the loopback address, before the page's own modules. */
import { FILE_ENDING, HOST_ADDRESS, HOST_HEADER, type HostReply, type OpenedFile } from '../ipc/contract.ts';
import { pageSideHost } from '../ipc/page-side.ts';

const LARGEST_FILE_BYTES = 20_000_000;

const host = pageSideHost(async (method, args) => {
  const response = await fetch(HOST_ADDRESS + method, {
    method: 'POST',
    headers: { 'content-type': 'application/json', [HOST_HEADER]: '1' },
    body: JSON.stringify(args),
  });
  if (!response.ok) return { ok: false, problems: [(await response.text()).trim()] };
  return (await response.json()) as HostReply;
});

function openTextFile(): Promise<OpenedFile | null> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = `.${FILE_ENDING},.json,.csv`;
  return new Promise((resolve, reject) => {
    input.addEventListener('cancel', () => resolve(null));
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file === undefined) return resolve(null);
      if (file.size > LARGEST_FILE_BYTES) return reject(new Error(`${file.name} is larger than 20 MB`));
      file.text().then((text) => resolve({ name: file.name, text }), reject);
    });
    input.click();
  });
}

async function saveTextFile(suggestedName: string, text: string): Promise<string | null> {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/octet-stream' }));
  link.download = suggestedName;
  link.click();
  // The browser reads the address after this turn; it is given back once it surely has.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return suggestedName;
}

Object.defineProperty(window, 'rimwardHost', {
  value: Object.freeze({ ...host, openTextFile, saveTextFile }),
  enumerable: true,
});
