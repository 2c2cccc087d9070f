import { defineTemplate, fields } from '../../src/template.ts';
import { ductBox } from './build.ts';

/**
 * Of a wall: down from the aperture, and along it from the wall that the aperture's edge begins at,
 * seen from outside.
 */
const wallAxes = (near: string, far: string) =>
  [
    { from: 'aperture', at: 'the aperture, down the wall' },
    { from: near, at: `the outside of the ${near} at the aperture`, to: far },
  ] as const;

/** A duct of four tapered walls from a rectangular opening to a smaller one, or to a round stub. */
export default defineTemplate({
  family: 'duct-box',
  summary:
    'Duct box: tapered walls from a rectangular aperture with lips to a smaller end or a round stub.',
  sketch: String.raw`
    looking into the aperture              from the side
     ______________________         _
    |    lips              |       | \_ _              aperture at the
    |   ________________   |       |      \ _ _        left, end at the
    |  |\    top       /|  |       |            \ _    right
    |  | \____________/ |  |       |               |
    |  |left| end |right|  |height |       +offset | endHeight
    |  | /~~~~~~~~~~~~\ |  |       |            _ _| or stub
    |  |/   bottom     \|  |       |      _ _ /
    |   ----------------   |       |  _ /
    |______________________|       |_/
         width                      |<-- length -->|
  Walls are folded along their slanted corners; one corner is the seam.
`,
  inputs: {
    width: fields.length({
      about:
        'Width of the aperture, left to right: over the outsides of the walls in the plane of the lips, or with measure inside the clear opening.',
      min: 20,
      max: 3000,
      example: 240,
    }),
    height: fields.length({
      about: 'Height of the aperture, measured like the width.',
      min: 20,
      max: 3000,
      example: 160,
    }),
    endWidth: fields.length({
      about: 'Width of the other end, measured on the same faces; with a stub, that of its plate.',
      min: 10,
      max: 3000,
      example: 140,
    }),
    endHeight: fields.length({
      about: 'Height of the other end.',
      min: 10,
      max: 3000,
      example: 120,
    }),
    length: fields.length({
      about:
        'Overall, from the plane of the aperture to that of the end: over the lips and the plate of a stub.',
      min: 10,
      max: 3000,
      example: 200,
    }),
    offsetRight: fields.length({
      about:
        'How far the middle of the end lies to the right of the middle of the aperture, looking into the aperture; less than 0 to the left.',
      min: -3000,
      max: 3000,
      default: 0,
    }),
    offsetUp: fields.length({
      about:
        'How far the middle of the end lies above the middle of the aperture; less than 0 below.',
      min: -3000,
      max: 3000,
      default: 0,
    }),
    lip: fields.length({
      about:
        'Fixing lips round the aperture, turned outward, 0 for none: from the free edge to the outside corner of their own bend (a lip stands a thickness less beyond its wall), with measure inside beyond the outside of the wall. Their corners stay open.',
      min: 0,
      max: 500,
      default: 20,
    }),
    lipHole: fields.optionalLength({
      about: 'Diameter of the fixing holes along the middle of the lips.',
      min: 1,
      max: 50,
      example: 5,
      otherwise: 'no holes',
    }),
    lipPitch: fields.length({
      about: 'The furthest that fixing holes stand from each other.',
      min: 5,
      max: 1000,
      default: 80,
    }),
    end: fields.choice({
      about:
        'The other end: open; with lips turned in, mitred, or out; or closed by a plate with the hole for a round stub.',
      choices: ['open', 'lip-in', 'lip-out', 'stub'],
      default: 'open',
    }),
    endLip: fields.length({
      about:
        'Depth of the lips at the other end, from their free edge to the outside corner of their own bend.',
      min: 1,
      max: 500,
      default: 15,
    }),
    stub: fields.length({
      about: 'Outside diameter of the tube of the stub.',
      min: 5,
      max: 2500,
      default: 80,
    }),
    stubWall: fields.length({
      about: 'Wall of that tube; for the area of its bore.',
      min: 0,
      max: 50,
      default: 1.5,
    }),
    stubFit: fields.length({
      about: 'By how much the hole is larger than the tube.',
      min: 0,
      max: 20,
      default: 0.5,
    }),
    stubRight: fields.length({
      about: 'How far the stub sits to the right of the middle of the end.',
      min: -1500,
      max: 1500,
      default: 0,
    }),
    stubUp: fields.length({
      about: 'How far the stub sits above the middle of the end.',
      min: -1500,
      max: 1500,
      default: 0,
    }),
    stubMargin: fields.length({
      about:
        'Least distance of the edge of the stub hole from the welds round its plate and from where its bend begins.',
      min: 0,
      max: 500,
      default: 10,
    }),
    plateOn: fields.choice({
      about:
        'The wall that the plate of a stub is folded on to, its other three edges lying on the walls to be welded; none makes it a piece of its own.',
      choices: ['none', 'bottom', 'right', 'top', 'left'],
      default: 'none',
    }),
    blanks: fields.choice({
      about:
        'Walls in one blank, in two L-shaped halves with seams at opposite corners, or with the top a sheet of its own; auto takes one blank where it fits the sheet, else halves.',
      choices: ['auto', 'whole', 'halves', 'top-off'],
      default: 'auto',
    }),
    seam: fields.choice({
      about:
        'The corner that is welded, looking into the aperture; halves are welded at the one opposite too, and a top of its own at both its sides instead. cornerGap is the gap.',
      choices: ['bottom-right', 'top-right', 'top-left', 'bottom-left'],
      default: 'bottom-left',
    }),
    sheetLength: fields.length({
      about: 'Length of the sheet that blanks are cut from.',
      min: 50,
      max: 10000,
      default: 2500,
    }),
    sheetWidth: fields.length({ about: 'Width of that sheet.', min: 50, max: 5000, default: 1250 }),
    holesBottom: fields.holes({ about: 'Holes in the bottom', axes: wallAxes('right', 'left') }),
    holesRight: fields.holes({ about: 'Holes in the right wall', axes: wallAxes('top', 'bottom') }),
    holesTop: fields.holes({ about: 'Holes in the top', axes: wallAxes('left', 'right') }),
    holesLeft: fields.holes({ about: 'Holes in the left wall', axes: wallAxes('bottom', 'top') }),
  },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title: 'Engine air for the cart from the grille to a round hose, the stub off the middle',
      inputs: {
        name: 'grille-intake',
        width: 240,
        height: 160,
        endWidth: 140,
        endHeight: 120,
        length: 200,
        offsetRight: 20,
        offsetUp: 10,
        lipHole: 5,
        cornerRadius: 3,
        end: 'stub',
        stub: 90,
        plateOn: 'bottom',
        material: '5754-h111',
        thickness: 1.5,
      },
    },
    {
      title: 'Hopper mouth of the grape chute, square and even, 200 x 200 to 100 x 100',
      inputs: {
        name: 'chute-mouth',
        width: 200,
        height: 200,
        endWidth: 100,
        endHeight: 100,
        length: 150,
        end: 'lip-in',
        endLip: 12,
        lip: 0,
        material: 'dc01',
        thickness: 1.5,
      },
    },
    {
      title:
        'Dust duct of the sorting table in two halves, from clear openings, with lips at both ends',
      inputs: {
        name: 'dust-duct',
        width: 300,
        height: 180,
        endWidth: 160,
        endHeight: 140,
        length: 260,
        measure: 'inside',
        blanks: 'halves',
        seam: 'top-right',
        lip: 25,
        lipHole: 6.6,
        lipPitch: 100,
        end: 'lip-out',
        endLip: 20,
        cornerRadius: 3,
        material: 'dc01',
        thickness: 1,
        holesTop: '120,150,20',
      },
    },
    {
      title:
        'Odd on purpose: heater scoop that leans past its own aperture to one side, the top a sheet of its own, both hands',
      inputs: {
        name: 'heater-scoop',
        width: '8in',
        height: 90,
        endWidth: 120,
        endHeight: 110,
        length: 180,
        offsetRight: 75,
        offsetUp: -30,
        blanks: 'top-off',
        lip: 18,
        lipHole: 4.2,
        end: 'stub',
        stub: 60,
        stubRight: -15,
        stubUp: 5,
        stubMargin: 12,
        material: '1.4301',
        thickness: 1,
        hand: 'both',
      },
    },
  ],
  build: ductBox,
});
