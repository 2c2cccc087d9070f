import { BOX_PAN } from '../data/machines/box-pan.ts';
import type { ValueOf } from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import { checked, type Disagree, list, made, optional, section } from '../forms/sections.ts';
import type { Folder } from '../model/machine.ts';
import { ANY_MACHINE, length, measured, orElse, ownFigures } from './machine.ts';
import { polygons } from './polygon.ts';

const stiffener = checked(
  section('The stiffener, which stands forward of the leaf below its edge.', {
    projection: length(0, 1000, 'How far it stands forward.'),
    startsBelow: length(0, 2000, 'Where it begins, below the upper edge of the leaf.'),
    endsBelow: length(0, 2000, 'Where it ends, below the upper edge of the leaf.'),
  }),
  ({ startsBelow, endsBelow }, disagree) => {
    if (startsBelow > endsBelow)
      disagree(
        ['endsBelow'],
        `at least the ${startsBelow} of startsBelow`,
        'measure both downwards from the upper edge of the leaf',
      );
  },
);

export const FINGERS = {
  boxDepth: length(1, 1000, 'Height from the tip of the nose up to the underside of the beam.'),
  beamDepth: length(1, 2000, 'Depth from the tip of the nose back to the rear of the beam.'),
  widths: list('Widths of the fingers in the shop.', length(1, 2000, 'Width of a finger.'), {
    what: 'finger widths',
    min: 1,
    max: 60,
  }),
  sideClear: optional(
    length(0, 50, 'Clearance on each side between a finger and the flange next to it.'),
  ),
};

const fingers = section('Fingers under a continuous beam.', FINGERS);

/** Dimensions of a folder that are taken with a rule and a square. */
const DIMENSIONS = {
  bedDepth: optional(length(10, 3000, 'Depth of the bed, front to back.')),
  noseDepth: optional(
    length(2, 1000, 'Depth from the tip of the nose to the heel of the finger or beam.'),
  ),
  noseFront: optional(length(1, 500, 'How far the front lies behind the tip of the nose.')),
  noseBevel: optional(
    fields.angle({
      about: 'Angle between the underside of the nose and its front bevel.',
      min: 10,
      max: 80,
    }),
  ),
  clampHeight: optional(
    length(2, 2000, 'Height from the tip of the nose to the top of the clamp.'),
  ),
  leafEdge: optional(
    section('Thickness of the upper edge of the leaf.', {
      barFitted: length(1, 500, 'Thickness with its bar.'),
      barRemoved: length(1, 500, 'Thickness without its bar.'),
    }),
  ),
  stiffener: optional(stiffener),
};

const bodies = section('Its section as polygons, in place of all dimensions.', {
  bed: polygons('The bed, from the hinge.'),
  leaf: polygons('The leaf at rest, from the hinge.'),
  clamp: polygons('Fingers or clamp, from the tip of the nose.'),
  beam: optional(polygons('The beam that carries the fingers.')),
});

/** The names of a folder in a shop file. */
export const FOLDER = {
  ...ANY_MACHINE,
  ...DIMENSIONS,
  noseSetback: length(0, 100, 'Distance from the hinge back to the tip of the nose.'),
  leafBarFitted: optional(
    fields.flag({ about: 'Whether the bar is on the leaf, which is assumed when left out.' }),
  ),
  section: optional(bodies),
  clampLand: optional(length(0.1, 500, 'Least width of sheet that is clamped.')),
  fingers: optional(fingers),
  endOverhang: fields.flag({
    about:
      'Whether a flange at one end of a fold may hang outside the end of a clamp of one piece.',
    default: false,
  }),
  noseRadii: optional(
    list(
      'Radii of the noses in the shop, 0 for a sharp one, which is assumed when left out.',
      length(0, 200, 'Radius of a nose.'),
      {
        what: 'nose radii',
        min: 1,
        max: 40,
      },
    ),
  ),
  clampOpening: optional(length(1, 1000, 'Opening under the nose with the clamp fully raised.')),
};

