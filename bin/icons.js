#!/usr/bin/env node
/**
 * Draws the program's icons from the page's own mark, for every system's packages, into build/. Run it when the mark has
 * changed and keep what it made with the sources: packing needs no browser then. A browser draws; png2icons binds.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright';
import png2icons from 'png2icons';
import { findBrowser } from './find-browser.js';
import { root } from './sources.js';

const MARK = 'src-renderer/app/icon.svg';
/** The sizes that Linux desktops ask for; the largest is what the other two formats are made of. */
const SIZES = [16, 24, 32, 48, 64, 128, 256, 512, 1024];

const svg = readFileSync(join(root, MARK), 'utf8');
const folder = join(root, 'build');
mkdirSync(join(folder, 'icons'), { recursive: true });

const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: ['--no-sandbox'] });
let largest = Buffer.alloc(0);
try {
  for (const size of SIZES) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    await page.setContent(`<style>*{margin:0}svg{display:block;width:100vw;height:100vh}</style>${svg}`);
    largest = await page.screenshot({ omitBackground: true });
    writeFileSync(join(folder, 'icons', `${size}x${size}.png`), largest);
    await page.close();
  }
} finally {
  await browser.close();
}
const ico = png2icons.createICO(largest, png2icons.BICUBIC2, 0, true, true);
const icns = png2icons.createICNS(largest, png2icons.BICUBIC2, 0);
if (ico === null || icns === null) throw new Error('the icons could not be bound');
writeFileSync(join(folder, 'icon.ico'), ico);
writeFileSync(join(folder, 'icon.icns'), icns);
writeFileSync(join(folder, 'icon-source.sha256'), `${createHash('sha256').update(svg).digest('hex')}  ${MARK}\n`);
console.log(`drew ${SIZES.length} sizes, icon.ico and icon.icns from ${MARK}`);
