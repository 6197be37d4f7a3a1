#!/usr/bin/env node
/**
 * The whole test run: unit, verification and architecture tests in Node, then the tests in a browser, which is installed
 * if there is none. The last lines count what passed, failed and was skipped. `--only e2e` or `--only unit` runs a part;
 * what follows `--` goes to that part's runner.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildStale } from './build.js';
import { findOrInstallBrowser } from './find-browser.js';
import { root } from './sources.js';

const args = process.argv.slice(2);
const only = args.includes('--only') ? args[args.indexOf('--only') + 1] : null;
const passedOn = args.filter((arg, at) => arg !== '--only' && args[at - 1] !== '--only' && arg !== '--');
// Two runs at a time must not clear each other's reports.
const folder = mkdtempSync(join(tmpdir(), 'rimward-tests-'));
const traces = `run-${process.pid}`;

const run = (tool, rest, env = {}) =>
  spawnSync(process.execPath, [join(root, 'node_modules', tool), ...rest], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  }).status;

const report = (name) => (existsSync(name) ? JSON.parse(readFileSync(name, 'utf8')) : null);

/** Titles of skipped tests; a skipped test gives its reason there. */
function skippedInNode(json) {
  const tests = json.testResults.flatMap((file) => file.assertionResults);
  return tests.filter((test) => ['skipped', 'pending', 'todo'].includes(test.status)).map((test) => test.fullName);
}

/** Titles of browser tests that passed only when tried again. */
function onSecondTry(suite) {
  const here = (suite.specs ?? []).filter((spec) => spec.tests.some((test) => test.status === 'flaky'));
  return [...here.map((spec) => spec.title), ...(suite.suites ?? []).flatMap(onSecondTry)];
}

function skippedInBrowser(suite) {
  const here = (suite.specs ?? []).filter((spec) => spec.tests.some((test) => test.status === 'skipped'));
  const reasons = here.map((spec) => {
    const why = spec.tests.flatMap((test) => test.annotations).find((note) => note.type === 'skip')?.description;
    return why === undefined ? spec.title : `${spec.title} (${why})`;
  });
  return [...reasons, ...(suite.suites ?? []).flatMap(skippedInBrowser)];
}

function runNodeTests() {
  const file = join(folder, 'node.json');
  const status = run('vitest/vitest.mjs', [
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
    ...passedOn,
  ]);
  const json = report(file);
  if (json === null) return { name: 'Node tests', ok: false, line: 'gave no report', skipped: [] };
  const skipped = skippedInNode(json);
  const line = `${json.numPassedTests} passed, ${json.numFailedTests} failed, ${skipped.length} skipped`;
  return { name: 'Node tests', ok: status === 0, line, skipped };
}

function runBrowserTests() {
  const browser = findOrInstallBrowser();
  if (browser === null) {
    const line =
      'NOT RUN: no Chrome, Chromium or Edge here and none could be installed. Install one, or set RIMWARD_BROWSER to its path';
    return { name: 'Browser tests', ok: false, line, skipped: [] };
  }
  const file = join(folder, 'browser.json');
  const env = { RIMWARD_BROWSER: browser, PLAYWRIGHT_JSON_OUTPUT_NAME: file, RIMWARD_TEST_TRACES: traces };
  const status = run('@playwright/test/cli.js', ['test', '--reporter=list,json', ...passedOn], env);
  const json = report(file);
  if (json === null) return { name: 'Browser tests', ok: false, line: 'gave no report', skipped: [] };
  const { expected, unexpected, flaky } = json.stats;
  const skipped = json.suites.flatMap(skippedInBrowser);
  const again = flaky > 0 ? `, ${flaky} only on the second try` : '';
  const line = `${expected} passed${again}, ${unexpected} failed, ${skipped.length} skipped (${browser})`;
  return { name: 'Browser tests', ok: status === 0, line, skipped, again: json.suites.flatMap(onSecondTry) };
}

const failures = await buildStale({ log: console.error });
const parts = [];
if (only !== 'e2e') parts.push(runNodeTests());
if (only !== 'unit') parts.push(runBrowserTests());

console.log('');
for (const { name, line, ok, skipped, again = [] } of parts) {
  console.log(`${ok ? 'pass' : 'FAIL'}  ${name}: ${line}`);
  for (const title of skipped) console.log(`      skipped: ${title}`);
  for (const title of again) console.log(`      passed only on the second try: ${title}`);
}
for (const line of failures) console.log(`FAIL  Build: ${line}`);
rmSync(folder, { recursive: true, force: true });
if (parts.every((part) => part.ok)) rmSync(join(root, 'test-results', traces), { recursive: true, force: true });
process.exitCode = failures.length === 0 && parts.every((part) => part.ok) ? 0 : 1;
