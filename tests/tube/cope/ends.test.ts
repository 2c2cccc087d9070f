import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { copeOn, placesRound } from '../../../src/tube/cope/cope.ts';
import { headerHole } from '../../../src/tube/cope/header-hole.ts';
import { holeSawCut } from '../../../src/tube/cope/hole-saw.ts';
import { mitreOf } from '../../../src/tube/cope/mitre.ts';
import type { HeaderSeat } from '../../../src/tube/cope/seat.ts';
import { cutStrut } from '../../../src/tube/cope/two-ends.ts';
import { fuzzRuns } from '../../helpers/extent.ts';
import { published } from '../../helpers/published.ts';
import { fromAxis, type P } from './witness.ts';

const TUBE = { diameterMm: 40, wallMm: 2 };
const seat = (angleDeg: number, offsetMm = 0): HeaderSeat => ({
  kind: 'header',
  diameterMm: 60,
  angleDeg,
  offsetMm,
});

const rad = (deg: number): number => (deg * Math.PI) / 180;
const dot = (a: P, b: P): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

describe('a tube between two nodes', () => {
  it('stands on both headers at once, wherever the second one lies', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 35, max: 90, noNaN: true }),
        fc.double({ min: 35, max: 90, noNaN: true }),
        fc.double({ min: -10, max: 10, noNaN: true }),
        fc.double({ min: -10, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (a, b, e, f, clockDeg) => {
          const made = cutStrut({
            tube: TUBE,
            nodesMm: 400,
            seats: [seat(a, e), seat(b, f)],
            clockDeg,
          });
          if (!made.ok) throw new Error(made.flaw.kind);
          // The tube's axis is z, its first acute side x. The second header, seen in this frame:
          // its acute side lies at the clocking, and it leans back from the far node.
          const k = rad(clockDeg);
          const acute: P = [Math.cos(k), Math.sin(k), 0];
          const u: P = [
            acute[0] * Math.sin(rad(b)),
            acute[1] * Math.sin(rad(b)),
            -Math.cos(rad(b)),
          ];
          // Degrees run the other way from that end: its side at 90 degrees.
          const side: P = [Math.sin(k), -Math.cos(k), 0];
          const through: P = [-f * side[0], -f * side[1], 400];
          expect(Math.abs(dot(u, side))).toBeLessThan(1e-12);
          let touches = Infinity;
          for (const deg of placesRound(72))
            for (const r of [18, 18.5, 19, 19.5, 20]) {
              const at = (z: number): P => [r * Math.cos(rad(deg)), r * Math.sin(rad(deg)), z];
              const off = fromAxis(at(made.strut.endMm(deg)), through, u) - 30;
              expect(off).toBeGreaterThan(-1e-4);
              touches = Math.min(touches, off);
            }
          expect(touches).toBeLessThan(1e-3);
        },
      ),
      { numRuns: fuzzRuns(60) },
    );
  });

  it('square between two headers it is as long as the gap, and so is its stock', () => {
    const made = cutStrut({ tube: TUBE, nodesMm: 400, seats: [seat(90), seat(90)], clockDeg: 0 });
    if (!made.ok) throw new Error(made.flaw.kind);
    // At the sides its inside radius reaches down to sqrt(30^2 - 18^2) = 24 on either header.
    expect(made.strut.left.mostMm).toBeCloseTo(400 - 2 * 24, 6);
    expect(made.strut.left.leastMm).toBeCloseTo(400 - 2 * 30, 6);
    expect(made.strut.stockMm).toBeCloseTo(400 - 2 * 24, 6);
  });

  it('refuses what is cut through, and says at which end a seat is wrong', () => {
    const one = cutStrut({ tube: TUBE, nodesMm: 59.9, seats: [seat(90), seat(90)], clockDeg: 0 });
    expect(one.ok ? 'made' : one.flaw.kind).toBe('ends-meet');
    const other = cutStrut({ tube: TUBE, nodesMm: 400, seats: [seat(90), seat(0)], clockDeg: 0 });
    expect(other.ok ? 'made' : [other.end, other.flaw.kind]).toEqual([1, 'angle']);
  });
});

describe('the hole in the header', () => {
  it('lies on the header and on the bore of the branch', () => {
    const [at, s] = [seat(55, 7), rad(55)];
    const u: P = [Math.cos(s), 0, Math.sin(s)];
    for (const { alongMm, roundDeg, acrossMm } of headerHole(TUBE, at, placesRound(24))) {
      const p: P = [alongMm, 30 * Math.sin(rad(roundDeg)), 30 * Math.cos(rad(roundDeg))];
      expect(fromAxis(p, [0, 7, 0], u)).toBeCloseTo(18, 9);
      expect(acrossMm).toBeCloseTo(rad(roundDeg) * 30, 9);
    }
  });
});

