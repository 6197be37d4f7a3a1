import { describe, expect, it } from 'vitest';
import { createWorld, handPlayer, STEP_S, stepWorld, viewWorld } from '../../physics/index.ts';
import type { Board } from '../../src-renderer/places/lecture/boards/board.ts';
import {
  changeBetween,
  checkDraft,
  draftOf,
  linesAt,
  recordedTrack,
  takenFromStage,
} from '../../src-renderer/places/lecture/boards/board-draft.ts';
import {
  duplicated,
  exportName,
  exportText,
  freeId,
  keptText,
  missingBuiltIn,
  moved,
  neighbour,
  readBack,
  takenIn,
  visible,
  withHidden,
} from '../../src-renderer/places/lecture/boards/board-list.ts';
import { type BoardPlay, dueAct } from '../../src-renderer/places/lecture/boards/board-player.ts';
import { boardSetup, shippedScenario } from '../../src-renderer/places/lecture/boards/board-setup.ts';
import { builtInBoards } from '../../src-renderer/places/lecture/boards/built-in-boards.ts';
import { parseBoards } from '../../src-renderer/places/lecture/boards/parse-boards.ts';
import type { SeriesPoint } from '../../src-renderer/places/lecture/contract.ts';

const { boards: builtIn } = builtInBoards();
const ids = (boards: readonly Board[]) => boards.map(({ id }) => id);
const [first, second, third] = ids(builtIn);
const own: Board = { ...builtIn[0]!, id: 'own', title: 'My own', text: 'Mine.' };

describe('the list of boards', () => {
  it('is put in another order, at its ends too', () => {
    expect(ids(moved(builtIn, third!, 0)).slice(0, 3)).toEqual([third, first, second]);
    expect(ids(moved(builtIn, first!, 99)).at(-1)).toBe(first);
    expect(moved(builtIn, 'none', 0)).toBe(builtIn);
  });

  it('leaves hidden boards out on the way from one to the next', () => {
    const list = withHidden(builtIn, second!, true);
    expect(ids(visible(list))).not.toContain(second);
    expect(neighbour(list, first!, 1)?.id).toBe(third);
    expect(neighbour(list, third!, -1)?.id).toBe(first);
    expect(neighbour(list, first!, -1)?.id).toBe(first);
    expect(neighbour(list, second!, 1)?.id).toBe(first);
    expect(withHidden(list, second!, false)).toEqual(builtIn);
    expect(neighbour([], null, 1)).toBeNull();
  });

  it('gives a copy an id of its own, beside its original', () => {
    const made = duplicated(builtIn, first!)!;
    expect(ids(made.boards).slice(0, 2)).toEqual([first, made.id]);
    expect(new Set(ids(made.boards)).size).toBe(builtIn.length + 1);
    expect(freeId('a'.repeat(64), [{ ...own, id: 'a'.repeat(64) }]).length).toBeLessThanOrEqual(64);
  });

  it('takes a file in under free ids, and what is already here not again', () => {
    const taken = takenIn(builtIn, { rimwardBoards: 1, title: 'x', boards: [builtIn[1]!, { ...own, id: first! }] })!;
    expect(taken).toMatchObject({ added: 1, known: 1 });
    expect(ids(taken.boards).at(-1)).toBe(`${first}-2`);
    const many = Array.from({ length: 60 }, (_, at) => ({ ...own, text: `Number ${at}.` }));
    expect(takenIn(builtIn, { rimwardBoards: 1, title: 'x', boards: many })).toBeNull();
  });

  it('is written as one file that reads back the same, under a name a person would know', () => {
    const text = exportText([own, ...builtIn], 'Why?', () => true, shippedScenario);
    const read = parseBoards(text, 'x');
    expect(read.ok && read.value.boards).toEqual([own, ...builtIn]);
    expect(exportName('Why outward: 2!')).toBe('why-outward-2.rimward-boards.json');
    expect(exportName('???')).toBe('boards.rimward-boards.json');
  });

  it('writes out a scenario that does not ship, so that the file runs elsewhere', () => {
    const scenario = { ...shippedScenario('two-years')!, id: 'made-here' };
    const board = { ...own, scenario: 'made-here', hand: 'live' };
    const read = parseBoards(
      exportText(
        [board],
        'x',
        () => false,
        () => scenario,
      ),
      'x',
    );
    expect(read.ok && read.value.boards[0]?.scenario).toEqual(scenario);
  });
});

describe('boards kept on this machine', () => {
  it('come back in their order, hidden ones hidden, built-in ones by name', () => {
    const list = withHidden(moved([...builtIn, own], 'own', 1), third!, true);
    const text = keptText(list, builtIn, []);
    expect(text).not.toContain(builtIn[1]!.text.slice(0, 20));
    expect(readBack(text, builtIn, shippedScenario)).toEqual({ boards: list, unread: [], problems: [] });
  });

  it('keep a changed built-in board as it was changed, and offer the original again when it was deleted', () => {
    const changed = { ...builtIn[0]!, title: 'In my words' };
    const list = [changed, ...builtIn.slice(2)];
    expect(readBack(keptText(list, builtIn, []), builtIn, shippedScenario).boards[0]).toEqual(changed);
    expect(ids(missingBuiltIn(list, builtIn))).toEqual([second]);
  });

  it('neither show nor lose what cannot be read any more', () => {
    const bad = { ...own, text: '<script>alert(1)</script>' };
    const { boards, unread, problems } = readBack(keptText([bad, builtIn[1]!], builtIn, []), builtIn, shippedScenario);
    expect(ids(boards)).toEqual([second]);
    expect(unread).toEqual([bad]);
    expect(problems.length).toBeGreaterThan(0);
    const next = readBack(keptText(boards, builtIn, unread), builtIn, shippedScenario);
    expect(next.unread).toEqual([bad]);
  });

  it.each(['', '{', '[]', 'null', '{"rimwardBoardList": 2}'])('of the text %s are the built-in ones', (text) => {
    const { boards, problems } = readBack(text, builtIn, shippedScenario);
    expect(boards).toEqual(builtIn);
    expect(problems.length).toBe(1);
  });
});

