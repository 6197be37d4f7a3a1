/**
 * What the page may ask of the store: people, attempts, classes, bundles, backups, reports. Plain data only. Calls reject with an
 * `Error` whose message is a line for the person; nothing is half done then. The page reads these types through contract.ts.
 */
import type {
  AttemptResult,
  Ended,
  GradedItem,
  HandCommand,
  OpeningMetrics,
  Scenario,
  WorkMetrics,
} from '../../physics/index.ts';

/** Told apart by shape and word as well, never by colour alone. */
export const PERSON_COLOURS = ['amber', 'teal', 'violet', 'rose', 'slate', 'olive'] as const;
export type PersonColour = (typeof PERSON_COLOURS)[number];

/** Somebody who works on this machine. A name and a colour, no password: not a security boundary. */
export interface Person {
  /** UUID. */
  readonly id: string;
  /** 1 to 80 characters. */
  readonly name: string;
  readonly colour: PersonColour;
}

export interface ClassGroup {
  readonly id: string;
  readonly name: string;
  readonly memberIds: readonly string[];
}

export type AttemptPlace = 'bench' | 'trial';

/** What is known of an attempt before its first command. */
export interface AttemptStart {
  readonly personId: string;
  readonly place: AttemptPlace;
  readonly scenario: Scenario;
  readonly seed: number;
  readonly modelVersion: string;
}

/** Whether the seal over what was stored still fits it, and whether playing it again gave the same opening. */
export type SealState = 'fits' | 'broken' | 'unsealed';
export type ReplayState = 'not-tried' | 'same' | 'different';

/** One line of the logbook. */
export interface AttemptSummary {
  /** UUID. */
  readonly id: string;
  readonly personId: string;
  readonly personName: string;
  readonly place: AttemptPlace;
  readonly scenarioId: string;
  readonly scenarioTitle: string;
  /** SHA-256 of the scenario as played, hexadecimal. */
  readonly scenarioDigest: string;
  readonly seed: number;
  readonly modelVersion: string;
  /** ISO 8601, UTC. */
  readonly startedAt: string;
  readonly endedAt: string | null;
  readonly steps: number;
  /** Null while unfinished. */
  readonly ended: Ended | null;
  readonly passed: boolean | null;
  readonly opening: OpeningMetrics | null;
  readonly work: WorkMetrics | null;
  readonly graded: readonly GradedItem[];
  /** Digest of the world at the end. */
  readonly digest: string | null;
  readonly seal: SealState;
  readonly replay: ReplayState;
  /** Name of the bundle it came in, null when made here. */
  readonly fromBundle: string | null;
}

/** An attempt with all that is needed to play it again. */
export interface StoredAttempt {
  readonly summary: AttemptSummary;
  readonly scenario: Scenario;
  /** One per world step, in order. */
  readonly commands: readonly HandCommand[];
  /** Null while unfinished. */
  readonly result: AttemptResult | null;
}

export interface AttemptFilter {
  readonly personId?: string;
  readonly classId?: string;
  readonly scenarioId?: string;
  readonly place?: AttemptPlace;
  readonly passed?: boolean;
  readonly fromBundle?: string;
  /** ISO 8601 dates, inclusive. */
  readonly since?: string;
  readonly until?: string;
  /** Newest first, at most this many; 5000 when left out. */
  readonly limit?: number;
}

/** Relaxed outline of a finished opening, thinned to at most 180 points, mm, eye frame. */
export interface OpeningShape {
  readonly attemptId: string;
  readonly outline_mm: readonly (readonly [number, number])[];
}

/** An opening from outside as it is kept when a person asks for it. */
export interface OutsideOpening {
  readonly rimwardOutside: 1;
  readonly name: string;
  /** ISO 8601. */
  readonly keptAt: string;
  /** About the reference centre, y upward, mm. */
  readonly outline_mm: readonly (readonly [number, number])[];
  readonly target_mm: number;
  readonly optic_mm: number;
  /** What was marked on its photograph, pixels and mm; null for an outline from a file. */
  readonly marks: {
    readonly ends_px: readonly (readonly [number, number])[];
    readonly known_mm: number;
    readonly margin_px: readonly (readonly [number, number])[];
    readonly centre_px: readonly [number, number] | null;
  } | null;
}

