import type { Locator, Page } from '@playwright/test';

export type Point = readonly [number, number];

/** What can be seen on the stage, in pixels of the page; null where there is nothing. */
export interface StageReading {
  readonly phase: string;
  readonly ended: string;
  readonly gripping: boolean;
  readonly step: number;
  readonly pxPerMm: number;
  readonly centre: Point;
  readonly instrument: Point;
  readonly asked: Point;
  readonly tip: Point | null;
  readonly flap: Point | null;
  /** Driving force over tear resistance at the tip. */
  readonly ratio: number;
  /** Length torn so far, as it is shown, mm; not a number where it is not shown. */
  readonly torn_mm: number;
}

export const stageOf = (page: Page): Locator => page.getByTestId('stage');

function point(text: string | undefined): Point | null {
  if (text === undefined || text === '') return null;
  const [x, y] = text.split(',').map(Number);
  return [x ?? Number.NaN, y ?? Number.NaN];
}

/** Runs in the page. */
function marks(): Record<string, string> | null {
  const found = document.querySelector<HTMLElement>('[data-testid=stage]');
  return found?.dataset.step === undefined
    ? null
    : ({
        ...found.dataset,
        torn: document.querySelector('[data-testid=torn]')?.textContent ?? '',
      } as Record<string, string>);
}

/** Reads the stage as it was last drawn; waits until it has been drawn once. */
export async function readStage(page: Page): Promise<StageReading> {
  // a plain look first: waiting costs frames, and a hand needs its eyes often; a page that is still on its way has none
  const seen = await page.evaluate(marks).catch(() => null);
  const data = seen ?? (await (await page.waitForFunction(marks)).jsonValue()) ?? {};
  return {
    phase: data.phase ?? '',
    ended: data.ended ?? '',
    gripping: data.gripping === 'true',
    step: Number(data.step),
    pxPerMm: Number(data.pxPerMm),
    centre: point(data.centrePx) ?? [Number.NaN, Number.NaN],
    instrument: point(data.instrumentPx) ?? [Number.NaN, Number.NaN],
    asked: point(data.askedPx) ?? [Number.NaN, Number.NaN],
    tip: point(data.tipPx),
    flap: point(data.flapPx),
    ratio: Number(data.tipRatio),
    torn_mm: Number.parseFloat(data.torn ?? ''),
  };
}
