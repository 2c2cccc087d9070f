import { fields, XY_AXES } from '../../src/template.ts';

const SENDER = { sender: 'given' } as const;
const STICK = { ...SENDER, senderKind: ['stick'] } as const;
const ARM = { ...SENDER, senderKind: ['arm'] } as const;

/** The sender of a tank: where it hangs, how far it reaches, and what it shows. */
export const senderInputs = {
  ...fields.group('Sender', {
    sender: fields.holes({
      about: 'Hole of the sender in the top, and those of its screws',
      axes: XY_AXES,
      example: '300,200,54',
    }),
    senderAt: fields.choice({
      about:
        'Whether the sender stands where sender says, or moves to the nearest place that leaves the reserve, clear of walls, baffles and other fittings.',
      choices: ['given', 'reserve'],
      default: 'given',
      when: { ...STICK, reserve: 'more than 0' },
    }),
    senderKind: fields.choice({
      about:
        'Whether the sender is a stick, whose float runs along it, or an arm that swings a float up and down.',
      choices: ['stick', 'arm'],
      default: 'stick',
      when: SENDER,
    }),
    senderLength: fields.optionalLength({
      about: 'Length of the sender below the underside of the top.',
      min: 20,
      max: 3000,
      example: 250,
      otherwise: 'the longest in steps of senderStep that stays senderFoot over the floor',
      when: STICK,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderStep: fields.length({
      about: 'Step of the lengths in which the sender is sold.',
      min: 1,
      max: 200,
      default: 10,
      when: STICK,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderFoot: fields.length({
      about: 'Air between the end of the sender, or its float, and the floor below it.',
      min: 0,
      max: 200,
      default: 10,
      when: SENDER,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderEmpty: fields.length({
      about: 'How far over its end the level stands when it reads empty.',
      min: 0,
      max: 200,
      default: 20,
      when: STICK,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderFull: fields.length({
      about: 'How far below the underside of the top the level stands when it reads full.',
      min: 0,
      max: 500,
      default: 30,
      when: STICK,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderPivot: fields.length({
      about: 'How far below the underside of the top the pivot of the arm is.',
      min: 5,
      max: 2000,
      default: 100,
      when: ARM,
      anchor: { kind: 'beside', what: 'the arm of the sender' },
    }),
    senderArm: fields.length({
      about: 'Length of the arm, from its pivot to the middle of the float.',
      min: 20,
      max: 1000,
      default: 150,
      when: ARM,
      anchor: { kind: 'beside', what: 'the arm of the sender' },
    }),
    senderDown: fields.angle({
      about: 'How far the arm hangs below the level when it reads empty.',
      min: 0,
      max: 85,
      default: 45,
      when: ARM,
      anchor: { kind: 'beside', what: 'the arm of the sender' },
    }),
    senderUp: fields.angle({
      about: 'How far it stands over the level when it reads full.',
      min: 0,
      max: 85,
      default: 30,
      when: ARM,
      anchor: { kind: 'beside', what: 'the arm of the sender' },
    }),
    senderTurn: fields.angle({
      about: 'Which way the arm points in plan, from along x towards along y.',
      min: -180,
      max: 360,
      default: 0,
      when: ARM,
      anchor: { kind: 'beside', what: 'the arm of the sender' },
    }),
    senderFloat: fields.length({
      about: 'Largest size of the float, whose middle is the level.',
      min: 5,
      max: 200,
      default: 40,
      when: ARM,
      anchor: { kind: 'beside', what: 'the float of the sender' },
    }),
    ohmsEmpty: fields.count({
      about: 'Ohms of the sender when it reads empty; the same as ohmsFull for no table of them.',
      min: 0,
      max: 10_000,
      default: 0,
      when: SENDER,
    }),
    ohmsFull: fields.count({
      about: 'Ohms of the sender when it reads full.',
      min: 0,
      max: 10_000,
      default: 0,
      when: SENDER,
    }),
    reserve: fields.count({
      about: 'Litres that are to be left when the sender reads empty; 0 for no wish.',
      min: 0,
      max: 1000,
      default: 0,
      // A pair is told where it stands with its reserve, whether or not a sender shows it.
      when: [SENDER, { link: 'given' }],
    }),
  }),
};
