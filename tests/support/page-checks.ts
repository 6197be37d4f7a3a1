/** What is asked of a page that is shown, whatever the place. */
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';
import { carrierNow } from './carried.ts';

export const PLACES = ['bench', 'lecture', 'trial', 'logbook', 'eyes'] as const;
export type Place = (typeof PLACES)[number];

/** What stands on a place once it is ready to be looked at. */
const READY: Readonly<Record<Place, string>> = {
  bench: 'stage',
  lecture: 'board',
  trial: 'start-trial',
  logbook: 'logbook',
  eyes: 'eyes',
};

export async function goTo(page: Page, place: Place): Promise<void> {
  await page.getByTestId(`place-${place}`).click();
  await expect(page.getByTestId(READY[place]).first()).toBeVisible({ timeout: 30_000 });
}

/** Rules of WCAG 2.2 AA that a machine can judge; a line for each element that breaks one. */
export async function accessibilityFaults(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page })
    // The other way opens a page of its own, and Electron opens none but its windows.
    .setLegacyMode(carrierNow() === 'electron')
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, html }) => `${id}: ${target.join(' ')} ${html.slice(0, 140)}`),
  );
}

/** Whether anything of the page lies beside the window, px. */
export const sidewaysOverflow_px = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/**
 * Controls that cannot be used as they are shown: cut off, outside the window though scrolled to, or under something else.
 * A line for each.
 */
export const unreachable = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const within = document.querySelector('dialog[open]') ?? document.body;
    const controls = [...within.querySelectorAll<HTMLElement>('button, a[href], select, input, textarea, summary')];
    return controls.flatMap((control) => {
      if (!control.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true })) return [];
      const name = `${control.tagName} ${control.dataset.testid ?? ''} “${(control.textContent ?? '').trim().slice(0, 40)}”`;
      control.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      const box = control.getBoundingClientRect();
      if (box.width < 2 || box.height < 2) return [];
      const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
      if (x < 0 || y < 0 || x > innerWidth || y > innerHeight) return [`outside the window: ${name}`];
      const there = document.elementFromPoint(x, y);
      const itself =
        there !== null &&
        (control.contains(there) || there.contains(control) || there.closest('label')?.contains(control) === true);
      if (!itself) return [`under ${there?.tagName} ${there?.className}: ${name}`];
      const cut = control.matches('button, a, summary') && control.scrollWidth > control.clientWidth + 2;
      return cut ? [`its words are cut off: ${name}`] : [];
    });
  });

/** Names of messages that show instead of their words, anywhere on the page. */
export const bareKeys = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const read = [document.body.textContent ?? ''];
    for (const element of document.querySelectorAll('*')) {
      for (const name of ['title', 'aria-label', 'placeholder', 'alt']) read.push(element.getAttribute(name) ?? '');
    }
    const key =
      /\b(?:bench|common|content|eyes|hands|lecture|logbook|numbers|trial)\.[a-z]\w*(?:\.\w+)*|\{\{\w+\}\}|\$t\(/g;
    return read.flatMap((text) => text.match(key) ?? []);
  });
