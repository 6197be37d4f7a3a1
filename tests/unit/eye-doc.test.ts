import { readFileSync } from 'node:fs';
import { describe, it } from 'vitest';
import { type Eye, eyeAt } from '../../physics/eye/age.ts';
import { uncutTension_mN_per_mm } from '../../physics/eye/chamber.ts';
import {
  closedLeakTime_s,
  dragPerArea_mN_s_per_mm3,
  FLUID_IDS,
  fluidById,
  leakTime_s,
} from '../../physics/eye/fluid.ts';
import { lineDiameterFor_mm, openingEnlargement } from '../../physics/eye/radial.ts';
import { stretchAtTension } from '../../physics/eye/tension.ts';
import { expectWithin } from '../support/compare.ts';

const text = readFileSync(new URL('../../physics/doc/model.md', import.meta.url), 'utf8');
const plain = (age: number): Eye => eyeAt(age, { stiffnessPreset: 'uniaxial', dyed: false });

/** Cells of the table that follows a marker, without its two heading lines. */
function table(name: string): readonly (readonly string[])[] {
  const after = text.split(`<!-- table: ${name} -->\n`)[1];
  const rows = after.split('\n\n')[0].split('\n').slice(2);
  return rows.map((row) =>
    row
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}

/** Every value against the cell of its column. */
function expectRow(name: string, values: readonly number[], cells: readonly string[]): void {
  if (values.length !== cells.length) throw new Error(`${name}: ${values.length} values, ${cells.length} cells`);
  for (const [i, value] of values.entries()) expectPrinted(`${name}, column ${i + 1}`, value, cells[i]);
}

/** The cell must be the number rounded to the digits the cell shows. */
function expectPrinted(name: string, value: number, cell: string): void {
  const decimals = cell.split('.')[1]?.length ?? 0;
  expectWithin(name, value, Number(cell), { absolute: 0.5000001 * 10 ** -decimals });
}

describe('the numbers in the text for teachers are those of the program', () => {
  it('eyes by age', () => {
    const rows = table('uniaxial');
    if (rows.length !== 8) throw new Error(`expected 8 rows, found ${rows.length}`);
    for (const [age, ...cells] of rows) {
      const e = plain(Number(age));
      const values = [
        e.thickness_um,
        e.youngModulus_MPa,
        e.stiffening,
        e.tearResistance_mN,
        e.lensDiameter_mm,
        e.anteriorRadius_mm,
        e.zonuleFreeDiameter_mm,
        e.limbusDiameter_mm,
        e.baseTension_mN_per_mm,
      ];
      expectRow(`age ${age}`, values, cells);
    }
  });

  it('fluids', () => {
    const rows = table('fluids');
    if (rows.length !== FLUID_IDS.length) throw new Error(`expected ${FLUID_IDS.length} fluids, found ${rows.length}`);
    rows.forEach(([id, ...cells], row) => {
      if (id !== FLUID_IDS[row]) throw new Error(`row ${row} is ${id}`);
      const fluid = FLUID_IDS[row];
      const values = [
        fluidById(fluid).viscosity_Pa_s,
        dragPerArea_mN_s_per_mm3(fluid),
        closedLeakTime_s(fluid),
        leakTime_s(fluid, true, 0),
        leakTime_s(fluid, true, 20),
      ];
      expectRow(id, values, cells);
    });
  });

  it("the sheet's share by age and pressure", () => {
    const radius_mm = 2;
    for (const [age, ...cells] of table('sheet')) {
      const e = plain(Number(age));
      const S = e.youngModulus_MPa * e.thickness_um;
      const tensions = [0, 2, 4].map((pressure) => uncutTension_mN_per_mm(e, pressure));
      const shares = tensions.map((N0) => (N0 * N0 * radius_mm) / (S * e.tearResistance_mN));
      expectRow(`age ${age}`, [S, ...tensions, ...shares], cells);
    }
  });

  it('numbers said in sentences', () => {
    const infant = plain(0.5);
    const adult = plain(40);
    const stretch = (e: Eye) => 100 * (stretchAtTension(e.baseTension_mN_per_mm, e) - 1);
    expectPrinted('stretch of an infant capsule, %', stretch(infant), '18');
    expectPrinted('stretch of an adult capsule, %', stretch(adult), '2');
    const line = (e: Eye, opening: number) => lineDiameterFor_mm(e, opening, e.baseTension_mN_per_mm);
    expectPrinted('line, infant', line(infant, 4.5), '3.6');
    expectPrinted('line, adult', line(adult, 5), '4.7');
    const drawn = line(infant, 4.5);
    expectPrinted('enlargement, infant', openingEnlargement(infant, drawn, infant.baseTension_mN_per_mm), '1.26');
    expectPrinted('at 2 mmHg', openingEnlargement(infant, drawn, uncutTension_mN_per_mm(infant, 2)), '1.34');
  });
});