describe('the editor', () => {
  it('gives back every built-in board as it was', () => {
    for (const board of builtIn) expect(checkDraft(draftOf(board), shippedScenario)).toEqual({ board, problems: [] });
  });

  it('tells at its field what is wrong, and takes a comma for a point', () => {
    const draft = draftOf(builtIn[1]!);
    const sideways = { ...draft, speed: 'fast', left: { ...draft.left, age_years: '400' }, text: '<b>x</b>' };
    const { board, problems } = checkDraft(sideways, shippedScenario);
    expect(board).toBeNull();
    expect(linesAt(problems, 'speed')[0]).toContain('"fast"');
    expect(linesAt(problems, 'left.change.age_years')[0]).toContain('at most 95');
    expect(linesAt(problems, 'text')[0]).toContain('HTML');
    expect(linesAt(problems, 'title')).toEqual([]);
    expect(checkDraft({ ...draft, speed: '0,5' }, shippedScenario).board?.speed).toBe(0.5);
  });

  it('takes the pair, the aids and the view from the stage', () => {
    const board = builtIn[4]!;
    const setup = boardSetup(builtIn[5]!, shippedScenario, 'x', '');
    if (!setup.ok) throw new Error('the built-in board does not run');
    const stage = { setup: setup.value, commands: [], aids: own.aids, camera: { magnification: 2 } };
    const taken = checkDraft(takenFromStage(draftOf(board), stage, shippedScenario)!, shippedScenario).board!;
    const again = boardSetup(taken, shippedScenario, 'x', '');
    expect(again).toEqual(setup);
    expect(taken.aids).toEqual(own.aids);
    expect(taken.camera.magnification).toBe(2);
    const far = { ...setup.value.right!.scenario, seed: 99 };
    const other = { ...stage, setup: { ...setup.value, right: { label: 'x', scenario: far } } };
    expect(takenFromStage(draftOf(board), other, shippedScenario)).toBeNull();
    expect(changeBetween(shippedScenario('two-years')!, shippedScenario('six-years')!)).toBeNull();
  });

  it('keeps a live hand as it moved: the track asks for the same places', () => {
    const scenario = shippedScenario('infant-thick-fluid')!;
    const commands = [0, 1, 2, 3, 4].map((k) => ({
      x_mm: 0.1 * k,
      y_mm: 1 - 0.2 * k,
      lift_mm: 1,
      jaws: k % 2,
      instrument: k < 3 ? ('forceps' as const) : ('needle' as const),
      incision: 0,
    }));
    const world = createWorld(scenario, 1);
    const next = handPlayer(world, recordedTrack(commands));
    for (const command of commands) {
      expect(next(viewWorld(world))).toEqual(command);
      stepWorld(world, command);
    }
  });
});

describe('a running board', () => {
  const point = (step: number, arcTorn_deg: number): SeriesPoint => ({
    step,
    time_s: step * STEP_S,
    arcTorn_deg,
    tipRadius_mm: 2,
    drivingRatio: 1,
    headingError_deg: 0,
    gripForce_mN: 0,
    netPressure_mmHg: 0,
  });
  const series = (...arcs: number[]) => ({ series: arcs.map((arc, step) => point(step, arc)) });
  const board: Board = {
    ...own,
    stopAt_s: 1,
    loop_s: [0.5, 2],
    question: { ask: '?', answers: ['a', 'b'], reveal: 'c', holdAt: { torn_deg: 20 } },
  };
  const play: BoardPlay = {
    board,
    setup: null,
    asking: 'waiting',
    counts: [],
    stopped: false,
    looping: false,
    problems: [],
  };
  const at = (step: number, left = series(0), right: ReturnType<typeof series> | null = null, lastStep = step) => ({
    step,
    lastStep,
    left,
    right,
  });

  it('asks once so much is torn in either eye at the moment that is shown, and not for what is only computed', () => {
    expect(dueAct(board, play, at(1, series(0, 19, 40)))).toBeNull();
    expect(dueAct(board, play, at(2, series(0, 19, 20)))).toBe('ask');
    expect(dueAct(board, play, at(2, series(0, 1, 2), series(0, 10, 25)))).toBe('ask');
    expect(dueAct(board, { ...play, asking: 'asked' }, at(2, series(0, 19, 20)))).toBeNull();
  });

  it('stops once where it says, and repeats once the span is computed', () => {
    expect(dueAct(board, play, at(59))).toBeNull();
    expect(dueAct(board, play, at(60))).toBe('stop');
    expect(dueAct(board, { ...play, stopped: true }, at(60))).toBeNull();
    expect(dueAct(board, { ...play, stopped: true }, at(60, series(0), null, 120))).toBe('loop');
    expect(dueAct(board, { ...play, stopped: true, looping: true }, at(60, series(0), null, 120))).toBeNull();
  });
});
