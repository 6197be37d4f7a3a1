/** Light falls along the view, as the microscope's own lamp does; the dome's curve makes the sheen. */
export const capsuleVertex = /* glsl */ `
attribute vec2 reference;
uniform float domeRadius;
uniform vec2 lensCentre;
varying vec3 vNormal;
varying vec2 vReference;
varying float vHeight;

void main() {
  vec2 out_ = (position.xy - lensCentre) / domeRadius;
  float facing = normal.z < 0.0 ? -1.0 : 1.0;
  vNormal = normal * facing + vec3(out_, 0.0);
  vReference = reference;
  vHeight = position.z;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position.xy, 0.0, 1.0);
}`;

/**
 * Upper side: clear, a faint veil with a sheen. Under side: paler, denser, stippled like the cells that stay on it.
 * Both are told apart by shade and texture, not by hue alone.
 */
export const capsuleFragment = /* glsl */ `
uniform float dyed;
varying vec3 vNormal;
varying vec2 vReference;
varying float vHeight;

float stipple(vec2 place) {
  vec2 cell = floor(place);
  vec2 offset = fract(sin(vec2(dot(cell, vec2(127.1, 311.7)), dot(cell, vec2(269.5, 183.3)))) * 43758.5453);
  float d = distance(fract(place), 0.3 + 0.4 * offset);
  return 1.0 - smoothstep(0.16, 0.30, d);
}

void main() {
  vec3 n = vNormal * inversesqrt(dot(vNormal, vNormal));
  float grazing = 1.0 - clamp(n.z, 0.0, 1.0);
  // squares of cut-off lobes: drawing in software pays for every power
  float off = 1.0 - dot(n, vec3(0.1602, 0.1993, 0.9667));
  float broad = max(1.0 - 16.0 * off, 0.0);
  broad *= broad;
  float sharp = max(1.0 - 500.0 * off, 0.0);
  sharp *= sharp;
  float lifted = smoothstep(0.03, 0.45, vHeight);
  vec3 tone;
  float cover;
  if (gl_FrontFacing) {
    tone = mix(vec3(0.66, 0.73, 0.80), vec3(0.16, 0.33, 0.76), dyed);
    cover = mix(mix(0.24, 0.58, dyed), mix(0.46, 0.70, dyed), lifted);
    tone += 0.30 * broad + 0.55 * sharp;
    cover += 0.10 * broad + 0.35 * sharp;
  } else {
    float dots = stipple(vReference * 9.0);
    tone = mix(vec3(0.93, 0.91, 0.85), vec3(0.52, 0.66, 0.93), dyed);
    tone = mix(tone, mix(vec3(0.60, 0.55, 0.49), vec3(0.15, 0.26, 0.55), dyed), 0.75 * dots);
    cover = mix(0.66, 0.78, dyed) + 0.14 * dots;
    tone += 0.06 * broad;
  }
  float crease = smoothstep(0.25, 0.85, grazing);
  tone = mix(tone, vec3(0.98, 0.98, 0.96), 0.7 * crease);
  cover = clamp(cover + 0.45 * crease, 0.0, 0.95);
  gl_FragColor = vec4(tone, cover);
}`;

/** The lifted or folded part darkens what lies under it, a little to the side. */
export const shadowVertex = /* glsl */ `
varying float vDepth;
void main() {
  float height = max(position.z, 0.0);
  vec2 shift = vec2(0.05, -0.07) + height * vec2(0.22, -0.28);
  vDepth = smoothstep(0.0, 0.1, height);
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position.xy + shift, 0.0, 1.0);
}`;

export const shadowFragment = /* glsl */ `
varying float vDepth;
void main() {
  float depth = gl_FrontFacing ? 0.10 * vDepth : 0.20;
  gl_FragColor = vec4(0.05, 0.02, 0.02, depth);
}`;
