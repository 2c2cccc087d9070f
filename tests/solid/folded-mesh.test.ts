import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Mesh } from '../../src/model/mesh.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import { FAMILIES } from '../../templates/index.ts';
import { make } from '../helpers/check-template.ts';
import { fuzzRuns, oneOfEach } from '../helpers/extent.ts';
import { meshArea, meshSize, meshVolume, openEdges } from '../helpers/mesh.ts';
import { angle, fold, panel, part as partOf } from '../helpers/parts.ts';
import { randomPart } from '../helpers/random-part.ts';
import { TREES } from '../helpers/trees.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { length3, type Vec3 } from '../../src/geometry/vec3.ts';

/** With the neutral line in mid-sheet folding keeps the volume, whatever is cut out of a bend. */
const HALF = { id: 'k', k: 0.5 } as const;
const SAG = 0.02;

const meshOf = (part: Part, flat: FlatPattern, sag = SAG): Mesh => {
  const mesh = foldedMesh(part, flat, sag);
  if (mesh === undefined) throw new Error('no mesh');
  return mesh;
};

/**
 * Chords of arcs and bends are off by `SAG` at most: over the whole surface that is no more than
 * its area times it.
 */
const expectWhole = (part: Part, flat: FlatPattern): void => {
  const mesh = meshOf(part, flat);
  expect(openEdges(mesh.triangles.map((t) => t.corners))).toEqual([]);
  expect(Math.abs(meshVolume(mesh) - flat.areaMm2 * part.thicknessMm)).toBeLessThan(
    meshArea(mesh) * SAG,
  );
  expect(mesh.normals.filter((n) => Math.abs(length3(n) - 1) > 1e-9)).toEqual([]);
};

const expectSize = (part: Part, flat: FlatPattern): void => {
  const said = foldedSizeMm(part, flat);
  meshSize(meshOf(part, flat)).forEach((v, axis) => {
    expect(v).toBeLessThan((said[axis] as number) + 1e-6);
    expect(v).toBeGreaterThan((said[axis] as number) - 2 * SAG - 1e-6);
  });
};

const expectAboutSize = (part: Part, flat: FlatPattern): void => {
  const said = foldedSizeMm(part, flat);
  for (const [axis, v] of meshSize(meshOf(part, flat)).entries())
    expect(Math.abs(v / (said[axis] as number) - 1)).toBeLessThan(0.03);
};

describe.each(TREES)('$name', ({ part }) => {
  it.each([
    ['as given', part],
    ['mirrored', mirrorPart(part)],
  ] as const)(
    '%s: closed, with the metal of its blank and the size it is said to have',
    (_, own) => {
      const flat = flatten(own, HALF);
      expectWhole(own, flat);
      expectSize(own, flat);
    },
  );

  it('mirrored it is the mirror image', () => {
    const [one, other] = [
      meshOf(part, flatten(part, HALF)),
      meshOf(mirrorPart(part), flatten(mirrorPart(part), HALF)),
    ];
    const places = (mesh: Mesh, sign: 1 | -1): string[] => {
      const least = [0, 1, 2].map((axis) =>
        Math.min(...mesh.points.map((p) => (axis === 0 ? sign : 1) * (p[axis] as number))),
      );
      return mesh.points
        .map((p) =>
          p
            .map(
              (v, axis) =>
                Math.round(1e4 * ((axis === 0 ? sign : 1) * v - (least[axis] as number))) + 0,
            )
            .join(' '),
        )
        .toSorted();
    };
    expect(places(other, -1)).toHaveLength(places(one, 1).length);
    // Within a strip of a bend the triangles may be cut the other way.
    expect(meshVolume(other) / meshVolume(one)).toBeCloseTo(1, 3);
    expect(meshSize(other)).toEqual(meshSize(one).map((v) => expect.closeTo(v, 6)));
  });
});

const examples: {
  readonly name: string;
  readonly family: string;
  readonly inputs: Record<string, unknown>;
}[] = [];
for (const [family, load] of FAMILIES) {
  for (const { title, inputs } of (await load()).default.examples)
    examples.push({
      name: `${family}: ${title}`,
      family,
      inputs: { ...inputs, rule: 'k:0.5', hand: 'both' },
    });
}

describe('every example of every family, both hands', () => {
  it.each(oneOfEach(examples, ({ family }) => family))('$name', async ({ family, inputs }) => {
    for (const { part, flat } of await make(family, inputs)) {
      if (part === undefined || flat === undefined) throw new Error('the example makes no part');
      expectWhole(part, flat);
      // The faces of a transition are mitred; its size is said of panels with square edges. A rolled
      // wall has its size from finer flats than it is drawn with, and lies on another of them.
      if (part.rolled !== undefined) expectAboutSize(part, flat);
      else if (!part.folds.some((f) => f.midSurface === true)) expectSize(part, flat);
    }
  });
});