export interface KeptOutside {
  readonly id: string;
  readonly name: string;
  readonly keptAt: string;
  /** Null where no photograph was asked to be kept. */
  readonly photoBytes: number | null;
}

/** A long piece of work in the program; ask again for its progress. */
export interface Job {
  readonly id: string;
  /** Name of the file it reads or writes, without its folder. */
  readonly fileName: string;
}

export interface JobProgress {
  readonly done: number;
  readonly of: number;
  readonly state: 'running' | 'finished' | 'cancelled' | 'failed';
  /** Lines for the person: what was taken in, left out and why; or what went wrong. */
  readonly lines: readonly string[];
  /** After an import: ids of up to three of the attempts taken in, to be played again and noted with `noteReplay`. */
  readonly toReplay?: readonly string[];
}

export interface StoreHost {
  listPeople(): Promise<readonly Person[]>;
  /** Adds or changes by id. */
  savePerson(person: Person): Promise<void>;
  /** Refused while the person has attempts. */
  removePerson(id: string): Promise<void>;

  /** Opens an attempt in the store. Gives its id. */
  beginAttempt(start: AttemptStart): Promise<string>;
  /**
   * Adds commands as they happen; `fromStep` is the number of commands before these. What is already there is left alone, a gap
   * is refused. When it has answered, the commands survive a killed process and a power cut.
   */
  appendCommands(id: string, fromStep: number, commands: readonly HandCommand[]): Promise<void>;
  /** Closes and seals it. */
  finishAttempt(id: string, result: AttemptResult): Promise<AttemptSummary>;
  /** Removes an attempt for good. */
  removeAttempt(id: string): Promise<void>;
  /** Attempts that were begun and never finished, newest first: after a crash these are offered as they stand. */
  unfinishedAttempts(): Promise<readonly AttemptSummary[]>;
  listAttempts(filter: AttemptFilter): Promise<readonly AttemptSummary[]>;
  /** Checks the seal on the way. */
  loadAttempt(id: string): Promise<StoredAttempt>;
  /** Notes what playing it again gave. */
  noteReplay(id: string, digest: string): Promise<ReplayState>;
  /** Outlines to be drawn; of more than 400 at once, every second corner. */
  openingShapes(filter: AttemptFilter): Promise<readonly OpeningShape[]>;

  /** Openings from outside that were kept on this machine, newest first. Never part of a bundle or a backup. */
  listOutsideOpenings(): Promise<readonly KeptOutside[]>;
  /** Keeps one; its photograph too when given (JPEG, PNG or WebP in base64, at most 12 MB). Gives its id. */
  keepOutsideOpening(opening: OutsideOpening, photo: string | null): Promise<string>;
  loadOutsideOpening(id: string): Promise<{ readonly opening: OutsideOpening; readonly photo: string | null }>;
  removeOutsideOpening(id: string): Promise<void>;

  listClasses(): Promise<readonly ClassGroup[]>;
  saveClass(group: ClassGroup): Promise<void>;
  removeClass(id: string): Promise<void>;

  /** Asks where to put a bundle of these attempts and writes it. Null when the person changed their mind. */
  exportBundle(suggestedName: string, attemptIds: readonly string[]): Promise<Job | null>;
  /** Asks for a bundle and takes it in. Null when the person chose none. */
  importBundle(): Promise<Job | null>;
  /** The whole store as one file, and back. Restoring sets the present store aside first. */
  backupStore(suggestedName: string): Promise<Job | null>;
  restoreStore(): Promise<Job | null>;
  jobProgress(jobId: string): Promise<JobProgress>;
  cancelJob(jobId: string): Promise<void>;

  /** Opens a page to print: one attempt, or one person in one scenario. */
  openAttemptReport(attemptId: string): Promise<void>;
  openPersonReport(personId: string, scenarioId: string): Promise<void>;
  /** The same as a PDF file. Null when the person changed their mind; refused where this shell cannot make one. */
  saveAttemptReport(attemptId: string): Promise<string | null>;
  savePersonReport(personId: string, scenarioId: string): Promise<string | null>;
}
