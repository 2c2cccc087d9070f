import { advise, figure, type Finding, formerRadiusMm, note, orMore } from '../../src/template.ts';
import type { Saddle } from './inputs.ts';
import { hugRadiusMm, type Profile } from './sizes.ts';

/** What the user should know about how the clip is formed, and how it holds. */
export const saddleNotes = (v: Saddle, profile: Profile): Finding[] => [
  ...hugNote(v, profile),
  ...slidNote(v, profile),
  ...tightNote(v),
];

const hugNote = (v: Saddle, { hugDeg }: Profile): Finding[] => {
  const [one, other] = v.kind === 'p' ? ['A', 'B'] : ['B', 'C'];
  const former = formerRadiusMm(v.material, hugRadiusMm(v), v.thicknessMm);
  return [
    note(
      'clip-hug',
      `Folds ${one} and ${other} are one hug of ${figure(hugDeg, 1)} degrees: form it in one go, after the ears, round a pipe or bar of ${figure(2 * former, 1)} across, from which it springs open to ${figure(2 * hugRadiusMm(v))}.`,
    ),
  ];
};

/** Nobody gets a tube into a clip that goes farther round than half of it from the side. */
const slidNote = (v: Saddle, { hugDeg }: Profile): Finding[] =>
  v.kind !== 'halves' && hugDeg > 180
    ? [
        note(
          'clip-slid-on',
          `It goes ${figure(hugDeg, 0)} degrees round the tube: slide it on from an end, or spring it open, before it is bolted.`,
        ),
      ]
    : [];

/**
 * A clip that is drawn together by its gap gets shorter by about as much; less than this share of the
 * hug it does not bite (common practice).
 */
const LEAST_DRAW = 0.005;

const tightNote = (v: Saddle): Finding[] => {
  const least = LEAST_DRAW * Math.PI * 2 * hugRadiusMm(v);
  return v.gap >= least || v.rubber > 0
    ? []
    : [
        advise(
          'clip-loose',
          ['gap', 'rubber'],
          `gap ${figure(v.gap)} without rubber is drawn shut before the clip is tight on a tube that is a little under size`,
          [orMore('gap', least)],
          'put rubber between',
        ),
      ];
};
