import {
  advise,
  biteOfKnife,
  chopSawCuts,
  type CopedMade,
  type CopedTube,
  figure,
  type Finding,
  holeSawCut,
  note,
  orLess,
  orMore,
  refuse,
} from '../../src/template.ts';
import { headerOf, type Values } from './seats.ts';

type Refused = Extract<CopedMade, { ok: false }>;

/** Why the tube cannot be cut as it was asked for. */
export const refusal = (v: Values, { end, flaw }: Refused): Finding => {
  const { given, limit } = flaw;
  switch (flaw.kind) {
    case 'no-tube':
      return refuse(
        'cope-no-bore',
        ['wall', 'diameter'],
        `wall ${figure(v.wall)} leaves no bore in a tube of ${figure(v.diameter)} mm`,
        [orLess('wall', 0.45 * v.diameter)],
      );
    case 'overhang':
      return overhang(v, end, given);
    case 'tight-bend':
      return refuse(
        'cope-bend-in-tube',
        ['bendRadius', 'header'],
        `bendRadius ${figure(given)} is less than half the header of ${figure(2 * limit)} mm`,
        [orMore('bendRadius', 3 * headerOf(v))],
      );
    case 'thinner-beside':
      return refuse(
        'cope-beside-thinner',
        ['beside', 'diameter'],
        `the branch beside, ${figure(given)}, is thinner than this one of ${figure(limit)} mm, which would have to reach round it`,
        [orMore('beside', limit)],
        'cope the thicker branch first, and this one onto it',
      );
    case 'ends-meet':
      return refuse(
        'cope-ends-meet',
        ['length'],
        `nothing is left of the tube at one side: its two cuts overlap by ${figure(-given)} mm`,
        [orMore('length', (v.length ?? 0) - given + 1)],
      );
    case 'angle':
    case 'alongside':
      return refuse(
        'cope-alongside',
        end === 0 ? ['angle'] : ['otherAngle'],
        `the branch runs at ${figure(given)} degrees along what it sits on; ${limit} degrees are the least`,
        [],
        'give a steeper angle',
      );
    case 'misses':
      return refuse(
        'cope-misses',
        ['angle', 'bendSide'],
        `the branch runs past what it sits on at ${figure(given)} degrees of its round`,
        [],
        'let it meet the tube squarely, or give a thicker header',
      );
  }
};

const overhang = (v: Values, end: 0 | 1, reachMm: number): Finding => {
  const isFirst = end === 0;
  const [header, offset] = isFirst
    ? (['header', 'offset'] as const)
    : (['otherHeader', 'otherOffset'] as const);
  const given = isFirst ? headerOf(v) : (v.otherHeader ?? headerOf(v));
  const aside = Math.abs(isFirst ? v.offset : v.otherOffset);
  const room = given / 2 - v.diameter / 2;
  return refuse(
    'cope-overhangs',
    [header, 'diameter', ...(aside > 0 ? [offset] : [])],
    `the branch reaches ${figure(reachMm)} mm from the header's axis, past its side at ${figure(given / 2)}`,
    [orMore(header, 2 * reachMm)],
    room >= 0
      ? `bring it to within ${figure(room)} mm of the header's axis`
      : 'give a thinner branch',
  );
};

/** Flatter than this no torch gets into the acute side (common practice). */
const TORCH_DEG = 30;
/** A square cut that holds off by less than this is filled by the weld (common practice). */
const BITE_MM = 0.3;

/** What is to be known of a tube that can be cut. */
export const remarks = (v: Values, tube: CopedTube): Finding[] => [
  ...(v.angle < TORCH_DEG
    ? [
        advise(
          'cope-acute',
          ['angle'],
          `at ${figure(v.angle)} degrees no torch gets into the acute side of the joint`,
          [orMore('angle', TORCH_DEG)],
          'close it with a gusset',
        ),
      ]
    : []),
  ...tube.ends.flatMap(({ cope }, i) => {
    const bite = biteOfKnife(cope);
    const which = tube.ends.length > 1 ? ` of end ${i + 1}` : '';
    return bite < BITE_MM
      ? []
      : [
          note(
            'cope-square-cut',
            `The curve${which} is that of a cut square to the wall. Cut along where the outside of the tube meets its seat, a square cut would stand off by ${figure(bite, 1)} mm: that line is for a wall ground to a knife edge.`,
          ),
        ];
  }),
  ...sawNote(tube),
  ...chopSawNote(tube),
];

const sawNote = ({ ends, asked }: CopedTube): Finding[] =>
  ends.flatMap(({ cope: { seat } }, i) => {
    const saw = seat.kind === 'header' ? holeSawCut(asked.tube, seat) : undefined;
    if (saw === undefined || !saw.isInOne) return [];
    const beside =
      saw.besideMm === 0 ? '' : `, its arbor ${figure(saw.besideMm)} mm beside the axis`;
    return [
      note(
        'cope-hole-saw',
        `A hole saw of ${figure(saw.sawMm)} mm cuts ${ends.length > 1 ? `end ${i + 1}` : 'it'} in one, the tube turned ${figure(saw.turnedDeg, 1)} degrees from square to the arbor${beside}; it travels ${figure(saw.travelMm, 1)} mm.`,
      ),
    ];
  });

/** What a chop saw turns to, degrees, and a gap that a weld still fills (common practice, from memory). */
const MOST_SAW_DEG = 45;
const MOST_OPEN_MM = 4;

const chopSawNote = ({ ends }: CopedTube): Finding[] =>
  ends.flatMap(({ cope }, i) => {
    const cuts = chopSawCuts(cope);
    if (cuts === undefined || cuts.openMm > MOST_OPEN_MM) return [];
    const { acuteDeg, obtuseDeg, ridgeMm, openMm } = cuts;
    if (acuteDeg > MOST_SAW_DEG || obtuseDeg < 0) return [];
    const leaning =
      figure(acuteDeg, 1) === figure(obtuseDeg, 1)
        ? `${figure(acuteDeg, 1)} degrees from square each`
        : `${figure(acuteDeg, 1)} degrees from square on the acute side and ${figure(obtuseDeg, 1)} on the other`;
    return [
      note(
        'cope-chop-saw',
        `Two cuts of a chop saw${ends.length > 1 ? ` at end ${i + 1}` : ''} do as well: ${leaning}, meeting across the tube at 90 and 270 degrees, ${figure(ridgeMm, 1)} mm from the node. They leave up to ${figure(openMm, 1)} mm open beside the curve.`,
      ),
    ];
  });
