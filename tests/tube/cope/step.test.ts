import { expect, test } from 'vitest';
import { copedBody } from '../../../src/solid/cope-step.ts';
import { loadKernel } from '../../../src/solid/step.ts';
import { StepKernel } from '../../../src/solid/step-kernel.ts';
import { type CopedAsked, copedTube } from '../../../src/tube/cope/coped-tube.ts';
import { surfaceCutBack } from '../../../src/tube/cope/cut-back.ts';
import { bodiesOf, type Seat } from '../../../src/tube/cope/seat.ts';
import { inTurns } from '../../helpers/extent.ts';
import { readStep } from '../../helpers/step.ts';

const ON_48 = { kind: 'header', diameterMm: 48.3, angleDeg: 60, offsetMm: 5 } as const;
const ON_30 = { kind: 'header', diameterMm: 30, angleDeg: 50, offsetMm: 0 } as const;
const ON_BEND = {
  kind: 'bend',
  diameterMm: 40,
  bendRadiusMm: 120,
  angleDeg: 70,
  leavesDeg: 20,
  beforeDeg: 30,
  behindDeg: 25,
} as const;

const SEATS: readonly {
  readonly on: string;
  readonly seat: Seat;
  readonly other?: CopedAsked['other'];
}[] = [
  { on: 'a bend', seat: ON_BEND },
  {
    on: 'a bend as thick as the branch, square',
    seat: { ...ON_BEND, diameterMm: 30, angleDeg: 90 },
  },
  { on: 'a bend, from within', seat: { ...ON_BEND, leavesDeg: 180, angleDeg: 50, diameterMm: 34 } },
  { on: 'a plate', seat: { kind: 'plate', angleDeg: 50 } },
  { on: 'a header, beside its middle', seat: ON_48 },
  { on: 'a header at a flat angle', seat: { ...ON_48, diameterMm: 31, angleDeg: 25, offsetMm: 0 } },
  { on: 'a header as thick as the branch', seat: ON_30 },
  {
    on: 'headers at both ends',
    seat: ON_48,
    other: { seat: { ...ON_48, angleDeg: 40, offsetMm: -5 }, clockDeg: 70 },
  },
  { on: 'a header as thick as the branch, square', seat: { ...ON_30, angleDeg: 90 } },
  {
    on: 'a header and a branch as thick, all three in a node',
    seat: { ...ON_30, beside: { diameterMm: 30, angleDeg: 110, roundDeg: 0, apartMm: 0 } },
  },
  {
    on: 'a header and a branch that is turned out of its plane',
    seat: { ...ON_48, beside: { diameterMm: 40, angleDeg: 70, roundDeg: 75, apartMm: 4 } },
  },
];

/**
 * Metal of a tube whose every layer ends where it meets its seat, in mm3: its length added up over the
 * wall, layer by layer and place by place.
 */
const metalOf = ({ tube, seat, lengthMm, other }: CopedAsked): number => {
  const outside = tube.diameterMm / 2;
  const back = (of: Seat, r: number, deg: number): number =>
    surfaceCutBack(bodiesOf(of), r, deg) as number;
  const [layers, places] = [12, 360];
  let sum = 0;
  for (let i = 0; i < layers; i += 1) {
    const r = outside - ((i + 0.5) / layers) * tube.wallMm;
    for (let k = 0; k < places; k += 1) {
      const deg = ((k + 0.5) * 360) / places;
      const end = other === undefined ? 0 : back(other.seat, r, other.clockDeg - deg);
      sum += r * (lengthMm - end - back(seat, r, deg));
    }
  }
  return (sum * tube.wallMm * 2 * Math.PI) / layers / places;
};

test.each(inTurns(SEATS, 3, 4))(
  'the kernel reads the STEP of a tube on $on as one sound body of its metal',
  async ({ seat, other }) => {
    const asked: CopedAsked = {
      tube: { diameterMm: 30, wallMm: 2 },
      seat,
      other,
      lengthMm: 200,
      hasKnife: false,
      hasHeaderHole: false,
      paperMm: 0.1,
    };
    const made = copedTube(asked);
    if (!made.ok) throw new Error(JSON.stringify(made.flaw));
    const kernel = new StepKernel(await loadKernel());
    const body = await readStep(kernel.stepText(copedBody(kernel, made.coped)));
    kernel.free();
    expect(body).toMatchObject({ solids: 1, isValid: true });
    expect(Math.abs(body.volume / metalOf(asked) - 1)).toBeLessThan(3e-4);
  },
);
