import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import {
  biteOfKnife,
  copeOn,
  curveOf,
  depthsOf,
  placesRound,
  spanOf,
} from '../../../src/tube/cope/cope.ts';
import { chopSawCuts } from '../../../src/tube/cope/chop-saw.ts';
import { surfaceCutBack } from '../../../src/tube/cope/cut-back.ts';
import { bodiesOf } from '../../../src/tube/cope/seat.ts';
import { fuzzRuns } from '../../helpers/extent.ts';
import { published } from '../../helpers/published.ts';
import { header, made } from './seats.ts';
import { exitOf, fromAxis, onBranch, type P } from './witness.ts';

/** A wall too thin to matter, where the published figure is about one surface. */
const THIN_MM = 1e-6;

type Figures = Readonly<Record<string, number>> & { readonly theta_deg: readonly number[] };

describe('one surface of the branch, against the published ordinates', () => {
  it.each(['cope-90', 'cope-60', 'cope-45-equal', 'cope-90-equal', 'cope-60-offset'])(
    '%s',
    (id) => {
      const { given, expect: asked, tolerance } = published('cope', id);
      const { r = 0, R = 0, beta_deg = 0, offset, theta_deg } = given as Figures;
      const cope = made({ diameterMm: 2 * r, wallMm: THIN_MM }, header(2 * R, beta_deg, offset));
      const w = asked['w'] as number[];
      theta_deg.forEach((deg, i) => {
        expect(Math.abs(cope.knifeMm(deg) - (w[i] as number))).toBeLessThan(tolerance);
      });
      const { leastMm, mostMm } = spanOf(cope.knifeMm);
      // The published depth is of its sixteen places alone.
      expect(mostMm - leastMm).toBeGreaterThan((asked['depth'] as number) - tolerance);
      expect(mostMm - leastMm).toBeLessThan((asked['depth'] as number) + 0.2);
    },
  );

  it('2 in. on 6 in., a worked example in inches', () => {
    const { given, expect: asked, tolerance } = published('cope', 'cope-published-2-on-6');
    const { r_in = 0, R_in = 0, beta_deg = 0 } = given as Figures;
    const cope = made({ diameterMm: 2 * r_in, wallMm: THIN_MM }, header(2 * R_in, beta_deg));
    const { leastMm, mostMm } = spanOf(cope.knifeMm);
    for (const [mine, theirs] of [
      [mostMm, 'w_max'],
      [leastMm, 'w_min'],
      [mostMm - leastMm, 'depth'],
      [mostMm - cope.knifeMm(45), 'drop_eighth'],
      [(2 * Math.PI * r_in) / 16, 'spacing16'],
    ] as const)
      expect(Math.abs(mine - (asked[theirs] as number)), theirs).toBeLessThan(tolerance);
  });
});

