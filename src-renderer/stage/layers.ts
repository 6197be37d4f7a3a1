/** From the back to the front; nothing on the stage uses the depth buffer. */
export const LAYER = {
  targetBand: 5,
  capsule: 10,
  tensionLines: 13,
  margin: 15,
  globe: 20,
  irisShadow: 21,
  flapShadow: 24,
  flap: 25,
  flapMargin: 27,
  target: 30,
  instrumentShadow: 34,
  instrument: 36,
  cone: 38,
  arrows: 40,
  scale: 44,
  letters: 50,
} as const;
