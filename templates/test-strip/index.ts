import {
  angleWish,
  assemble,
  defineTemplate,
  edge,
  figure,
  isOver,
  isUnder,
  middleFold,
  note,
  orLess,
  orMore,
  orTry,
  polygon,
  rectangle,
  refuse,
  wish,
  within,
} from '../../src/template.ts';
import type { Finding, Loop, Vec2 } from '../../src/template.ts';
import { inputs, type Strip } from './inputs.ts';

/** Figures of the fold in the middle. */
interface Middle {
  readonly legMm: number;
  readonly setbackMm: number;
  readonly allowanceMm: number;
  readonly deductionMm: number;
}

/**
 * A coupon of known flat length with a fold in the middle; nicks in both edges mark known distances
 * from the fold line.
 */
export default defineTemplate({
  family: 'test-strip',
  summary: "Coupon for measuring the shop's own bends: a strip with one fold in the middle.",
  sketch: String.raw`
  flat, as it is cut                        folded
  +---------------------------+                 | |  ^
  |         leg B             |                 | |  | leg B, measured
  >                           <  <- nick        | |  |
  |  markDistance             |            _____| |  |
  |- - - - - - A - - - - - - -|           |_______/  v
  |  markDistance             |            leg A
  >                           <
  |         leg A             |   flatLength: the whole blank, upward
  +---------------------------+
            width        deduction = leg A + leg B - flatLength
`,
  inputs,
  // The corners of a coupon stay sharp, and it has no others.
  when: { cornerRadius: [], cornerChamfer: [] },
  cautions: ['sharp-edges'],
  examples: [
    {
      title: 'Coupon of the sheet for the sides of the cart',
      inputs: { name: 'coupon-sides', material: 'dc01', thickness: 1.5, quantity: 3 },
    },
    {
      title: 'Longer coupon of thick plate for the tow bar, wide enough for the long die',
      inputs: {
        name: 'coupon-tow-bar',
        flatLength: 240,
        width: 80,
        material: 's235',
        thickness: 5,
        radius: 6,
        markDistance: 80,
        nick: 3,
      },
    },
    {
      title: 'Odd on purpose: folded well past square, no nicks, K factor of an older coupon',
      inputs: {
        name: 'coupon-lip',
        flatLength: '4in',
        width: 30,
        bendAngle: 135,
        nick: 0,
        material: '5754-h111',
        thickness: 2,
        radius: 3,
        rule: 'k:0.44',
      },
    },
  ],
  build: (v) => {
    const middle = middleFold(v, v.flatLength, v.bendAngle);
    if ('refusal' in middle) return { findings: [middle.refusal] };
    const findings = impossible(v, middle);
    if (findings.length > 0) return { findings };
    return { part: partOf(v, middle), findings: figuresToExpect(v, middle) };
  },
});

function impossible(v: Strip, { allowanceMm }: Middle): Finding[] {
  // A leg has to stick out far enough to be held and measured: at least two thicknesses (common
  // practice).
  const least = allowanceMm + 4 * v.thicknessMm;
  if (isUnder(v.flatLength, least)) {
    const short = refuse(
      'strip-too-short',
      ['flatLength', 'radius'],
      `flatLength ${figure(v.flatLength)} leaves no leg beside a bend of radius ${figure(v.insideRadiusMm)}`,
      [orMore('flatLength', least)],
    );
    return [orTry(short, 'radius')];
  }
  return v.nick === 0 ? [] : [...nicksOffLegs(v, allowanceMm), ...nicksTooDeep(v)];
}

/** Finding on nicks that do not stand clear of the bend and of the end of their leg. */
function nicksOffLegs(v: Strip, allowanceMm: number): Finding[] {
  const [first, last] = [allowanceMm / 2 + v.nick, v.flatLength / 2 - 2 * v.nick];
  if (isOver(first, last)) {
    return [
      refuse(
        'nick-too-deep',
        ['nick', 'flatLength'],
        `nick ${figure(v.nick)} finds no room on a leg of flatLength ${figure(v.flatLength)}`,
        [
          orLess('nick', (v.flatLength - allowanceMm) / 6),
          orMore('flatLength', allowanceMm + 6 * v.nick),
        ],
      ),
    ];
  }
  if (!isUnder(v.markDistance, first) && !isOver(v.markDistance, last)) return [];
  const isInBend = v.markDistance < first;
  const wrong = isInBend
    ? 'lies in the bend'
    : `lies at the end of the strip of flatLength ${figure(v.flatLength)} or off it`;
  return [
    refuse(
      'mark-off-leg',
      ['markDistance', ...(isInBend ? [] : ['flatLength'])],
      `markDistance ${figure(v.markDistance)} ${wrong}`,
      [
        within('markDistance', first, last),
        ...(isInBend ? [] : [orMore('flatLength', 2 * v.markDistance + 4 * v.nick)]),
      ],
    ),
  ];
}

const nicksTooDeep = (v: Strip): Finding[] =>
  isOver(v.nick, v.width / 4)
    ? [
        refuse(
          'nick-too-deep',
          ['nick', 'width'],
          `nick ${figure(v.nick)} on both sides leaves too little of width ${figure(v.width)}`,
          [orLess('nick', v.width / 4), orMore('width', 4 * v.nick)],
        ),
      ]
    : [];

function partOf(v: Strip, middle: Middle) {
  const nickMm = middle.setbackMm + v.markDistance - middle.allowanceMm / 2;
  const legA = legOutline(v, middle.legMm, middle.legMm - nickMm);
  const legB = legOutline(v, middle.legMm, nickMm);
  return assemble(v, {
    root: 'leg A',
    panels: [
      { id: 'leg A', outline: legA, cutouts: [] },
      { id: 'leg B', outline: legB, cutouts: [] },
    ],
    folds: [
      {
        id: 'A',
        parent: { panel: 'leg A', edge: 'top' },
        child: { panel: 'leg B', edge: 'bottom' },
        angleDeg: v.bendAngle,
        direction: 'up',
        insideRadiusMm: v.insideRadiusMm,
      },
    ],
    wishes: [
      wish('width', v.width, edge('leg A', 'left'), edge('leg A', 'right')),
      angleWish('bendAngle', v.bendAngle, 'leg A', 'leg B'),
    ],
  });
}

/**
 * A leg with a square V nick, as deep as half its mouth, at height `nickMm` in both of its edges.
 */
function legOutline({ width, nick }: Strip, lengthMm: number, nickMm: number): Loop {
  const right: Vec2[] = [
    [width, nickMm - nick],
    [width - nick, nickMm],
    [width, nickMm + nick],
  ];
  const left: Vec2[] = [
    [0, nickMm + nick],
    [nick, nickMm],
    [0, nickMm - nick],
  ];
  if (nick === 0) return rectangle(0, 0, width, lengthMm);
  return polygon(
    [0, 0, 'bottom'],
    [width, 0],
    ...right,
    [width, lengthMm, 'top'],
    [0, lengthMm],
    ...left,
  );
}

function figuresToExpect(v: Strip, { legMm, deductionMm }: Middle): Finding[] {
  const tangent =
    v.bendAngle > 90
      ? ` to the outermost tangent of the bend,`
      : ` to where the ${v.measure} faces meet,`;
  return [
    note(
      'coupon-figures',
      `The flat is ${figure(v.flatLength)} long: measure it before folding. Measure both legs${tangent} and subtract: deduction = leg A + leg B - flat. The rule expects ${figure(legMm)} for each leg, and a deduction of ${figure(deductionMm)}.`,
    ),
  ];
}
