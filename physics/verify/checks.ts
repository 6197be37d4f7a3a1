/** Every check there is. */
import { attemptChecks } from './attempt-checks.ts';
import { capsuleChecks } from './capsule-checks.ts';
import type { Check } from './check.ts';
import { convergenceChecks } from './convergence-checks.ts';
import { courseChecks } from './course-checks.ts';
import { directionChecks } from './direction-checks.ts';
import { edgeGripChecks } from './edge-grip-checks.ts';
import { facePullChecks } from './face-pull-checks.ts';
import { fieldChecks } from './field-checks.ts';
import { flapChecks } from './flap-checks.ts';
import { flatFlapChecks } from './flat-flap-checks.ts';
import { foldDirectionChecks } from './fold-direction-checks.ts';
import { holeChecks } from './hole-checks.ts';
import { materialChecks } from './material-checks.ts';
import { pathChecks } from './path-checks.ts';
import { populationChecks } from './population-checks.ts';
import { slitChecks } from './slit-checks.ts';
import { splitChecks } from './split-checks.ts';
import { virtualExtensionChecks } from './virtual-extension-checks.ts';

/** By letter, then by number. */
function inOrder(checks: readonly Check[]): readonly Check[] {
  const place = (name: string) => name.charCodeAt(0) * 1000 + Number.parseInt(name.slice(1), 10);
  return [...checks].sort((a, b) => place(a.name) - place(b.name));
}

/** Every check, in order. A function, so that bundles that run no checks leave them out. */
export const allChecks = (): readonly Check[] =>
  inOrder([
    ...materialChecks,
    ...holeChecks,
    ...fieldChecks,
    ...attemptChecks,
    ...slitChecks,
    ...facePullChecks,
    ...flapChecks,
    ...edgeGripChecks,
    ...directionChecks,
    ...flatFlapChecks,
    ...foldDirectionChecks,
    ...pathChecks,
    ...virtualExtensionChecks,
    ...capsuleChecks,
    ...courseChecks,
    ...populationChecks,
    ...splitChecks,
    ...convergenceChecks,
  ]);
