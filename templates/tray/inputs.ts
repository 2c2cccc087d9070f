import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

/**
 * Axes of a side: up from the base, and along it from the left end of the tray seen from outside.
 */
const sideAxes = (left: string, right: string) =>
  [
    { from: 'base', at: 'the outside of the base', to: 'top' },
    { from: left, at: `the outside of the ${left}`, to: right },
  ] as const;
const HEMS = ['hem-in', 'hem-out'] as const;
const LIPS_UP = ['in', 'out', ...HEMS] as const;
const LIPS = ['none', ...LIPS_UP] as const;

export const inputs = {
  ...fields.group('Sizes', {
    length: fields.length({
      about: 'Length of the tray, over left and right; with measure inside between them.',
      min: 10,
      max: 3000,
      example: 200,
    }),
    depth: fields.length({
      about: 'Depth of the tray, over front and back; with measure inside between them.',
      min: 10,
      max: 3000,
      example: 140,
    }),
    height: fields.length({
      about:
        'Height of the four sides, from the outside of the base to their rim; with measure inside from its inside, whether there are lips or not.',
      min: 5,
      max: 1000,
      example: 45,
    }),
  }),
  ...fields.group('Corners', {
    corner: fields.choice({
      about:
        'How the sides meet: open, all cut back alike; butt, front and back end before the inside of left and right; lapped, front and back carry tabs that lie against the inside of left and right.',
      choices: ['open', 'butt', 'lapped'],
      default: 'open',
      isMaking: true,
    }),
    lap: fields.length({
      about:
        'Length of the tabs of a lapped tray, from the outside of the front or the back, with measure inside from their inside; cornerRadius rounds their free corners.',
      min: 3,
      max: 300,
      default: 20,
      when: { corner: ['lapped'] },
    }),
  }),
  ...fields.group('Lips and hems', {
    lipFront: fields.choice({
      about:
        'Return along the top of the front: turned in or out square, or a hem folded flat inside or outside.',
      choices: LIPS,
      default: 'none',
      mayTurn: true,
    }),
    lipBack: fields.choice({
      about: 'Return along the top of the back.',
      choices: LIPS,
      default: 'none',
      mayTurn: true,
    }),
    lipLeft: fields.choice({
      about: 'Return along the top of the left side.',
      choices: LIPS,
      default: 'none',
      mayTurn: true,
    }),
    lipRight: fields.choice({
      about: 'Return along the top of the right side.',
      choices: LIPS,
      default: 'none',
      mayTurn: true,
    }),
    lipDepth: fields.length({
      about:
        'Depth of the lips, from their free edge to the outside corner of their own bend, with measure inside to its inside corner (a lip turned out stands a thickness less beyond its side), or of the hems from the top.',
      min: 1,
      max: 500,
      default: 15,
      when: [
        { lipFront: LIPS_UP },
        { lipBack: LIPS_UP },
        { lipLeft: LIPS_UP },
        { lipRight: LIPS_UP },
      ],
    }),
    hemRadius: fields.optionalLength({
      about: 'Inside radius of the hems; 0 is a hem closed hard.',
      min: 0,
      max: 50,
      example: 1,
      otherwise:
        'the least the material takes when folded right over, or the radius of the other bends if that is larger',
      when: [{ lipFront: HEMS }, { lipBack: HEMS }, { lipLeft: HEMS }, { lipRight: HEMS }],
      anchor: { kind: 'as', input: 'lipDepth' },
    }),
    hemShape: fields.choice({
      about:
        'How a hem with a radius ends: flat, parallel to its side with a gap of twice the radius; teardrop, with a loop of that radius and its edge pressed down on its side.',
      choices: ['flat', 'teardrop'],
      default: 'flat',
      when: [{ lipFront: HEMS }, { lipBack: HEMS }, { lipLeft: HEMS }, { lipRight: HEMS }],
    }),
  }),
  ...fields.group('Cable cut-out', {
    cableSide: fields.choice({
      about: 'The side with a U cut into its top edge for cables; it must have no lip.',
      choices: ['none', 'front', 'back', 'left', 'right'],
      default: 'none',
    }),
    cableWidth: fields.length({
      about: 'Width of the cable cut-out, whose bottom is a half circle.',
      min: 2,
      max: 300,
      default: 20,
      when: { cableSide: ['front', 'back', 'left', 'right'] },
      anchor: { kind: 'panel of', input: 'cableSide' },
    }),
    cableDepth: fields.length({
      about: 'How far the cable cut-out reaches down from the top edge.',
      min: 1,
      max: 900,
      default: 15,
      when: { cableSide: ['front', 'back', 'left', 'right'] },
      anchor: { kind: 'panel of', input: 'cableSide' },
    }),
    cableAt: fields.optionalLength({
      about: 'Middle of the cable cut-out, from the left end of the tray seen from outside.',
      min: 1,
      max: 3000,
      example: 60,
      otherwise: 'the middle of the side',
      when: { cableSide: ['front', 'back', 'left', 'right'] },
      anchor: { kind: 'panel of', input: 'cableSide' },
    }),
  }),
  ...fields.group('Holes', {
    holesBase: fields.holes({
      about: 'Holes in the base',
      axes: [
        { from: 'front', at: 'the outside of the front', to: 'back' },
        { from: 'left', at: 'the outside of the left side', to: 'right' },
      ],
    }),
    holesFront: fields.holes({ about: 'Holes in the front', axes: sideAxes('left', 'right') }),
    holesBack: fields.holes({ about: 'Holes in the back', axes: sideAxes('right', 'left') }),
    holesLeft: fields.holes({ about: 'Holes in the left side', axes: sideAxes('back', 'front') }),
    holesRight: fields.holes({ about: 'Holes in the right side', axes: sideAxes('front', 'back') }),
  }),
};

/** Inputs of a tray, in mm. */
export type Tray = TemplateValues<typeof inputs>;