describe('a bend by the formulas of a ring', () => {
  it.each([
    [90, 3, 3],
    [45, 6, 2],
    [180, 0.5, 1],
    [120, 0, 3],
  ])(
    '%d degrees, inside radius %d, %d mm: panels, and A / 360 of the ring over the width',
    (deg, r, t) => {
      const part = angle(60, 40, 80, deg, r, t);
      for (const rule of [{ id: 'k', k: 0.3 }, { id: 'din6935' }] as const) {
        const flat = flatten(part, rule);
        const panels = flat.panels.reduce((sum, p) => sum + p.areaMm2, 0) * t;
        const ring = (deg / 360) * Math.PI * ((r + t) ** 2 - r ** 2) * 80;
        // A strip over the angle w has sin(w) / w of the area of its sector.
        const errors = [0.1, 0.01, 0.001].map(
          (sag) => 1 - meshVolume(meshOf(part, flat, sag)) / (panels + ring),
        );
        expect(errors[2]).toBeLessThan(2e-4);
        for (const [coarse, fine] of [
          [errors[0], errors[1]],
          [errors[1], errors[2]],
        ] as const) {
          expect(fine).toBeGreaterThan(0);
          expect(coarse).toBeGreaterThan(3 * (fine as number));
        }
      }
    },
  );

  it('a hole through a bend and both its panels takes its share of all three', () => {
    const [t, r, k] = [3, 3, 0.4];
    const hole = { kind: 'round', from: 'hole', centre: [40, 60], diameterMm: 30 } as const;
    const part = partOf(
      [panel('leg A', rectangle(0, 0, 80, 60), [hole]), panel('leg B', rectangle(0, 0, 80, 60))],
      [fold('A', { panel: 'leg A', edge: 2 }, { panel: 'leg B', edge: 0 }, 90, 'up', r)],
    );
    const flat = flatten(part, { id: 'k', k });
    const [bend] = flat.bends;
    if (bend === undefined) throw new Error('no bend');
    // What a disc of radius R has left of a line at height h: R^2 acos(h / R) - h sqrt(R^2 - h^2).
    const cap = (h: number): number => 225 * Math.acos(h / 15) - h * Math.sqrt(225 - h * h);
    const centreY = flat.cutouts[0]?.kind === 'round' ? flat.cutouts[0].centre[1] : NaN;
    const inBend = cap(bend.parentTangent[0][1] - centreY) - cap(bend.childTangent[0][1] - centreY);
    const perArea = (t * (r + t / 2)) / (r + k * t);
    const wanted =
      (flat.areaMm2 - (80 * bend.allowanceMm - inBend)) * t +
      (80 * bend.allowanceMm - inBend) * perArea;
    expect(meshVolume(meshOf(part, flat, 0.0005)) / wanted).toBeCloseTo(1, 4);
    expectWhole(part, flatten(part, HALF));
  });

  it('its outside and inside points lie on the cylinders, the others on their panels', () => {
    const [t, r, deg] = [2, 4, 75];
    const part = angle(60, 40, 80, deg, r, t, 'down');
    const mesh = meshOf(part, flatten(part, HALF), 0.05);
    const bend = mesh.triangles.filter((tri) => mesh.faces[tri.face]?.kind === 'bend');
    expect(bend.length).toBeGreaterThan(10);
    const [axisY] = [
      ...new Set(
        mesh.triangles
          .filter((tri) => mesh.faces[tri.face]?.of === 'leg A')
          .flatMap((tri) => tri.corners.map((c) => (mesh.points[c] as Vec3)[1])),
      ),
    ].toSorted((a, b) => b - a);
    for (const { corners, face, normals } of bend) {
      const radius = mesh.faces[face]?.side === 'upper' ? r + t : r;
      if (mesh.faces[face]?.side === 'rim') continue;
      corners.forEach((c, i) => {
        const [, y, z] = mesh.points[c] as Vec3;
        expect(Math.hypot(y - (axisY as number), z + r)).toBeCloseTo(radius, 9);
        const [nx, ny, nz] = mesh.normals[normals[i] as number] as Vec3;
        const sign = mesh.faces[face]?.side === 'upper' ? 1 : -1;
        expect([nx, ny * radius * sign, nz * radius * sign]).toEqual([
          expect.closeTo(0, 9),
          expect.closeTo(y - (axisY as number), 6),
          expect.closeTo(z + r, 6),
        ]);
      });
    }
  });
});

it('random parts are closed, with the metal of their blanks', () => {
  const angles = fc.oneof(
    fc.integer({ min: 1, max: 1400 }).map((n) => n / 10),
    fc.constantFrom(0, 90, 180),
  );
  fc.assert(
    fc.property(randomPart(angles), (part) => {
      const flat = flatten(part, HALF);
      if (!hasStop(flat.findings)) expectWhole(part, flat);
    }),
    { numRuns: fuzzRuns(150) },
  );
});

it('is whole where holes lie level with the straight side of another', async () => {
  // The leftmost points of both holes are as high as the lower side of the window between them.
  for (const window of [
    '100,40 r10; 220,40 r10; 220,100 r10; 100,100 r10',
    '100,40; 220,40; 220,100; 100,100',
  ]) {
    const [made] = await make('plate', {
      outline: '0,0; 320,0; 300,130 r20; 20,130 r20',
      cutouts: window,
      holes: '40,40,22; 280,40,22',
      thickness: 1.5,
    });
    if (made === undefined || made.stopped) throw new Error('no plate');
    expectWhole(made.part, made.flat);
  }
});
