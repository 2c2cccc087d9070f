import {
  atLeast,
  figure,
  hydraulicDiameterMm,
  note,
  ORDINARY_TAPER_DEG,
  rectangleAreaMm2,
  roundAreaMm2,
  taperLengthMm,
} from '../../src/template.ts';
import type { ClearRectangle, Finding, Report } from '../../src/template.ts';
import { CORNERS, cornerAngleDeg, reachAt, type Shell, wallAt } from './shell.ts';
import type { DuctBox } from './inputs.ts';

/** Clear opening between the inside faces at a depth. */
const clearAt = (v: DuctBox, shell: Shell, depthMm: number): ClearRectangle => {
  const [bottom = 0, right = 0, top = 0, left = 0] = shell.walls.map(
    (wall) => reachAt(wall, depthMm) - v.thicknessMm / wall.cos,
  );
  return { widthMm: left + right, depthMm: bottom + top };
};

/**
 * The opening that the air passes at the end: the bore of the stub, or the opening between inward
 * lips or walls.
 */
const outlet = (
  v: DuctBox,
  shell: Shell,
): { readonly areaMm2: number; readonly hydraulicMm: number } => {
  if (v.end === 'stub') {
    const bore = v.stub - 2 * v.stubWall;
    return { areaMm2: roundAreaMm2(bore), hydraulicMm: bore };
  }
  const walls = clearAt(v, shell, shell.depthMm);
  // An inward lip is measured from the outside, or the inside, of its wall.
  const [width, depth] =
    v.end === 'lip-in'
      ? [v.endWidth - 2 * v.endLip, v.endHeight - 2 * v.endLip]
      : [walls.widthMm, walls.depthMm];
  const clear = { widthMm: width, depthMm: depth };
  return { areaMm2: rectangleAreaMm2(clear), hydraulicMm: hydraulicDiameterMm(clear) };
};

/** Openings, speeds and tapers. */
export const ductReport = (v: DuctBox, shell: Shell): Report => {
  const inlet = clearAt(v, shell, 0);
  const [inArea, out] = [rectangleAreaMm2(inlet), outlet(v, shell)];
  return {
    figures: [
      { name: 'inlet area', value: inArea, unit: 'mm2', about: 'clear opening of the aperture' },
      {
        name: 'outlet area',
        value: out.areaMm2,
        unit: 'mm2',
        about: v.end === 'stub' ? 'bore of the stub' : 'clear opening of the end',
      },
      {
        name: 'speed at the outlet',
        value: inArea / out.areaMm2,
        unit: '',
        about: 'times that at the inlet',
      },
      { name: 'change of speed', value: 100 * (inArea / out.areaMm2 - 1), unit: '%' },
      { name: 'hydraulic diameter of the inlet', value: hydraulicDiameterMm(inlet), unit: 'mm' },
      { name: 'hydraulic diameter of the outlet', value: out.hydraulicMm, unit: 'mm' },
      ...shell.walls.map((wall) => ({
        name: `taper of the ${wall.name}`,
        value: wall.taperDeg,
        unit: 'deg',
        about: 'angle to the axis; below 0 the wall leans outwards',
      })),
      ...shell.walls.map((wall, j) => ({
        name: `bend or seam ${CORNERS[j] ?? ''}`,
        value: cornerAngleDeg(wall, wallAt(shell, j + 1)),
        unit: 'deg',
        about: 'angle by which the sheet is turned there',
      })),
    ],
  };
};

/** What the maker should know of a duct that can be made. */
export const ductNotes = (v: DuctBox, shell: Shell): Finding[] => {
  const notes: Finding[] = [];
  const steepest = shell.walls.reduce((a, b) =>
    Math.abs(b.taperDeg) > Math.abs(a.taperDeg) ? b : a,
  );
  if (Math.abs(steepest.taperDeg) > ORDINARY_TAPER_DEG) {
    const length =
      taperLengthMm(Math.abs(steepest.slope) * shell.depthMm, ORDINARY_TAPER_DEG) +
      v.length -
      shell.depthMm;
    notes.push(
      note(
        'steep-taper',
        `The ${steepest.name} leans ${figure(Math.abs(steepest.taperDeg))} deg out of the axis; a rule of the trade keeps to ${ORDINARY_TAPER_DEG}, or the air leaves the wall. A length of ${atLeast(length)} would do.`,
      ),
    );
  }
  return notes;
};
