import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Scenario } from '../../physics/index.ts';
import adult from '../../scenarios/adult-baseline.json' with { type: 'json' };
import { answerCall } from '../../src-main/ipc/answer.ts';
import { ownScenarios } from '../../src-main/store/own-scenarios.ts';

const { $schema: _, ...shipped } = adult;
const scenario = (id: string, title = 'Mine'): Scenario => ({ ...shipped, id, title }) as unknown as Scenario;

describe('scenarios made on this machine', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'own-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('come back after a restart as they were saved, the later save of one id over the earlier', async () => {
    const first = ownScenarios(folder);
    await Promise.all([
      first.saveOwnScenario(scenario('b')),
      first.saveOwnScenario(scenario('a', 'Old')),
      first.saveOwnScenario(scenario('a', 'New')),
    ]);
    const again = await ownScenarios(folder).listOwnScenarios();
    expect(again).toEqual([scenario('a', 'New'), scenario('b')]);
    await first.removeOwnScenario('a');
    await first.removeOwnScenario('never-there');
    expect(await first.listOwnScenarios()).toEqual([scenario('b')]);
  });

  it('are none in a fresh folder, and what is no JSON is neither listed nor touched', async () => {
    const kept = ownScenarios(folder);
    expect(await kept.listOwnScenarios()).toEqual([]);
    mkdirSync(join(folder, 'scenarios'));
    writeFileSync(join(folder, 'scenarios', 'scenario-torn.json'), '{"rimwardScenario": 1, "id": "to');
    writeFileSync(join(folder, 'scenarios', 'notes.txt'), 'mine');
    expect(await kept.listOwnScenarios()).toEqual([]);
    expect(readdirSync(join(folder, 'scenarios')).sort()).toEqual(['notes.txt', 'scenario-torn.json']);
  });

  it('keep the editor’s drafts as the text they are, and drop them with an empty one', async () => {
    const kept = ownScenarios(folder);
    expect(await kept.loadEyeDrafts()).toBeNull();
    await kept.saveEyeDrafts('{"drafts":[]}');
    expect(await ownScenarios(folder).loadEyeDrafts()).toBe('{"drafts":[]}');
    await kept.saveEyeDrafts('');
    expect(await kept.loadEyeDrafts()).toBeNull();
  });

  it.each([
    ['saveOwnScenario', [{ rimwardScenario: 1, id: '../../outside' }]],
    ['saveOwnScenario', [{ rimwardScenario: 2, id: 'fine' }]],
    ['removeOwnScenario', ['../x']],
    ['saveEyeDrafts', ['x'.repeat(2_000_001)]],
  ])('%s refuses what does not fit and writes nothing', async (method, args) => {
    const reply = await answerCall(ownScenarios(folder), method, args);
    expect(reply.ok).toBe(false);
    expect(readdirSync(folder)).toEqual([]);
  });
});
