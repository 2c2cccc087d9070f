import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

const CUT = 'the larger of 25 mm and what the rounded corner of the tank and the bends ask for';

export const inputs = {
  ...fields.group('Tank', {
    width: fields.length({ about: 'Inside width of the tank.', min: 80, max: 3000, example: 400 }),
    height: fields.length({
      about:
        'Inside depth of the tank from roof to floor; at the left wall and at the deep end, where it changes.',
      min: 60,
      max: 3000,
      example: 300,
    }),
    heightRight: fields.optionalLength({
      about:
        'Inside depth at the right wall, seen from the deep end, where the floor slopes across the tank.',
      min: 20,
      max: 3000,
      example: 260,
      otherwise: 'that of the left wall',
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    heightShallow: fields.optionalLength({
      about:
        'Inside depth at the shallow end, at the left wall, where the floor slopes along the tank; every baffle then gets its own depth, and its flanges point to the deep end.',
      min: 20,
      max: 3000,
      example: 180,
      otherwise: 'that of the deep end',
      when: { tankLength: 'given' },
      anchor: { kind: 'beside', what: 'the tank' },
    }),
    wallRadius: fields.length({
      about: "Inside radius of the tank's corners along its floor, 0 for sharp ones.",
      min: 0,
      max: 500,
      default: 0,
      example: 30,
      anchor: { kind: 'beside', what: 'the tank' },
    }),
    roofRadius: fields.optionalLength({
      about: "Inside radius of the tank's corners along its roof.",
      min: 0,
      max: 500,
      example: 0,
      otherwise: 'that of the floor',
      anchor: { kind: 'beside', what: 'the tank' },
    }),
    tankLength: fields.optionalLength({
      about:
        'Inside length of the tank; with it all its baffles are made, and the report says where they stand and what each bay holds.',
      min: 100,
      max: 10_000,
      example: 904,
      otherwise: 'one baffle is made',
      anchor: { kind: 'beside', what: 'the tank' },
    }),
    longestBay: fields.length({
      about:
        'The longest bay wanted between two baffles, or a baffle and an end; common practice is 300 to 450 mm.',
      min: 50,
      max: 5000,
      default: 400,
      when: { tankLength: 'given' },
      anchor: { kind: 'beside', what: 'the bays between the baffles' },
    }),
    clearance: fields.length({
      about: 'Clearance of the baffle to floor, walls and roof.',
      min: 0,
      max: 10,
      default: 1,
    }),
  }),
  ...fields.group('Flanges', {
    flange: fields.length({
      about:
        'Width of the flanges, from their free edge to the outside of the plate; with measure inside, to its inside.',
      min: 5,
      max: 100,
      default: 20,
      when: [
        { flangeFloor: [true] },
        { flangeLeft: [true] },
        { flangeRight: [true] },
        { flangeRoof: [true] },
      ],
    }),
    flangeFloor: fields.flag({
      about: 'Whether there is a flange along the floor; it lies on the slope of the floor.',
      default: true,
    }),
    flangeLeft: fields.flag({
      about: 'Whether there is a flange on the left wall.',
      default: true,
    }),
    flangeRight: fields.flag({
      about: 'Whether there is a flange on the right wall.',
      default: true,
    }),
    flangeRoof: fields.flag({ about: 'Whether there is a flange along the roof.', default: false }),
  }),
  ...fields.group('Openings', {
    limber: fields.optionalLength({
      about:
        'Limber notches: how far the corners at the floor are cut along both their edges, so that the tank drains; 0 for none.',
      min: 0,
      max: 300,
      example: 30,
      otherwise: CUT,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    vent: fields.optionalLength({
      about:
        'Vent notches: how far the corners at the roof are cut along both their edges, so that air passes; 0 for none.',
      min: 0,
      max: 300,
      example: 25,
      otherwise: CUT,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    holeDiameter: fields.length({
      about: 'Diameter of the flow holes.',
      min: 3,
      max: 1000,
      default: 40,
    }),
    openPercent: fields.count({
      about:
        'Share of the section of the tank, in percent, that flow holes, cut corners and holes together are to leave open; as many flow holes are cut as it takes. 0 for no flow holes.',
      min: 0,
      max: 80,
      default: 12,
      when: { holeCount: [0] },
    }),
    holeCount: fields.count({
      about: 'Number of flow holes, instead of openPercent; 0 leaves it to openPercent.',
      min: 0,
      max: 500,
      default: 0,
    }),
    holeGap: fields.optionalLength({
      about:
        'Least metal between two flow holes, and between a flow hole and anything else; to edges and bends it is never under 2 thicknesses.',
      min: 1,
      max: 500,
      example: 25,
      otherwise: 'the larger of 2 thicknesses and half the diameter of the holes',
      anchor: { kind: 'as', input: 'holeDiameter' },
    }),
  }),
  ...fields.group('Swage', {
    swage: fields.choice({
      about:
        'A stiffening swage half way across the plate or half way up it, rolled or pressed afterwards: a small hole marks either end of its line, and flow holes keep clear.',
      choices: ['none', 'upright', 'level'],
      default: 'none',
    }),
    swageWidth: fields.length({
      about: 'Width of the swage.',
      min: 5,
      max: 300,
      default: 25,
      when: { swage: ['upright', 'level'] },
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
  }),
  ...fields.group('Holes', {
    holesPanel: fields.holes({
      about: 'Holes at given places, of which flow holes keep clear',
      axes: [
        { from: 'floor', at: 'the left end of the floor upward' },
        { from: 'left', at: 'the left wall' },
      ],
    }),
  }),
};

/** Inputs for the baffles of a tank, mm. */
export type BaffleSet = TemplateValues<typeof inputs>;
