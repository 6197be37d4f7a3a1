/**
 * What the page may ask of the program around it. One interface for both shells: the window puts it on the page through
 * its preload, the loopback server through a script of its own. The page finds it as `window.rimwardHost` either way.
 * Types and plain data only: the page imports nothing else from outside its folder but the physics.
 */
import type { HandCommand, Scenario } from '../../physics/index.ts';
import type { StoreHost } from './store-contract.ts';

export type * from './store-contract.ts';
export { PERSON_COLOURS } from './store-contract.ts';

export interface HostInfo {
  readonly version: string;
  /** Operating system as Node names it. */
  readonly platform: string;
  /** Where attempts and preferences are kept, to be shown to the person. */
  readonly dataFolder: string;
  /** Lines the person must be told since the start: a damaged store that was set aside, what was taken in. Mostly empty. */
  readonly notices: readonly string[];
}

export interface OpenedFile {
  /** Name without its folder; the page never learns where files are. */
  readonly name: string;
  readonly text: string;
}

/** An attempt as earlier versions kept it in a file: what is needed to play it again, and the digest it must then give. */
export interface KeptAttempt {
  readonly rimwardAttempt: 1;
  readonly scenario: Scenario;
  readonly seed: number;
  readonly modelVersion: string;
  /** One per world step, in order. */
  readonly commands: readonly HandCommand[];
  /** Digest of the world at its end, null when the attempt was left open. */
  readonly digest: string | null;
}

/** Small settings of this person on this machine, by key. */
export type Preferences = Readonly<Record<string, string | number | boolean>>;

/** Calls reject with an `Error` whose message is a line for the person; nothing is half done then. */
export interface RimwardHost extends StoreHost {
  hostInfo(): Promise<HostInfo>;
  /** Asks the person for a file (text, UTF-8, at most 20 MB). Null when the person chose none. */
  openTextFile(): Promise<OpenedFile | null>;
  /** Asks where to put a file. Gives the name it was put under, null when the person changed their mind. */
  saveTextFile(suggestedName: string, text: string): Promise<string | null>;
  /** The same for a picture or a recording of at most 200 MB. */
  saveBinaryFile(suggestedName: string, bytes: Uint8Array): Promise<string | null>;
  /**
   * The text file that the system handed over, by a double click or on the command line, once; null when there is none.
   * To be asked for at the start and when the window comes to the front. Bundles are taken in by the program itself.
   */
  takeHandedFile(): Promise<OpenedFile | null>;
  loadPreferences(): Promise<Preferences>;
  savePreference(key: string, value: string | number | boolean): Promise<void>;
  /** Scenarios made on this machine, as they were kept: to be checked like any file before use. */
  listOwnScenarios(): Promise<readonly unknown[]>;
  /** Keeps a scenario under its id, over the one that is there. */
  saveOwnScenario(scenario: Scenario): Promise<void>;
  removeOwnScenario(id: string): Promise<void>;
  /** Unsaved work of the scenario editor, its own text; null when there is none. */
  loadEyeDrafts(): Promise<string | null>;
  /** An empty text removes what is there. */
  saveEyeDrafts(text: string): Promise<void>;
  /** The Lecture's boards as they were arranged on this machine, their own text, to be checked like any file; null when never changed. */
  loadBoards(): Promise<string | null>;
  /** An empty text removes what is there. */
  saveBoards(text: string): Promise<void>;
}

export type HostMethod = keyof RimwardHost;

export const HOST_METHODS: readonly HostMethod[] = [
  'hostInfo',
  'openTextFile',
  'saveTextFile',
  'saveBinaryFile',
  'takeHandedFile',
  'loadPreferences',
  'savePreference',
  'listOwnScenarios',
  'saveOwnScenario',
  'removeOwnScenario',
  'loadEyeDrafts',
  'saveEyeDrafts',
  'loadBoards',
  'saveBoards',
  'listPeople',
  'savePerson',
  'removePerson',
  'beginAttempt',
  'appendCommands',
  'finishAttempt',
  'removeAttempt',
  'unfinishedAttempts',
  'listAttempts',
  'loadAttempt',
  'noteReplay',
  'openingShapes',
  'listOutsideOpenings',
  'keepOutsideOpening',
  'loadOutsideOpening',
  'removeOutsideOpening',
  'listClasses',
  'saveClass',
  'removeClass',
  'exportBundle',
  'importBundle',
  'backupStore',
  'restoreStore',
  'jobProgress',
  'cancelJob',
  'openAttemptReport',
  'openPersonReport',
  'saveAttemptReport',
  'savePersonReport',
];

/** The one channel of the window's shell, and the one folder of addresses of the loopback shell. */
export const HOST_CHANNEL = 'rimward:host';
export const HOST_ADDRESS = '/host/';
/** Loopback shell only: where the page's script sends chosen files, and fetches those written for the person. */
export const UPLOAD_ADDRESS = '/upload/';
export const DOWNLOAD_ADDRESS = '/download/';
/** Sent with every loopback call: a foreign page cannot add it without being asked for permission first. */
export const HOST_HEADER = 'x-rimward-host';

/** Ending of the files that Rimward reads and writes; JSON inside, with a version field first. */
export const FILE_ENDING = 'rimward';

export type HostReply =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problems: readonly string[] };

declare global {
  interface Window {
    /** Absent only where the page is served by neither shell. */
    readonly rimwardHost?: RimwardHost;
  }
}