describe('a hole saw', () => {
  it('of the size of the header does it in one where its depth goes through', () => {
    const made = holeSawCut(TUBE, seat(90));
    // Square to the header it has to go through the whole branch: 40, of which no saw of 38 does all.
    expect(made).toEqual({ sawMm: 60, turnedDeg: 0, besideMm: 0, travelMm: 40, isInOne: false });
    expect(holeSawCut({ diameterMm: 30, wallMm: 2 }, seat(90))?.isInOne).toBe(true);
    expect(holeSawCut({ diameterMm: 30, wallMm: 2 }, seat(60))?.turnedDeg).toBe(30);
  });

  it('cannot cut two headers at once', () => {
    const beside = { diameterMm: 40, angleDeg: 120, roundDeg: 0, apartMm: 0 };
    expect(holeSawCut(TUBE, { ...seat(60), beside })).toBeUndefined();
  });
});

interface Bend {
  readonly turn_deg: number;
  readonly cuts: number;
  readonly pieces: number;
  readonly CLR: number;
  readonly OD: number;
  readonly D_mid: number;
  readonly theta_deg: readonly number[];
}

describe('mitres, against published ones', () => {
  it('a bend of four cuts', () => {
    const { given, expect: asked, tolerance } = published('cope', 'mitre-10in');
    const { turn_deg: turnDeg, cuts, CLR, OD } = given as unknown as Bend;
    const made = mitreOf({ diameterMm: OD, turnDeg, pieces: cuts + 1, radiusMm: CLR });
    if (!made.ok) throw new Error(made.flaw.kind);
    for (const [mine, theirs] of [
      [made.mitre.middleMm, 'middle_length'],
      [made.mitre.endMm, 'end_length'],
      [made.mitre.cutBackMm, 'cut_back'],
    ] as const)
      expect(Math.abs(mine - (asked[theirs] as number))).toBeLessThan(tolerance);
  });

  it.each([
    'elbow-backsets-5',
    'elbow-13B',
    'elbow-13C',
    'elbow-13D',
    'elbow-13E',
    'elbow-13G',
    'elbow-13I',
  ])('%s: cut and joints', (id) => {
    const { given, expect: asked, tolerance } = published('cope', id);
    const { turn_deg: turnDeg, pieces } = given as unknown as Bend;
    const made = mitreOf({ diameterMm: 100, turnDeg, pieces, radiusMm: 150 });
    if (!made.ok) throw new Error(made.flaw.kind);
    expect(Math.abs(made.mitre.cutDeg - (asked['backset_deg'] as number))).toBeLessThan(tolerance);
    made.mitre.jointsDeg.forEach((deg, i) => {
      expect(Math.abs(deg - ((asked['rises_deg'] as number[])[i] as number))).toBeLessThan(
        tolerance,
      );
    });
  });

  it('ordinates of the pieces of an elbow', () => {
    const { given, expect: asked, tolerance } = published('cope', 'elbow-100-150-5');
    const { D_mid, CLR, pieces, turn_deg: turnDeg, theta_deg } = given as unknown as Bend;
    const made = mitreOf({ diameterMm: D_mid, turnDeg, pieces, radiusMm: CLR });
    if (!made.ok) throw new Error(made.flaw.kind);
    theta_deg.forEach((deg, i) => {
      const mm = made.mitre.endLengthMm(deg);
      expect(Math.abs(mm - ((asked['end_piece'] as number[])[i] as number))).toBeLessThan(
        tolerance,
      );
    });
    expect(2 * made.mitre.endLengthMm(180)).toBeCloseTo(asked['middle_piece_throat'] as number, 3);
    expect(2 * made.mitre.endLengthMm(0)).toBeCloseTo(asked['middle_piece_back'] as number, 3);
  });

  it('an end sits on its mitre plane as on a plate', () => {
    const made = mitreOf({ diameterMm: 50, turnDeg: 60, pieces: 3, radiusMm: 100 });
    if (!made.ok) throw new Error(made.flaw.kind);
    const cut = copeOn(
      { diameterMm: 50, wallMm: 2 },
      { kind: 'plate', angleDeg: 90 - made.mitre.cutDeg },
    );
    if (!cut.ok) throw new Error(cut.flaw.kind);
    for (const deg of placesRound(24))
      expect(cut.cope.knifeMm(deg)).toBeCloseTo(made.mitre.endLengthMm(deg) - made.mitre.endMm, 9);
  });

  it.each([
    ['pieces', { pieces: 1 }],
    ['pieces', { pieces: 2.5 }],
    ['turn', { turnDeg: 0 }],
    ['turn', { turnDeg: 91, pieces: 2 }],
    ['tight', { radiusMm: 25 }],
  ] as const)('refuses wrong %s', (kind, wrong) => {
    const made = mitreOf({ diameterMm: 50, turnDeg: 90, pieces: 4, radiusMm: 100, ...wrong });
    expect(made.ok ? 'made' : made.flaw.kind).toBe(kind);
  });
});
