import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';

/**
 * A second way of folding a blank up, which shares no code with the tool's own: matrices by
 * Rodrigues' formula on the drawing's coordinates, one bend after the other, each taken straight
 * from its lines in the flat pattern.
 */
export type Place = (p: readonly [number, number, number]) => [number, number, number];

type Vec = readonly [number, number, number];

const rotate = (p: Vec, through: Vec, axis: Vec, deg: number): [number, number, number] => {
  const a = (deg * Math.PI) / 180;
  const v = [p[0] - through[0], p[1] - through[1], p[2] - through[2]] as const;
  const [c, s] = [Math.cos(a), Math.sin(a)];
  const k = axis[0] * v[0] + axis[1] * v[1] + axis[2] * v[2];
  const x = [
    axis[1] * v[2] - axis[2] * v[1],
    axis[2] * v[0] - axis[0] * v[2],
    axis[0] * v[1] - axis[1] * v[0],
  ] as const;
  return [0, 1, 2].map((i) => {
    const [vi, xi, ai] = [v[i] ?? 0, x[i] ?? 0, axis[i] ?? 0];
    return (through[i] ?? 0) + vi * c + xi * s + ai * k * (1 - c);
  }) as [number, number, number];
};

/**
 * Unfolds one bend: a point beyond its second tangent line moves back over the zone and is turned
 * about the axis.
 */
const bendOver = (bend: FlatBend, t: number, p: Vec): [number, number, number] => {
  const [[ax, ay], [bx, by]] = bend.parentTangent;
  const l = Math.hypot(bx - ax, by - ay);
  // The parent's tangent line runs counter-clockwise round the parent, so the child lies on its
  // right.
  const axis = [(bx - ax) / l, (by - ay) / l, 0] as const;
  const out = [axis[1], -axis[0]] as const;
  const back = [p[0] - out[0] * bend.allowanceMm, p[1] - out[1] * bend.allowanceMm, p[2]] as const;
  const up = bend.direction === 'up';
  const height =
    bend.midSurface === true ? t / 2 : up ? t + bend.insideRadiusMm : -bend.insideRadiusMm;
  const through = [ax, ay, height] as const;
  // Turning about the line's direction would carry what lies on its right downwards.
  return rotate(back, through, axis, up ? -bend.angleDeg : bend.angleDeg);
};

/**
 * For each panel, the motion from a point of the flat drawing (z over the lower face) to its place
 * on the folded part.
 */
export const foldedPlaces = (flat: FlatPattern, root: string): Map<string, Place> => {
  const places = new Map<string, Place>([[root, (p) => [...p]]]);
  for (let grown = true; grown;) {
    grown = false;
    for (const bend of flat.bends) {
      const parent = places.get(bend.parent);
      if (parent === undefined || places.has(bend.child)) continue;
      places.set(bend.child, (p) => parent(bendOver(bend, flat.thicknessMm, p)));
      grown = true;
    }
  }
  return places;
};

/**
 * Places of each panel's points by the definition of the mould line alone: the child is turned
 * about the line in which the outside (or inside) faces meet, as if there were no bend; on the
 * middle of the sheet, about the line in which the middles meet. It holds for bends up to 90
 * degrees.
 */
export const idealPlaces = (part: Part, seat: Place): Map<string, Place> => {
  const places = new Map<string, Place>([[part.root, seat]]);
  const edgeOf = (panel: string, edge: number): { at: Vec; dir: Vec } => {
    const outline = part.panels.find((p) => p.id === panel)?.outline ?? [];
    const [a, b] = [outline[edge], outline[(edge + 1) % outline.length]];
    if (a === undefined || b === undefined) throw new Error('no such edge');
    const l = Math.hypot(b.x - a.x, b.y - a.y);
    return { at: [a.x, a.y, 0], dir: [(b.x - a.x) / l, (b.y - a.y) / l, 0] };
  };
  for (let grown = true; grown;) {
    grown = false;
    for (const f of part.folds) {
      const parent = places.get(f.parent.panel);
      if (parent === undefined || places.has(f.child.panel)) continue;
      const [p, c] = [edgeOf(f.parent.panel, f.parent.edge), edgeOf(f.child.panel, f.child.edge)];
      const childOutline = part.panels.find((q) => q.id === f.child.panel)?.outline ?? [];
      const [e0, e1] = [
        childOutline[f.child.edge],
        childOutline[(f.child.edge + 1) % childOutline.length],
      ];
      const childTo =
        f.child.to ?? Math.hypot((e1?.x ?? 0) - (e0?.x ?? 0), (e1?.y ?? 0) - (e0?.y ?? 0));
      const parentFrom = f.parent.from ?? 0;
      const onOutside = part.measure === 'outside';
      const faceLevel = (f.direction === 'up') === onOutside ? 0 : part.thicknessMm;
      const level = f.midSurface === true ? part.thicknessMm / 2 : faceLevel;
      places.set(f.child.panel, (q) => {
        // The first direction runs along the child's edge, the second into the child; along the
        // parent's edge they run the opposite way.
        const d = [q[0] - c.at[0], q[1] - c.at[1]] as const;
        const along = parentFrom + childTo - (d[0] * c.dir[0] + d[1] * c.dir[1]);
        const into = d[1] * c.dir[0] - d[0] * c.dir[1];
        const flat = [
          p.at[0] + along * p.dir[0] + into * p.dir[1],
          p.at[1] + along * p.dir[1] - into * p.dir[0],
          q[2],
        ] as const;
        const turn = f.direction === 'up' ? -f.angleDeg : f.angleDeg;
        return parent(rotate(flat, [p.at[0], p.at[1], level], p.dir, turn));
      });
      grown = true;
    }
  }
  return places;
};
