import {
  asBoltHole,
  type Built,
  FOLD_AXES,
  type HoleSpec,
  meeting,
  MIDDLE_OF_SHEET,
  type Part,
  setbackMm,
  stripPart,
  type StripFold,
  type StripPanel,
} from '../../src/template.ts';
import type { Saddle } from './inputs.ts';
import { impossibleSaddle } from './limits.ts';
import { saddleNotes } from './notes.ts';
import { saddleReport } from './report.ts';
import { boltsMm, CROWN_MM, hugRadiusMm, type Profile, profileOf } from './sizes.ts';
import { withSaddleWishes } from './wishes.ts';

/** Ears, sides and crown in a row; a P clip has no bend at its first ear, which is its foot. */
export function saddle(v: Saddle): Built {
  const impossible = impossibleSaddle(v);
  if (impossible.length > 0) return { findings: impossible };
  const profile = profileOf(v);
  const { panels, folds } = v.kind === 'p' ? onceRound(v, profile) : symmetrical(v, profile);
  const { part, findings = [] } = stripPart(outside(v), v.width, panels, folds, 'crown');
  const made = part && withSaddleWishes(v, profile, hugged(v, part));
  const report = saddleReport(v, profile);
  const notes = saddleNotes(v, profile);
  const told = { findings: [...findings, ...notes], report };
  if (made === undefined) return told;
  return v.kind === 'halves'
    ? { ...told, pieces: [{ id: 'half', part: made, quantity: 2 }] }
    : { ...told, part: made };
}

/** With outside measure: the sizes are those of the tube and of what it is bolted to. */
const outside = (v: Saddle): Saddle => ({ ...v, measure: 'outside' });

interface Strip {
  readonly panels: readonly StripPanel[];
  readonly folds: readonly StripFold[];
}

const symmetrical = (v: Saddle, profile: Profile): Strip => {
  const [a, b] = boltsMm(v, profile);
  const ear = { angleDeg: profile.earDeg, direction: 'up' } as const;
  const hug = { angleDeg: profile.hugDeg / 2, direction: 'down' } as const;
  const side = taken(v, ear) + profile.straightMm + taken(v, hug);
  return {
    panels: [
      earPanel(v, 'ear A', a - profile.flatFromMm, taken(v, ear)),
      { id: 'side A', lengthMm: side },
      { id: 'crown', lengthMm: CROWN_MM + 2 * taken(v, hug) },
      { id: 'side B', lengthMm: side },
      earPanel(v, 'ear B', b - profile.flatFromMm, taken(v, ear)),
    ],
    folds: [ear, hug, hug, ear],
  };
};

const onceRound = (v: Saddle, profile: Profile): Strip => {
  const ear = { angleDeg: profile.earDeg, direction: 'up' } as const;
  const hug = { angleDeg: profile.hugDeg / 2, direction: 'down' } as const;
  const side = taken(v, ear) + profile.straightMm + taken(v, hug);
  const [bolt] = boltsMm(v, profile);
  return {
    panels: [
      earPanel(v, 'foot', bolt, taken(v, hug)),
      { id: 'crown', lengthMm: CROWN_MM + 2 * taken(v, hug) },
      { id: 'side', lengthMm: side },
      earPanel(v, 'ear', bolt - profile.flatFromMm, taken(v, ear)),
    ],
    folds: [hug, hug, ear],
  };
};

/** What a fold takes off a panel beside it: the folds of the hug go down, those of ears up. */
const taken = (v: Saddle, { angleDeg, direction }: StripFold): number =>
  setbackMm(
    angleDeg,
    direction === 'down' ? hugRadiusMm(v) : v.insideRadiusMm,
    v.thicknessMm,
    'outside',
  );

/** An ear, its bolt so far from where it becomes flat. */
const earPanel = (v: Saddle, id: string, boltMm: number, setback: number): StripPanel => ({
  id,
  lengthMm: setback + boltMm + v.beyond,
  holes: ['boltHole', [boltSpec(v, setback + boltMm)]],
});

const boltSpec = (v: Saddle, acrossMm: number): HoleSpec => ({
  acrossMm,
  alongMm: v.width / 2,
  number: '1',
  axes: FOLD_AXES,
  ...meeting(asBoltHole({ shape: { kind: 'round', diameterMm: v.boltHole } }), 'mounting'),
});

/** The part with its hug formed round the tube's size; the middle of the sheet keeps its length. */
const hugged = (v: Saddle, part: Part): Part => ({
  ...part,
  folds: part.folds.map((fold) =>
    fold.direction === 'down'
      ? { ...fold, insideRadiusMm: hugRadiusMm(v), rule: MIDDLE_OF_SHEET, rolled: true }
      : fold,
  ),
});