describe('the whole wall, cut square', () => {
  it.each(['cope-wall-90', 'cope-wall-60', 'cope-wall-45-equal'])('%s', (id) => {
    const { given, expect: asked, tolerance } = published('cope', id);
    const { ri = 0, ro = 0, R = 0, beta_deg = 0, offset, theta_deg } = given as Figures;
    const cope = made({ diameterMm: 2 * ro, wallMm: ro - ri }, header(2 * R, beta_deg, offset));
    const w = asked['w_fit'] as number[];
    theta_deg.forEach((deg, i) => {
      expect(Math.abs(cope.fitMm(deg) - (w[i] as number))).toBeLessThan(tolerance);
    });
    expect(Math.abs(biteOfKnife(cope) - (asked['outside_curve_bites_mm'] as number))).toBeLessThan(
      tolerance,
    );
    const inside = (deg: number): number => surfaceCutBack(bodiesOf(cope.seat), ri, deg) ?? NaN;
    const bites = spanOf((deg) => cope.fitMm(deg) - inside(deg)).mostMm;
    expect(Math.abs(bites - (asked['inside_curve_bites_mm'] as number))).toBeLessThan(tolerance);
  });

  it('a plate at an angle, published: the outside on the acute side, the inside opposite', () => {
    const { given, expect: asked, tolerance } = published('cope', 'plate-angle');
    const { r = 0, beta_deg = 0, theta_deg } = given as Figures;
    const cope = made({ diameterMm: 2 * r, wallMm: 2 }, { kind: 'plate', angleDeg: beta_deg });
    theta_deg.forEach((deg, i) => {
      expect(Math.abs(cope.knifeMm(deg) - ((asked['w'] as number[])[i] as number))).toBeLessThan(
        tolerance,
      );
    });
    const { leastMm, mostMm } = spanOf(cope.knifeMm);
    expect(Math.abs(mostMm - leastMm - (asked['long_minus_short'] as number))).toBeLessThan(
      tolerance,
    );
    expect(cope.fitMm(0)).toBeCloseTo(cope.knifeMm(0), 9);
    expect(cope.fitMm(180)).toBeCloseTo((cope.knifeMm(180) * (r - 2)) / r, 9);
  });

  it('as pipe fitters cut it: at 90 degrees it is the curve of the inside radius', () => {
    // Published rule `radial-cut-practice`: the branch's inside on the header's outside, cut radially.
    expect(published('cope', 'radial-cut-practice').expect['cope']).toMatch(/inside radius/);
    const cope = made({ diameterMm: 40, wallMm: 2 }, header(60, 90));
    for (const deg of placesRound(36))
      expect(cope.fitMm(deg)).toBeCloseTo(
        surfaceCutBack(bodiesOf(cope.seat), 18, deg) as number,
        6,
      );
  });

  it('equal tubes cut with a saw: the angle that clears the inside of the wall', () => {
    const { given, expect: asked } = published('cope', 'chop-saw-base');
    // Walls of 0.12 in. are usual for these tubes, and the rule is one of thumb.
    const sawn = (od: number, angleDeg: number) => {
      const cuts = chopSawCuts(made({ diameterMm: od, wallMm: 0.12 }, header(od, angleDeg)));
      if (cuts === undefined) throw new Error('no cuts');
      return cuts;
    };
    (given['OD_in'] as number[]).forEach((od, i) => {
      const { acuteDeg, obtuseDeg } = sawn(od, 90);
      expect(obtuseDeg).toBeCloseTo(acuteDeg, 9);
      expect(Math.abs(acuteDeg - ((asked['base_deg'] as number[])[i] as number))).toBeLessThan(3);
    });
    // 15 degrees from square: the flat cut of the rule bites the inside of the wall and is ground.
    const [flat, steep] = asked['example_15deg_1_75'] as [number, number];
    expect(Math.abs(sawn(1.75, 75).acuteDeg - steep)).toBeLessThan(3);
    expect(sawn(1.75, 75).obtuseDeg).toBeGreaterThan(flat);
  });

  it('cuts of a chop saw clear every layer of the wall, and touch it', () => {
    const slope = (deg: number): number => Math.tan((deg * Math.PI) / 180);
    for (const [angleDeg, headerMm] of [
      [90, 40],
      [75, 44],
      [60, 60],
      [40, 40],
    ] as const) {
      const cope = made({ diameterMm: 40, wallMm: 2.5 }, header(headerMm, angleDeg));
      const cuts = chopSawCuts(cope);
      if (cuts === undefined) throw new Error('no cuts');
      const over = [17.5, 18.3, 19.2, 20].flatMap((r) =>
        placesRound(72).map((deg) => {
          const x = r * Math.cos((deg * Math.PI) / 180);
          const z = cuts.ridgeMm + (x > 0 ? slope(cuts.acuteDeg) * x : -slope(cuts.obtuseDeg) * x);
          return z - (surfaceCutBack(bodiesOf(cope.seat), r, deg) as number);
        }),
      );
      expect(Math.min(...over)).toBeGreaterThan(-0.01);
      expect(Math.min(...over)).toBeLessThan(0.05);
    }
  });
});

const anySeat = fc
  .record({
    r: fc.double({ min: 5, max: 40, noNaN: true }),
    wall: fc.double({ min: 0.02, max: 1, noNaN: true }),
    more: fc.double({ min: 0, max: 2, noNaN: true }),
    angleDeg: fc.double({ min: 12, max: 90, noNaN: true }),
    aside: fc.double({ min: -1, max: 1, noNaN: true }),
  })
  .map(({ r, wall, more, angleDeg, aside }) => ({
    tube: { diameterMm: 2 * r, wallMm: wall * r },
    seat: header(2 * r * (1 + more), angleDeg, aside * r * more),
  }));

