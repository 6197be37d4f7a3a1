/** Runs in a browser page served on the loopback address, before the page's own modules. */
import {
  DOWNLOAD_ADDRESS,
  FILE_ENDING,
  HOST_ADDRESS,
  HOST_HEADER,
  type HostReply,
  type Job,
  type OpenedFile,
  UPLOAD_ADDRESS,
} from '../ipc/contract.ts';
import { pageSideHost } from '../ipc/page-side.ts';

const LARGEST_FILE_BYTES = 20_000_000;
/** How often it is asked whether a file is ready to be fetched, ms. */
const ASK_EVERY_MS = 200;

async function replyOf(sent: Promise<Response>): Promise<HostReply> {
  const response = await sent;
  if (!response.ok) return { ok: false, problems: [(await response.text()).trim()] };
  return (await response.json()) as HostReply;
}

const host = pageSideHost((method, args) =>
  replyOf(
    fetch(HOST_ADDRESS + method, {
      method: 'POST',
      headers: { 'content-type': 'application/json', [HOST_HEADER]: '1' },
      body: JSON.stringify(args),
    }),
  ),
);

/** Lets the person choose a file. Null when they chose none. */
function chooseFile(accept: string): Promise<File | null> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  return new Promise((resolve) => {
    input.addEventListener('cancel', () => resolve(null));
    input.addEventListener('change', () => resolve(input.files?.[0] ?? null));
    input.click();
  });
}

async function openTextFile(): Promise<OpenedFile | null> {
  const file = await chooseFile(`.${FILE_ENDING},.json,.csv`);
  if (file === null) return null;
  if (file.size > LARGEST_FILE_BYTES) throw new Error(`${file.name} is larger than 20 MB`);
  return { name: file.name, text: await file.text() };
}

function offer(address: string, name: string): void {
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
}

async function saveHere(suggestedName: string, content: string | Uint8Array): Promise<string | null> {
  const address = URL.createObjectURL(new Blob([content as BlobPart], { type: 'application/octet-stream' }));
  offer(address, suggestedName);
  // The browser reads the address after this turn; it is given back once it surely has.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  return suggestedName;
}

/** Sends a file that the person chooses, as a stream, and gives the work that was begun on it. */
async function sendChosen(kind: string, accept: string): Promise<Job | null> {
  const file = await chooseFile(accept);
  if (file === null) return null;
  const reply = await replyOf(
    fetch(`${UPLOAD_ADDRESS}${kind}?name=${encodeURIComponent(file.name)}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream', [HOST_HEADER]: '1' },
      body: file,
    }),
  );
  if (!reply.ok) throw new Error(reply.problems.join('\n'));
  return reply.value as Job;
}

/** Fetches what a job wrote once it has finished; how the job goes is for the page to tell. */
async function fetchWhenWritten(job: Job): Promise<void> {
  for (;;) {
    const { state } = await host.jobProgress(job.id);
    if (state === 'finished') return offer(DOWNLOAD_ADDRESS + job.id, job.fileName);
    if (state !== 'running') return;
    await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
  }
}

function written(job: Job | null): Job | null {
  if (job !== null) void fetchWhenWritten(job).catch(() => undefined);
  return job;
}

function openTab(address: string): void {
  const link = document.createElement('a');
  link.href = address;
  link.target = '_blank';
  link.rel = 'noopener';
  link.click();
}

Object.defineProperty(window, 'rimwardHost', {
  value: Object.freeze({
    ...host,
    openTextFile,
    saveTextFile: saveHere,
    saveBinaryFile: saveHere,
    importBundle: () => sendChosen('bundle', '.rimward-bundle'),
    restoreStore: () => sendChosen('store', '.rimward-store'),
    exportBundle: async (name: string, ids: readonly string[]) => written(await host.exportBundle(name, ids)),
    backupStore: async (name: string) => written(await host.backupStore(name)),
    openAttemptReport: async (id: string) => {
      await host.openAttemptReport(id);
      openTab(`/report/attempt/${id}`);
    },
    openPersonReport: async (personId: string, scenarioId: string) => {
      await host.openPersonReport(personId, scenarioId);
      openTab(`/report/person/${personId}/${encodeURIComponent(scenarioId)}`);
    },
  }),
  enumerable: true,
});
