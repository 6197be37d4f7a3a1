import { steppedMagnification } from '../../../stage/microscope.ts';
import { useLectureLook } from './twin-store.ts';

/** The next magnification of both eyes; 0 shows the whole pupil. */
export function magnify(direction: 1 | -1 | 0): void {
  const { camera, setCamera } = useLectureLook.getState();
  setCamera({ magnification: direction === 0 ? 1 : steppedMagnification(camera.magnification, direction) });
}
