import {
  bentTube,
  defineTubes,
  faceTrimMm,
  hasStop,
  type Report,
  type BentTube,
  LEAST_OVER_GREATEST,
  stretchOutside,
  wallFactor,
} from '../../src/template.ts';
import { bendingOf } from './bending.ts';
import { centreLine, type Values } from './centre-line.ts';
import { bendFindings, overlapFindings, tubeFindings } from './checks.ts';
import { inputs } from './inputs.ts';
import { bentSchematics } from './schematic.ts';

/** A round tube bent on a rotary draw bender, by hand or with a ram. */
export default defineTubes({
  family: 'tube-bent',
  summary: 'Round tube bent on a former: through points in space, by legs and angles, or a hoop.',
  sketch: String.raw`
  points or legs                      a hoop
        2 ___________ 3                   ______________
         /           \                   /              \   ^
        / <- radius   \                 /                \  |
       /               \               |   lean           | | height
      1                 4              |  (inwards)       | |
   leading end                         |______span________| v
  Points are the corners of the middle line, as if the bends were sharp.
`,
  inputs,
  schematics: bentSchematics,
  cautions: ['sharp-edges', 'tube-pinch', 'tube-licensed'],
  examples: [
    {
      title: 'Hoop over the crate bed of the cart',
      inputs: {
        name: 'crate-hoop',
        span: 900,
        height: 700,
        lean: 6,
        diameter: 30,
        wall: 2,
        radius: 90,
      },
    },
    {
      title: 'Stay from the seat post to the floor, in space',
      inputs: {
        name: 'seat-stay',
        points: '0,0,0; 0,0,320; 240,120,420; 460,120,420',
        diameter: 25,
        wall: 2.5,
        radius: 75,
        testBends: '20 = 18.2; 120 = 115.4',
        clamp: 60,
        follower: 90,
        leadFace: 20,
        hand: 'both',
      },
    },
    {
      title: 'Odd on purpose: a handle of aluminium by its legs, bends close to each other',
      inputs: {
        name: 'gate-handle',
        legs: '8in; 45, 130; 90@180, 6in; 30@-90, 220',
        material: '6060-t4',
        diameter: '1in',
        wall: 3,
        radius: 80,
        clamp: 50,
        follower: 70,
      },
    },
  ],
  build(v) {
    const { bending, bender, findings: ofBender } = bendingOf(v);
    const { legs, findings: ofLine } = centreLine(v);
    const before = [...tubeFindings(v, bending.formerMm), ...ofBender, ...ofLine];
    if (legs === undefined || hasStop(before)) return { findings: before };
    const tube = bentTube({
      grade: v.material,
      diameterMm: v.diameter,
      wallMm: v.wall,
      legs,
      bending,
      trims: {
        leadMm: v.leadTrim + faceTrimMm(v.diameter, v.leadFace),
        tailMm: v.tailTrim + faceTrimMm(v.diameter, v.tailFace),
      },
      within: { angleDeg: v.angleWithin, rotateDeg: v.turnWithin, markMm: v.markWithin },
    });
    const overlaps = overlapFindings(tube);
    if (overlaps.length > 0) return { findings: [...before, ...overlaps] };
    return {
      tubes: [{ tube }],
      findings: [...before, ...bendFindings(v, tube, bender)],
      report: reportOf(v, tube),
    };
  },
});

const reportOf = ({ diameter, wall }: Values, { sheet, asked, massKg }: BentTube): Report => ({
  figures: [
    { name: 'length cut off the bar', value: sheet.cutLengthMm, unit: 'mm' },
    {
      name: 'finished length',
      value: sheet.finishedMm,
      unit: 'mm',
      about: 'along the middle, from end to end',
    },
    { name: 'mass', value: massKg, unit: 'kg' },
    {
      name: 'wall factor',
      value: wallFactor(diameter, wall),
      unit: '',
      about: 'diameter over wall',
    },
    {
      name: 'stretch of the outside',
      value: 100 * stretchOutside(diameter, asked.bending.formerMm),
      unit: '%',
    },
    {
      name: 'least diameter across a bend',
      value: LEAST_OVER_GREATEST * diameter,
      unit: 'mm',
      about: 'what rules for cages accept; measure each bend',
    },
  ],
});
