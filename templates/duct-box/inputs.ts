import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { sheetSize } from './sheet-size.ts';

/**
 * Axes of a wall: down from the aperture, and along it from the wall at which the aperture's edge
 * begins, seen from outside.
 */
const wallAxes = (near: string, far: string) =>
  [
    { from: 'aperture', at: 'the aperture, down the wall' },
    { from: near, at: `the outside of the ${near} at the aperture`, to: far },
  ] as const;

export const inputs = {
  ...fields.group('Sizes', {
    width: fields.length({
      about:
        'Width of the aperture, left to right: over the outsides of the walls in the plane of the lips, or with measure inside the clear opening.',
      min: 20,
      max: 3000,
      example: 240,
      anchor: { kind: 'panel', panel: 'bottom' },
    }),
    height: fields.length({
      about: 'Height of the aperture, measured like the width.',
      min: 20,
      max: 3000,
      example: 160,
      anchor: { kind: 'panel', panel: 'left' },
    }),
    endWidth: fields.length({
      about: 'Width of the other end, measured on the same faces; with a stub, that of its plate.',
      min: 10,
      max: 3000,
      example: 140,
      anchor: { kind: 'panel', panel: 'bottom' },
    }),
    endHeight: fields.length({
      about: 'Height of the other end.',
      min: 10,
      max: 3000,
      example: 120,
      anchor: { kind: 'panel', panel: 'left' },
    }),
    length: fields.length({
      about:
        'Overall length, from the plane of the aperture to that of the end: over the lips and the plate of a stub.',
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
      anchor: { kind: 'beside', what: 'the line between the middles of both ends' },
    }),
    offsetUp: fields.length({
      about:
        'How far the middle of the end lies above the middle of the aperture; less than 0 below.',
      min: -3000,
      max: 3000,
      default: 0,
      anchor: { kind: 'beside', what: 'the line between the middles of both ends' },
    }),
  }),
  ...fields.group('Fixing lips', {
    lip: fields.length({
      about:
        'Fixing lips round the aperture, turned outward, 0 for none: from the free edge to the outside corner of their own bend (a lip stands a thickness less beyond its wall), with measure inside beyond the outside of the wall. Their corners stay open.',
      min: 0,
      max: 500,
      default: 20,
    }),
    lipForm: fields.choice({
      about:
        'How they are made: folded on the walls, or as a flat ring of its own round the walls, welded to them, that reaches as far; auto folds them where a machine of the shop does.',
      choices: ['auto', 'folded', 'ring'],
      default: 'auto',
      when: { lip: 'more than 0' },
      isMaking: true,
    }),
    lipHole: fields.optionalLength({
      about: 'Diameter of the fixing holes along the middle of the lips.',
      min: 1,
      max: 50,
      example: 5,
      otherwise: 'no holes',
      when: { lip: 'more than 0' },
    }),
    lipPitch: fields.length({
      about: 'The furthest that fixing holes stand from each other.',
      min: 5,
      max: 1000,
      default: 80,
      when: { lip: 'more than 0', lipHole: 'given' },
      anchor: { kind: 'as', input: 'lipHole' },
    }),
  }),
  ...fields.group('Other end', {
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
      when: { end: ['lip-in', 'lip-out'] },
    }),
  }),
  ...fields.group('Stub', {
    stub: fields.length({
      about: 'Outside diameter of the tube of the stub.',
      min: 5,
      max: 2500,
      default: 80,
      when: { end: ['stub'] },
    }),
    stubWall: fields.length({
      about: 'Wall of that tube; for the area of its bore.',
      min: 0,
      max: 50,
      default: 1.5,
      when: { end: ['stub'] },
      anchor: { kind: 'beside', what: 'the tube of the stub' },
    }),
    stubFit: fields.length({
      about: 'How much larger the hole is than the tube.',
      min: 0,
      max: 20,
      default: 0.5,
      when: { end: ['stub'] },
      anchor: { kind: 'as', input: 'stub' },
    }),
    stubRight: fields.length({
      about: 'How far the stub sits to the right of the middle of the end.',
      min: -1500,
      max: 1500,
      default: 0,
      when: { end: ['stub'] },
      anchor: { kind: 'as', input: 'stub' },
    }),
    stubUp: fields.length({
      about: 'How far the stub sits above the middle of the end.',
      min: -1500,
      max: 1500,
      default: 0,
      when: { end: ['stub'] },
      anchor: { kind: 'as', input: 'stub' },
    }),
    stubMargin: fields.length({
      about:
        'Least distance of the edge of the stub hole from the welds round its plate and from where its bend begins.',
      min: 0,
      max: 500,
      default: 10,
      when: { end: ['stub'] },
      anchor: { kind: 'as', input: 'stub' },
    }),
    plateOn: fields.choice({
      about:
        'The wall that the plate of a stub is folded on to; its other three edges lie on the walls and are welded. none makes it a piece of its own.',
      choices: ['none', 'bottom', 'right', 'top', 'left'],
      default: 'none',
      isMaking: true,
      when: { end: ['stub'] },
    }),
  }),
  ...fields.group('Blanks and seams', {
    blanks: fields.choice({
      about:
        'Walls in one blank, in two L-shaped halves with seams at opposite corners, or with the top a sheet of its own; auto takes one blank where it fits the sheet, else halves, and where no machine of the shop folds that, what one does.',
      choices: ['auto', 'whole', 'halves', 'top-off'],
      default: 'auto',
      isMaking: true,
    }),
    seam: fields.choice({
      about:
        'The corner that is welded, looking into the aperture; halves are welded at the one opposite too, and a top of its own at both its sides instead. cornerGap is the gap.',
      choices: ['bottom-right', 'top-right', 'top-left', 'bottom-left'],
      default: 'bottom-left',
      when: { blanks: ['auto', 'whole', 'halves'] },
    }),
    ...sheetSize,
  }),
  ...fields.group('Holes', {
    holesBottom: fields.holes({ about: 'Holes in the bottom', axes: wallAxes('right', 'left') }),
    holesRight: fields.holes({ about: 'Holes in the right wall', axes: wallAxes('top', 'bottom') }),
    holesTop: fields.holes({ about: 'Holes in the top', axes: wallAxes('left', 'right') }),
    holesLeft: fields.holes({ about: 'Holes in the left wall', axes: wallAxes('bottom', 'top') }),
  }),
};

/** Inputs of a duct box, in mm. Left, right and up are as seen looking into the aperture. */
export type DuctBox = TemplateValues<typeof inputs>;
