import { figure, type Finding, isUnder, orMore, orTry, refuse } from '../../src/template.ts';

/** The feet of a strap, each with a slot for a bolt that pulls it up; mm. */
interface Feet {
  readonly boltCentres: number;
  readonly boltHole: number;
  readonly pullUp: number;
  /** From the middle of a bolt to the end of its foot. */
  readonly beyond: number;
  readonly width: number;
  /** Between the insides of the sides that stand on the feet. */
  readonly insideMm: number;
  readonly insideRadiusMm: number;
  readonly thicknessMm: number;
}

/** What inputs are called: how wide the held thing is, and how wide the strap. */
interface FeetNames {
  readonly across: string;
  readonly width: string;
}

/** Half the length of a bolt's slot along the foot. */
const halfSlotMm = (v: Pick<Feet, 'boltHole' | 'pullUp'>): number => (v.boltHole + v.pullUp) / 2;

/** Findings on feet that have no room for their slots, each with a figure that has. */
export const impossibleFeet = (v: Feet, names: FeetNames): Finding[] => [
  ...boltsInBends(v, names),
  ...footTooShort(v),
  ...strapTooNarrow(v, names),
];

function boltsInBends(v: Feet, { across }: FeetNames): Finding[] {
  const centres = v.insideMm + 2 * (v.insideRadiusMm + 2 * v.thicknessMm + halfSlotMm(v));
  if (!isUnder(v.boltCentres, centres)) return [];
  const close = refuse(
    'bolts-too-close',
    ['boltCentres'],
    `boltCentres ${figure(v.boltCentres)} puts the slots into the bends of the feet`,
    [orMore('boltCentres', centres)],
  );
  return [orTry(close, across, 'boltHole')];
}

function footTooShort(v: Feet): Finding[] {
  const beyond = halfSlotMm(v) + v.thicknessMm;
  if (!isUnder(v.beyond, beyond)) return [];
  const short = refuse(
    'foot-too-short',
    ['beyond'],
    `beyond ${figure(v.beyond)} leaves no metal between the slot and the end of the foot`,
    [orMore('beyond', beyond)],
  );
  return [orTry(short, 'boltHole', 'pullUp')];
}

function strapTooNarrow(v: Feet, { width: called }: FeetNames): Finding[] {
  const width = v.boltHole + 2 * v.thicknessMm;
  if (!isUnder(v.width, width)) return [];
  const narrow = refuse(
    'strap-too-narrow',
    [called, 'boltHole'],
    `${called} ${figure(v.width)} leaves no metal beside slots of boltHole ${figure(v.boltHole)}`,
    [orMore(called, width)],
  );
  return [orTry(narrow, 'boltHole')];
}