const described = section('A folder.', FOLDER);
type Given = ValueOf<typeof described>;

const agree = (value: Given, disagree: Disagree): void => {
  for (const dimension of value.section === undefined
    ? (Object.keys(DIMENSIONS) as (keyof typeof DIMENSIONS)[])
    : [])
    if (value[dimension] === undefined)
      disagree(
        [dimension],
        `${dimension}, or the polygons of section in place of all dimensions`,
        `add ${dimension}`,
      );
  const { noseFront, noseDepth } = value;
  if (noseFront !== undefined && noseDepth !== undefined && noseFront >= noseDepth)
    disagree(
      ['noseFront'],
      `less than the ${noseDepth} of noseDepth`,
      'measure both back from the tip of the nose',
    );
  if (value.fingers !== undefined && value.endOverhang)
    disagree(
      ['endOverhang'],
      'no, where there are fingers',
      'leave it out: fingers that are in the way are taken out',
    );
};

/**
 * A folder, described by the dimensions that are taken with a rule and a square, or by polygons of
 * its section in their place. What the file leaves out is taken from the built-in folder.
 */
export const folder = made(checked(described, agree), (given): Folder => ({
  kind: 'folder',
  id: given.id,
  name: given.name,
  workingLengthMm: measured(given.workingLength),
  capacityMm: orElse(given.capacity, null),
  minFlangeMm: orElse(given.minFlange, BOX_PAN.minFlangeMm),
  maxAngleDeg: orElse(given.maxAngle, null),
  overbendDeg: orElse(given.overbend, BOX_PAN.overbendDeg),
  maxUncoveredMm: orElse(given.maxUncovered, BOX_PAN.maxUncoveredMm),
  bedDepthMm: orElse(given.bedDepth, BOX_PAN.bedDepthMm),
  noseSetbackMm: measured(given.noseSetback),
  noseDepthMm: orElse(given.noseDepth, BOX_PAN.noseDepthMm),
  noseFrontMm: orElse(given.noseFront, BOX_PAN.noseFrontMm),
  noseBevelDeg: orElse(given.noseBevel, BOX_PAN.noseBevelDeg),
  clampHeightMm: orElse(given.clampHeight, BOX_PAN.clampHeightMm),
  leafEdgeMm: orElse(given.leafEdge, BOX_PAN.leafEdgeMm),
  isLeafBarFitted: orElse(given.leafBarFitted, BOX_PAN.isLeafBarFitted),
  stiffenerMm: orElse(given.stiffener, BOX_PAN.stiffenerMm),
  clampLandMm: orElse(given.clampLand, BOX_PAN.clampLandMm),
  clamp: clampOf(given.fingers, given.endOverhang),
  ...ownFigures({
    ...given,
    ...(given.hardestFold !== undefined && {
      hardestFold: { leafBarFitted: given.leafBarFitted ?? true, ...given.hardestFold },
    }),
  }),
  ...(given.noseRadii !== undefined && { noseRadiiMm: measured(given.noseRadii) }),
  ...(given.clampOpening !== undefined && { clampOpeningMm: measured(given.clampOpening) }),
  ...(given.section !== undefined && {
    section: { ...given.section, beam: given.section.beam ?? [] },
  }),
}));

const clampOf = (given: Given['fingers'], endOverhang: boolean): Folder['clamp'] =>
  given === undefined
    ? { kind: 'one piece', endOverhang: measured(endOverhang) }
    : {
        kind: 'fingers',
        boxDepthMm: measured(given.boxDepth),
        beamDepthMm: measured(given.beamDepth),
        widthsMm: measured(given.widths),
        // The clearance is common practice, as in the built-in folder.
        sideClearMm: orElse(given.sideClear, {
          value: 1,
          basis: 'common practice',
          source: 'common practice',
        }),
      };
