/** Runs the model and writes the pictures of its text. All, or those named: node tests/support/write-pictures.ts [name ...] */
import { writeFileSync } from 'node:fs';
import { PICTURES } from './pictures/all.ts';
import { svgOf } from './pictures/svg.ts';

const asked = process.argv.slice(2);
for (const name of asked) if (!PICTURES.some((one) => one.name === name)) throw new Error(`no such picture: ${name}`);
for (const { name, make } of PICTURES.filter((one) => asked.length === 0 || asked.includes(one.name))) {
  const svg = svgOf(make());
  writeFileSync(new URL(`../../physics/doc/pictures/${name}.svg`, import.meta.url), svg);
  console.log(`physics/doc/pictures/${name}.svg, ${(svg.length / 1000).toFixed(1)} kB`);
}
