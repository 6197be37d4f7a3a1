import { createHash } from 'node:crypto';
import { type CostlyMoment, courseLimitsOf } from '../../physics/index.ts';
import { type Language, languageOf } from '../../src-renderer/i18n/languages.ts';
import { PAGE_HEADERS } from '../files/page-headers.ts';
import { Refusal } from '../ipc/answer.ts';
import type { Preferences, ReplayState, StoredAttempt } from '../ipc/contract.ts';
import { attemptReportHtml } from '../report/attempt-report.ts';
import { escaped } from '../report/html.ts';
import { personReportData } from '../report/person-data.ts';
import { personReportHtml } from '../report/person-report.ts';
import { PRESENT_MODEL, playAgain } from '../report/play-again.ts';
import { inLanguage, t } from '../words/words.ts';
import { loadAttempt, noteReplay } from './attempts.ts';
import type { Store } from './store.ts';

/** Addresses under which both shells show reports. */
export const REPORT_ADDRESS = '/report/';
const UUID = '[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}';
const ATTEMPT = new RegExp(`^${REPORT_ADDRESS}attempt/(${UUID})$`);
const PERSON = new RegExp(`^${REPORT_ADDRESS}person/(${UUID})/([a-z0-9-]{1,64})$`);
/** What playing again gave is kept for so many attempts; a few kB each. */
const MOST_KEPT = 50;

export const attemptReportAddress = (id: string): string => `${REPORT_ADDRESS}attempt/${id}`;
export const personReportAddress = (personId: string, scenarioId: string): string =>
  `${REPORT_ADDRESS}person/${personId}/${scenarioId}`;

interface Played {
  readonly moments: readonly CostlyMoment[] | null;
  readonly replay?: ReplayState;
}

export interface Page {
  readonly status: number;
  readonly html: string;
}

function plainPage(status: number, language: Language, title: string, line: string, again: boolean): Page {
  const refresh = again ? '<meta http-equiv="refresh" content="1">' : '';
  const style =
    '<style>body { font: 12pt system-ui, sans-serif; margin: 20mm; color: #111; background: #fff; }</style>';
  const html = `<!doctype html><html lang="${language}"><head><meta charset="utf-8">${refresh}<title>${escaped(title)}</title>${style}</head><body><h1>${escaped(title)}</h1><p role="status">${escaped(line)}</p></body></html>`;
  return { status, html };
}

/** "es-MX,es;q=0.9,en;q=0.8" as "es-MX", "es", "en": browsers send them in their order. */
const wantedOf = (accepted: string | null): readonly string[] =>
  (accepted ?? '').split(',').map((part) => part.split(';')[0].trim());

/**
 * Headers of a report: as of every page, but nothing may run, and only the page's own style counts, by its digest. A font can only
 * come inside that style.
 */
export function reportHeaders(html: string): Readonly<Record<string, string>> {
  const styles = [...html.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, text]) => text);
  const digests = styles.map((text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`);
  const rules = [
    "default-src 'none'",
    `style-src ${digests.join(' ') || "'none'"}`,
    ...(styles.some((text) => text.includes('@font-face')) ? ['font-src data:'] : []),
    "base-uri 'none'",
  ];
  return {
    ...PAGE_HEADERS,
    'content-security-policy': [...rules, "form-action 'none'", "frame-ancestors 'none'"].join('; '),
    'content-type': 'text/html; charset=utf-8',
  };
}

/** Reports as pages, made when they are asked for; an attempt is played again first, for its costliest moments. */
export class ReportPages {
  readonly #store: Store;
  readonly #preferences: () => Promise<Preferences>;
  readonly #played = new Map<string, Promise<Played>>();
  readonly #done = new Map<string, Played>();

  /** @param preferences of this machine, where the course's limits are kept */
  constructor(store: Store, preferences: () => Promise<Preferences>) {
    this.#store = store;
    this.#preferences = preferences;
  }

  /** Refuses an attempt that is not here or cannot be read, before anything is shown. */
  refuseUnknown(id: string): void {
    this.#load(id);
  }

  /** Settles when `page` gives the report itself. Takes as long as playing the attempt again. */
  async ready(id: string): Promise<void> {
    await this.#playedOf(this.#load(id));
  }

  /** Refuses a person who is not here, or has not played that scenario. */
  refuseUnknownPerson(personId: string, scenarioId: string): void {
    this.#store.use((database) => personReportData(database, personId, scenarioId));
  }

  /**
   * The page at an address, at once: the report, or a page that says it is being made and asks again. Null elsewhere.
   *
   * @param accepted what the browser asks for, as its header says it; the language that the person chose comes first
   */
  async page(path: string, accepted: string | null = null): Promise<Page | null> {
    const attempt = ATTEMPT.exec(path);
    const person = PERSON.exec(path);
    if (attempt === null && person === null) return null;
    const kept = await this.#preferences();
    const language = languageOf([kept['view.language'], ...wantedOf(accepted)]);
    try {
      if (attempt !== null) return this.#attemptPage(attempt[1], language);
      return person === null ? null : this.#personPage(person[1], person[2], kept, language);
    } catch (fault) {
      if (!(fault instanceof Refusal)) throw fault;
      const title = inLanguage(language, () => t('report.page.none'));
      return plainPage(404, language, title, fault.message, false);
    }
  }

  #attemptPage(id: string, language: Language): Page {
    const stored = this.#load(id);
    const played = this.#done.get(id);
    if (played !== undefined) return { status: 200, html: this.#html(stored, played, language) };
    void this.#playedOf(stored);
    return inLanguage(language, () =>
      plainPage(200, language, t('report.page.making'), t('report.page.makingWhy'), true),
    );
  }

  #personPage(personId: string, scenarioId: string, kept: Preferences, language: Language): Page {
    const data = this.#store.use((database) => personReportData(database, personId, scenarioId));
    const limits = courseLimitsOf(kept);
    return { status: 200, html: personReportHtml({ ...data, limits, language, printedAt: new Date().toISOString() }) };
  }

  #load(id: string): StoredAttempt {
    return this.#store.use((database) => loadAttempt(database, id));
  }

  #html(stored: StoredAttempt, { moments, replay }: Played, language: Language): string {
    return attemptReportHtml(stored, { moments, replay, language, printedAt: new Date().toISOString() });
  }

  #playedOf(stored: StoredAttempt): Promise<Played> {
    const { id } = stored.summary;
    let playing = this.#played.get(id);
    if (playing === undefined) {
      playing = this.#play(stored).then((played) => {
        this.#done.set(id, played);
        return played;
      });
      this.#played.set(id, playing);
      for (const old of [...this.#played.keys()].slice(0, -MOST_KEPT)) {
        this.#played.delete(old);
        this.#done.delete(old);
      }
    }
    return playing;
  }

  /** Without a result of this model there is nothing that could be the same. */
  async #play({ summary, scenario, commands, result }: StoredAttempt): Promise<Played> {
    if (result === null || summary.modelVersion !== PRESENT_MODEL) return { moments: null };
    try {
      const played = await playAgain({ scenario, seed: summary.seed, commands, hand: result.hand });
      const replay = this.#store.use((database) => noteReplay(database, summary.id, played.result.digest));
      return { moments: played.moments, replay };
    } catch (fault) {
      console.error('An attempt could not be played again for its report:', fault);
      return { moments: null };
    }
  }
}