describe('any header', () => {
  it('is cut as a witness finds it, bites nowhere, and touches all round', () => {
    fc.assert(
      fc.property(anySeat, fc.double({ min: 0, max: 360, noNaN: true }), ({ tube, seat }, turn) => {
        const cope = made(tube, seat);
        const at = onBranch(seat.angleDeg, seat.offsetMm);
        const outsideBy =
          (r: number, deg: number) =>
          (z: number): number =>
            fromAxis(at(r, deg, z), [0, 0, 0], [1, 0, 0]) - seat.diameterMm / 2;
        for (const place of placesRound(12)) {
          const deg = place + turn;
          const [ri, ro] = [tube.diameterMm / 2 - tube.wallMm, tube.diameterMm / 2];
          const layers = Array.from({ length: 13 }, (_, i) => ri + ((ro - ri) * i) / 12);
          const exits = layers.map((r) => exitOf(outsideBy(r, deg)));
          const fit = cope.fitMm(deg);
          // No layer of the wall stands in the header once the tube is home.
          for (const exit of exits) expect(fit - exit).toBeGreaterThan(-1e-5);
          // And it is cut back no farther than one of them asks for; between two of the thirteen
          // the summit lies a little higher.
          const gap = fit - Math.max(...exits);
          const cosine = Math.max(
            0.05,
            Math.sqrt(1 - (ro + Math.abs(seat.offsetMm)) ** 2 / (seat.diameterMm / 2) ** 2 || 0),
          );
          expect(gap * cosine).toBeLessThan(0.01 * (1 + (ro - ri)));
          expect(Math.abs(cope.knifeMm(deg) - (exits.at(-1) as number))).toBeLessThan(1e-3);
        }
      }),
      { numRuns: fuzzRuns(300) },
    );
  });

  it('has the same curve seen from the other side, and turned about the header', () => {
    fc.assert(
      fc.property(anySeat, fc.integer({ min: 0, max: 359 }), ({ tube, seat }, deg) => {
        const [one, other] = [made(tube, seat), made(tube, { ...seat, offsetMm: -seat.offsetMm })];
        expect(other.fitMm(-deg)).toBeCloseTo(one.fitMm(deg), 5);
      }),
      { numRuns: fuzzRuns(200) },
    );
  });
});

describe('two branches at one node', () => {
  it('a branch between header and another branch: as a witness finds it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        (angleDeg, more, apartMm, roundDeg) => {
          const [tube, big] = [{ diameterMm: 30, wallMm: 2 }, 20];
          const beside = { diameterMm: 34, angleDeg: angleDeg + 40 + more, roundDeg, apartMm };
          const cope = made(tube, { ...header(2 * big, angleDeg), beside });
          const at = onBranch(angleDeg, 0);
          const [b, g] = [beside.angleDeg, -beside.roundDeg].map((d) => (d * Math.PI) / 180) as [
            number,
            number,
          ];
          // Turned right-handed about X from +Z, which goes to -Y.
          const u: P = [Math.cos(b), Math.sin(b) * Math.sin(g), Math.sin(b) * Math.cos(g)];
          const through: P = [apartMm, 0, 0];
          for (const deg of placesRound(24)) {
            const layers = [13, 13.5, 14, 14.5, 15].map((r) => {
              const one = exitOf((z) => fromAxis(at(r, deg, z), [0, 0, 0], [1, 0, 0]) - big);
              const p = exitOf((z) => fromAxis(at(r, deg, z), through, u) - 17);
              const [x, y, z] = at(r, deg, p);
              const isOn = Math.abs(fromAxis([x, y, z], through, u) - 17) < 1e-3;
              const ahead = (x - apartMm) * u[0] + y * u[1] + z * u[2] >= 0;
              return isOn && ahead ? Math.max(one, p) : one;
            });
            const gap = cope.fitMm(deg) - Math.max(...layers);
            expect(gap).toBeGreaterThan(-1e-4);
            expect(gap).toBeLessThan(0.5);
            expect(Math.abs(cope.knifeMm(deg) - (layers.at(-1) as number))).toBeLessThan(0.01);
          }
        },
      ),
      { numRuns: fuzzRuns(60) },
    );
  });

  it('equal branches square to each other meet in the plane between them', () => {
    // 45 degrees to the header either way, all of one size: beside each other the two cut at the
    // plane that halves the angle, 45 degrees to either axis: z = r cos(a) on the obtuse side.
    const cope = made(
      { diameterMm: 40, wallMm: 0.001 },
      { ...header(40, 45), beside: { diameterMm: 40, angleDeg: 135, roundDeg: 0, apartMm: 0 } },
    );
    for (const deg of [120, 150, 180, 210, 240])
      expect(cope.knifeMm(deg)).toBeCloseTo(-20 * Math.cos((deg * Math.PI) / 180), 6);
  });
});

