import { describe, expect, it } from 'vitest';
import { cameraAt, seen } from '../../../src/paper/draw/camera.ts';
import { foldedView } from '../../../src/paper/draw/folded-view.ts';
import { textWidthMm } from '../../../src/paper/draw/text-width.ts';
import { bestCamera } from '../../../src/paper/draw/view-direction.ts';
import { flatten } from '../../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../../src/fold/size.ts';
import type { Vec2 } from '../../../src/geometry/vec2.ts';
import type { Mesh } from '../../../src/model/mesh.ts';
import type { Part } from '../../../src/model/part.ts';
import type { Curve, Label, Picture, Round } from '../../../src/model/picture.ts';
import { mirrorPart } from '../../../src/model/mirror.ts';
import { foldedMesh } from '../../../src/solid/folded-mesh.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { make } from '../../helpers/check-template.ts';
import { angle, box } from '../../helpers/parts.ts';

const ROOM = { widthMm: 120, heightMm: 90 } as const;

const meshOf = (part: Part): Mesh => {
  const mesh = foldedMesh(part, flatten(part, { id: 'din6935' }), 0.05);
  if (mesh === undefined) throw new Error('no mesh');
  return mesh;
};

const curvesOf = ({ items }: Picture): Curve[] => items.filter((i) => i.kind === 'curve');
const labelsOf = ({ items }: Picture): Label[] => items.filter((i) => i.kind === 'label');
const roundsOf = ({ items }: Picture): Round[] => items.filter((i) => i.kind === 'round');

/** Every place that ink may reach. */
const inked = (picture: Picture): Vec2[] => [
  ...curvesOf(picture).flatMap((c) => c.pieces.flatMap((p) => [p.from, p.to])),
  ...roundsOf(picture).flatMap(({ centre: [x, y], radiusMm: r }): Vec2[] => [
    [x - r, y - r],
    [x + r, y + r],
  ]),
  ...labelsOf(picture).flatMap(
    ({ at: [x, y], sizeMm, text, align = 'left', angleDeg = 0 }): Vec2[] => {
      const [long, turn] = [textWidthMm(text, sizeMm), (angleDeg * Math.PI) / 180];
      const start = align === 'left' ? 0 : align === 'right' ? -long : -long / 2;
      return [0, 0.72 * sizeMm].flatMap((up) =>
        [start, start + long].map((on): Vec2 => [
          x + on * Math.cos(turn) - up * Math.sin(turn),
          y + on * Math.sin(turn) + up * Math.cos(turn),
        ]),
      );
    },
  ),
];

describe.each([...FAMILIES])('%s, the first example', async (family, load) => {
  const [example] = (await load()).default.examples;
  const parts = await make(family, { ...example?.inputs });

  it('keeps within its box, with its sizes and the folds that are seen', () => {
    for (const { part, flat } of parts) {
      const mesh =
        part === undefined || flat === undefined ? undefined : foldedMesh(part, flat, 0.1);
      if (part === undefined || flat === undefined || mesh === undefined)
        throw new Error('no part');
      const sizes = foldedSizeMm(part, flat).map((mm) => mm.toFixed(1)) as [string, string, string];
      const labels = new Map(part.folds.map((f) => [f.id, f.id]));
      const picture = foldedView(mesh, { ...ROOM, labels, sizes });
      for (const [x, y] of inked(picture)) {
        expect(x).toBeGreaterThan(0);
        expect(y).toBeGreaterThan(0);
        expect(x).toBeLessThan(ROOM.widthMm);
        expect(y).toBeLessThan(ROOM.heightMm);
      }
      const texts = labelsOf(picture).map((l) => l.text);
      expect(texts).toEqual(expect.arrayContaining(sizes));
      const rings = roundsOf(picture).filter((r) => r.fill === 1);
      expect(texts).toHaveLength(sizes.length + rings.length);
      rings.forEach((a, i) => {
        for (const b of rings.slice(i + 1))
          expect(Math.hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1])).toBeGreaterThan(
            a.radiusMm + b.radiusMm,
          );
      });
      expect(foldedView(mesh, { ...ROOM, labels, sizes })).toEqual(picture);
    }
  });
});

describe('where it is looked at from', () => {
  it('both legs of an angle bracket are seen from within, and its other hand from the other side', () => {
    const part = angle(60, 40, 80, 90, 3, 3);
    const camera = bestCamera(meshOf(part));
    // The legs' inside normals are +z and, the second standing at the top of the first, -y.
    expect(camera.toward[2]).toBeGreaterThan(0.3);
    expect(camera.toward[1]).toBeLessThan(-0.3);
    const other = bestCamera(meshOf(mirrorPart(part)));
    expect(other.toward[1]).toBeCloseTo(camera.toward[1], 6);
  });

  it('a camera has three directions square to each other, right-handed, and up is up', () => {
    const { right, up, toward } = cameraAt(-60, 35);
    const at = (v: readonly [number, number, number]) => seen({ right, up, toward }, v);
    expect(at(right)).toEqual([1, 0, 0].map((v) => expect.closeTo(v, 12)));
    expect(at(up)).toEqual([0, 1, 0].map((v) => expect.closeTo(v, 12)));
    expect(at(toward)).toEqual([0, 0, 1].map((v) => expect.closeTo(v, 12)));
    expect(at([0, 0, 1])[1]).toBeCloseTo(Math.cos((35 * Math.PI) / 180), 12);
  });
});

describe('lines', () => {
  it('a flat plate from above is its outline in one heavy curve, drawn to scale', () => {
    const part = {
      ...box(100, 60, 20, 90, 2, 2),
      folds: [],
      panels: box(100, 60, 20, 90, 2, 2).panels.slice(0, 1),
    };
    const picture = foldedView(meshOf(part), {
      widthMm: 60,
      heightMm: 60,
      camera: { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] },
    });
    const [curve, ...others] = curvesOf(picture);
    expect(others).toEqual([]);
    const points = curve?.pieces.map((p) => p.from) ?? [];
    expect(points).toHaveLength(4);
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    // A millimetre stays free on either side: 58 mm for 100.
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(58, 9);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(58 * 0.6, 9);
  });

  it('where a bend begins there is a thin line, and heavier ones round the metal', () => {
    const widths = new Set(
      curvesOf(foldedView(meshOf(angle(60, 40, 80, 90, 3, 3)), ROOM)).map((c) => c.stroke.widthMm),
    );
    expect(widths.size).toBe(3);
    expect(Math.min(...widths)).toBeLessThan(0.2);
    expect(Math.max(...widths)).toBeGreaterThan(0.3);
  });

  it('a fold that is not seen has no label', () => {
    const part = angle(60, 40, 80, 90, 3, 3);
    const labels = new Map([
      ['A', 'A'],
      ['leg B', 'back'],
      ['nothing', 'x'],
    ]);
    const texts = (side: number): string[] =>
      labelsOf(foldedView(meshOf(part), { ...ROOM, labels, camera: cameraAt(side, 20) })).map(
        (l) => l.text,
      );
    expect(texts(-60)).toEqual(['A', 'back']);
    expect(texts(120)).toContain('back');
    // A lip turned down, seen from straight above, shows nothing but its bend.
    const down = angle(60, 4.5, 80, 90, 1, 1, 'down');
    const hidden = labelsOf(
      foldedView(meshOf(down), {
        ...ROOM,
        labels: new Map([['leg B', 'lip']]),
        camera: { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] },
      }),
    );
    expect(hidden).toEqual([]);
  });
});
