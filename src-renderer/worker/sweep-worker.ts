import { eyeAt, lineDiameterFor_mm, SWEEP_MEASURES, sweepCell, uncutTension_mN_per_mm } from '../../physics/index.ts';
import type { FromSweep, SweepAsked } from './sweep-messages.ts';

interface WorkerScope {
  postMessage(message: FromSweep): void;
  addEventListener(kind: 'message', heard: (event: MessageEvent<SweepAsked>) => void): void;
}
const scope = globalThis as unknown as WorkerScope;

const OPTIONS = { preset: 'uniaxial', dyed: false } as const;

function valueAt({ measure, age_years, netPressure_mmHg, opening_mm }: SweepAsked): number | null {
  if (measure === 'line' && opening_mm !== null) {
    const eye = eyeAt(age_years, { stiffnessPreset: OPTIONS.preset, dyed: OPTIONS.dyed, overrides: {} });
    return lineDiameterFor_mm(eye, opening_mm, uncutTension_mN_per_mm(eye, netPressure_mmHg));
  }
  const value = sweepCell({ measure, age_years, netPressure_mmHg, options: OPTIONS })[SWEEP_MEASURES[measure].value];
  return value ?? null;
}

/** Computes points of a chart on a core of its own, one after the other as they are asked for. */
scope.addEventListener('message', ({ data }) => {
  try {
    const value = valueAt(data);
    if (value !== null && !Number.isFinite(value)) throw new Error('the model gave no finite number');
    scope.postMessage({ index: data.index, value });
  } catch (fault) {
    scope.postMessage({ index: data.index, fault: fault instanceof Error ? fault.message : String(fault) });
  }
});
