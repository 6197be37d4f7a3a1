/** Light falls along the view, as the microscope's own lamp does; the dome's curve makes the sheen. */
const light = /* glsl */ `
uniform float dyed;
uniform float domeRadius;
uniform vec2 lensCentre;

vec3 lit(vec3 sheet, vec2 place) {
  float facing = sheet.z < 0.0 ? -1.0 : 1.0;
  return sheet * facing + vec3((place - lensCentre) / domeRadius, 0.0);
}

// squares of cut-off lobes: drawing in software pays for every power
float lobe(float off, float narrow) {
  float near = max(1.0 - narrow * off, 0.0);
  return near * near;
}

// the unit normal that throws the lamp back, and how far one is from it
const vec3 LAMP = vec3(0.1602, 0.1993, 0.9667);
float offLamp(vec3 n) {
  return 1.0 - dot(n, LAMP);
}

// upper side: clear, a faint veil with a sheen
vec4 upper(float broad, float sharp, float height) {
  float lifted = smoothstep(0.03, 0.45, height);
  vec3 tone = mix(vec3(0.66, 0.73, 0.80), vec3(0.16, 0.33, 0.76), dyed);
  float cover = mix(mix(0.24, 0.58, dyed), mix(0.46, 0.70, dyed), lifted);
  return vec4(tone + 0.30 * broad + 0.55 * sharp, cover + 0.10 * broad + 0.35 * sharp);
}

// where the sheet is seen from the side it is bright and dense; the colour comes out multiplied by its cover
vec4 creased(vec4 colour, float facing) {
  float crease = smoothstep(0.25, 0.85, 1.0 - clamp(facing, 0.0, 1.0));
  float cover = clamp(colour.a + 0.45 * crease, 0.0, 0.95);
  vec3 tone = min(mix(colour.rgb, vec3(0.98, 0.98, 0.96), 0.7 * crease), 1.0);
  return vec4(tone * cover, cover);
}

// the tension map lies over the sheet in one go: two layers would cost twice
vec4 mapped(vec4 colour, vec4 tension) {
  return vec4(tension.rgb * tension.a, tension.a) + (1.0 - tension.a) * colour;
}`;

/**
 * What lies flat shows its upper side and bends little: it is lit at the nodes, which costs nothing per pixel. Only the
 * lamp's own small image is finer than the triangles; it is white, and half as bright on a tension map.
 */
export const flatVertex = /* glsl */ `
#ifdef TENSION
attribute vec4 tension;
#endif
varying vec4 vColour;
varying vec2 vOffLamp;
${light}

void main() {
  vec3 n = normalize(lit(normal, position.xy));
  vOffLamp = n.xy - LAMP.xy;
  vColour = creased(upper(lobe(offLamp(n), 16.0), 0.0, position.z), n.z);
#ifdef TENSION
  vColour = mapped(vColour, tension);
#endif
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position.xy, 0.0, 1.0);
}`;

export const flatFragment = /* glsl */ `
varying vec4 vColour;
varying vec2 vOffLamp;
#ifdef TENSION
const float IMAGE = 0.27;
#else
const float IMAGE = 0.54;
#endif

void main() {
  float near = max(1.0 - 250.0 * dot(vOffLamp, vOffLamp), 0.0);
  gl_FragColor = mix(vColour, vec4(1.0), IMAGE * near * near);
}`;

export const capsuleVertex = /* glsl */ `
attribute vec2 reference;
#ifdef TENSION
attribute vec4 tension;
varying vec4 vTension;
#endif
varying vec3 vNormal;
varying vec2 vReference;
varying float vHeight;
${light}

void main() {
  vNormal = lit(normal, position.xy);
  vReference = reference;
  vHeight = position.z;
#ifdef TENSION
  vTension = tension;
#endif
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position.xy, 0.0, 1.0);
}`;

/**
 * Lifted and folded tissue. Under side: paler, denser, stippled like the cells that stay on it. Both sides are told apart by
 * shade and texture, not by hue alone.
 */
export const capsuleFragment = /* glsl */ `
#ifdef TENSION
varying vec4 vTension;
#endif
varying vec3 vNormal;
varying vec2 vReference;
varying float vHeight;
${light}

float stipple(vec2 place) {
  vec2 cell = floor(place);
  vec2 offset = fract(sin(vec2(dot(cell, vec2(127.1, 311.7)), dot(cell, vec2(269.5, 183.3)))) * 43758.5453);
  float d = distance(fract(place), 0.3 + 0.4 * offset);
  return 1.0 - smoothstep(0.16, 0.30, d);
}

vec4 under(float broad) {
  float dots = stipple(vReference * 9.0);
  vec3 tone = mix(vec3(0.93, 0.91, 0.85), vec3(0.52, 0.66, 0.93), dyed);
  tone = mix(tone, mix(vec3(0.60, 0.55, 0.49), vec3(0.15, 0.26, 0.55), dyed), 0.75 * dots);
  return vec4(tone + 0.06 * broad, mix(0.66, 0.78, dyed) + 0.14 * dots);
}

void main() {
  vec3 n = normalize(vNormal);
  float off = offLamp(n);
  float broad = lobe(off, 16.0);
  vec4 colour;
  if (gl_FrontFacing) colour = upper(broad, lobe(off, 500.0), vHeight);
  else colour = under(broad);
  gl_FragColor = creased(colour, n.z);
#ifdef TENSION
  gl_FragColor = mapped(gl_FragColor, vTension);
#endif
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
