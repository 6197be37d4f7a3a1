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

/** Every end-to-end test of a suite with its title; the same test once for each carrier of the page. */
function endToEnd(suite) {
  const here = (suite.specs ?? []).flatMap(({ title, tests }) => tests.map((test) => ({ ...test, title })));
  return [...here, ...(suite.suites ?? []).flatMap(endToEnd)];
}

const carriedBy = ({ projectName, title }) => (projectName === 'browser' ? title : `[${projectName}] ${title}`);

/** Title of a skipped test with its reason. */
function whySkipped(test) {
  const why = test.annotations.find(({ type }) => type === 'skip')?.description;
  return why === undefined ? carriedBy(test) : `${carriedBy(test)} (${why})`;
}

/** How many tests each carrier of the page passed, and why Electron carried none where it did not. */
function carriers({ config }, tests) {
  const passed = new Map();
  for (const { status, projectName } of tests) {
    if (status === 'expected' || status === 'flaky') passed.set(projectName, (passed.get(projectName) ?? 0) + 1);
  }
  const counts = [...passed].map(([name, count]) => `${count} carried by ${name}`);
  return [...counts, ...(config.metadata.withoutElectron ?? [])].join(', ');
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
  const tests = json.suites.flatMap(endToEnd);
  const skipped = tests.filter(({ status }) => status === 'skipped').map(whySkipped);
  const again = flaky > 0 ? `, ${flaky} only on the second try` : '';
  const line = `${expected} passed${again}, ${unexpected} failed, ${skipped.length} skipped (${browser}; ${carriers(json, tests)})`;
  const secondTry = tests.filter((test) => test.status === 'flaky').map(carriedBy);
  return { name: 'Browser tests', ok: status === 0, line, skipped, again: secondTry };
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