describe('what a person is told', () => {
  it('twelve depths from the longest point', () => {
    const cope = made({ diameterMm: 40, wallMm: 2 }, header(60, 60));
    const depths = depthsOf(cope);
    expect(depths.map((d) => d.roundDeg)).toEqual([
      0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330,
    ]);
    expect(Math.min(...depths.map((d) => d.depthMm))).toBeGreaterThanOrEqual(0);
    expect(depths[0]?.depthMm).toBeCloseTo(46.188 - spanOf(cope.fitMm).leastMm, 3);
  });

  it('the curve closes', () => {
    const curve = curveOf(made({ diameterMm: 40, wallMm: 2 }, header(60, 60)).fitMm, 5);
    expect(curve).toHaveLength(73);
    expect(curve.at(-1)?.[1]).toBe(curve[0]?.[1]);
  });
});

describe('what cannot be coped says why', () => {
  const tube = { diameterMm: 40, wallMm: 2 };
  it.each([
    ['overhang', tube, header(38, 90)],
    ['overhang', tube, header(60, 90, 10.01)],
    ['overhang', tube, header(60, 90, -300)],
    ['angle', tube, header(60, 0)],
    ['angle', tube, header(60, -30)],
    ['angle', tube, header(60, 91)],
    ['angle', tube, header(60, NaN)],
    ['no-tube', { diameterMm: 40, wallMm: 20.1 }, header(60, 90)],
    ['no-tube', { diameterMm: 40, wallMm: 0 }, header(60, 90)],
    ['no-tube', { diameterMm: -40, wallMm: 2 }, header(60, 90)],
    [
      'thinner-beside',
      tube,
      { ...header(60, 60), beside: { diameterMm: 30, angleDeg: 120, roundDeg: 0, apartMm: 0 } },
    ],
    [
      'alongside',
      tube,
      { ...header(60, 60), beside: { diameterMm: 40, angleDeg: 65, roundDeg: 0, apartMm: 0 } },
    ],
    [
      'tight-bend',
      tube,
      {
        kind: 'bend',
        diameterMm: 45,
        bendRadiusMm: 20,
        angleDeg: 90,
        leavesDeg: 0,
        beforeDeg: 45,
        behindDeg: 45,
      },
    ],
  ] as const)('%s', (kind, given, seat) => {
    const result = copeOn(given, seat);
    expect(result.ok ? 'made' : result.flaw.kind).toBe(kind);
  });

  it('just inside is made', () => {
    for (const seat of [header(40, 90), header(60, 90, 10), header(60, 10), header(60, 90, -10)])
      expect(copeOn(tube, seat).ok).toBe(true);
    expect(copeOn({ diameterMm: 40, wallMm: 20 }, header(60, 45)).ok).toBe(true);
  });

  it('the published overhang, and where it has no contact', () => {
    const { given, expect: asked, tolerance } = published('cope', 'cope-overhang');
    const { r = 0, R = 0, beta_deg = 0, offset = 0 } = given as Figures;
    const seat = header(2 * R, beta_deg, offset);
    expect(copeOn({ diameterMm: 2 * r, wallMm: 2 }, seat).ok).toBe(false);
    const [from, to] = asked['theta_range_without_contact_deg'] as [number, number];
    const meets = (deg: number): boolean => surfaceCutBack(bodiesOf(seat), r, deg) !== undefined;
    expect([from - tolerance, from + tolerance, to - tolerance, to + tolerance].map(meets)).toEqual(
      [true, false, false, true],
    );
  });
});
