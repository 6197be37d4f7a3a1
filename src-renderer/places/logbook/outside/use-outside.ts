import { useEffect, useMemo, useRef, useState } from 'react';
import { parseOutline, type Result, type Vec2 } from '../../../../physics/index.ts';
import { faultText } from '../../../i18n/content.ts';
import { useLanguage } from '../../../i18n/text.ts';
import { problemWords } from '../../../ui/problem-words.ts';
import { type EditHistory, edited, freshHistory, redone, settled, undone } from '../../eyes/edit-history.ts';
import { readKept } from './keep-outside.ts';
import {
  type MeasuredOutside,
  measureFile,
  measurePhoto,
  type OutsideTarget,
  USUAL_TARGET,
} from './measure-outside.ts';
import { closePhoto, openPhoto, type Photo } from './open-photo.ts';
import { noMarks, type PhotoMarks } from './photo-marks.ts';

export type Source =
  | { readonly kind: 'none' }
  | { readonly kind: 'file'; readonly name: string; readonly points: readonly Vec2[] }
  | { readonly kind: 'photo'; readonly photo: Photo };

/** What a click on the photograph sets. */
export type Tool = 'length' | 'margin' | 'centre';

export interface Outside {
  readonly source: Source;
  readonly marks: PhotoMarks;
  readonly tool: Tool;
  readonly target: OutsideTarget;
  /** Null before there is anything to measure. */
  readonly measured: Result<MeasuredOutside> | null;
  /** Why the last file could not be opened. */
  readonly complaints: readonly string[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  openOutline(): Promise<void>;
  takePhoto(file: File): Promise<void>;
  setTool(tool: Tool): void;
  setTarget(target: OutsideTarget): void;
  mark(next: PhotoMarks, field: string): void;
  settle(): void;
  undo(): void;
  redo(): void;
  saveOutline(text: string): Promise<void>;
  /** Shows an opening that was kept, on its photograph where that was kept too. */
  openKept(id: string): Promise<void>;
}

const said = (fault: unknown): string => faultText(fault);

/** State of the place where an outline from elsewhere is brought in. A file that has problems changes nothing else. */
export function useOutside(): Outside {
  const [source, setSource] = useState<Source>({ kind: 'none' });
  const [history, setHistory] = useState<EditHistory<PhotoMarks>>(freshHistory(noMarks));
  const [tool, setTool] = useState<Tool>('length');
  const [target, setTarget] = useState(USUAL_TARGET);
  const [complaints, setComplaints] = useState<readonly string[]>([]);
  useGivenBack(source);

  // the problems are words
  const language = useLanguage((state) => state.language);
  const measured = useMemo(() => {
    if (source.kind === 'file') return measureFile(source.points, target, source.name);
    return source.kind === 'photo' ? measurePhoto(history.now, target) : null;
  }, [source, history.now, target, language]);

  const openOutline = async () => {
    try {
      const file = await window.rimwardHost?.openTextFile();
      if (file === null || file === undefined) return;
      const points = parseOutline(file.text, file.name);
      setComplaints(points.ok ? [] : points.problems.map(problemWords));
      if (points.ok) setSource({ kind: 'file', name: file.name, points: points.value });
    } catch (fault) {
      setComplaints([said(fault)]);
    }
  };
  const takePhoto = async (file: File) => {
    try {
      const photo = await openPhoto(file);
      setComplaints([]);
      setHistory(freshHistory(noMarks));
      setTool('length');
      setSource({ kind: 'photo', photo });
    } catch (fault) {
      setComplaints([said(fault)]);
    }
  };
  const saveOutline = async (text: string) => {
    try {
      await window.rimwardHost?.saveTextFile('outline.csv', text);
    } catch (fault) {
      setComplaints([said(fault)]);
    }
  };
  const openKept = async (id: string) => {
    try {
      const { opening, photo } = await readKept(id);
      setComplaints([]);
      setTarget({ ...USUAL_TARGET, target_mm: opening.target_mm, optic_mm: opening.optic_mm });
      setHistory(freshHistory(opening.marks ?? noMarks));
      setTool('margin');
      const shown = photo !== null && opening.marks !== null;
      setSource(shown ? { kind: 'photo', photo } : { kind: 'file', name: opening.name, points: opening.outline_mm });
    } catch (fault) {
      setComplaints([said(fault)]);
    }
  };
  return {
    source,
    marks: history.now,
    tool,
    target,
    measured,
    complaints,
    canUndo: source.kind === 'photo' && history.past.length > 0,
    canRedo: source.kind === 'photo' && history.future.length > 0,
    openOutline,
    takePhoto,
    saveOutline,
    openKept,
    setTool,
    setTarget,
    mark: (next, field) => setHistory((now) => edited(now, next, field)),
    settle: () => setHistory(settled),
    undo: () => setHistory(undone),
    redo: () => setHistory(redone),
  };
}

/** Gives a picture's memory back when another takes its place or the place is left. */
function useGivenBack(source: Source): void {
  const held = useRef<Photo | null>(null);
  const photo = source.kind === 'photo' ? source.photo : null;
  useEffect(() => {
    if (held.current !== photo) closePhoto(held.current);
    held.current = photo;
  }, [photo]);
  useEffect(
    () => () => {
      closePhoto(held.current);
      held.current = null;
    },
    [],
  );
}
