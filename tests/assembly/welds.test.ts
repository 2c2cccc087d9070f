import { describe, expect, test } from 'vitest';
import { joinedBody, type JoinedBody } from '../../src/assembly/joined-body.ts';
import { accessOf } from '../../src/assembly/weld-access.ts';
import type { WeldRun } from '../../src/assembly/weld-run.ts';
import { letterOf, type Weld, weldsOf } from '../../src/assembly/weld-seams.ts';
import { TORCH } from '../../src/data/welding.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import heelRest from '../../templates/heel-rest/index.ts';
import tank from '../../templates/tank/index.ts';
import transition from '../../templates/duct-transition/index.ts';
import { oneOfEach } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { exampleSets, setsFrom } from '../helpers/made-sets.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

const ALL = await exampleSets();

/** Width of the sliver of an edge that is measured, mm. */
const SLIVER_MM = 0.01;

/**
 * The length of an edge by the kernel: the volume of a sliver of the panel along it, over thickness
 * and width of the sliver.
 */
const edgeLength = (
  solids: Solids,
  { flat }: JoinedBody,
  { seam }: WeldRun,
  panel: Solid,
): number => {
  const [u, v] = seam.along;
  const t = flat.thicknessMm;
  // Metal lies on the left of an edge.
  const box = solids.move(solids.prism(rectangle(-2000, 0, 4000, SLIVER_MM), t), {
    o: [seam.at[0], seam.at[1], 0],
    x: [u, v, 0],
    y: [-v, u, 0],
    z: [0, 0, 1],
  });
  return solids.commonVolume(box, panel) / (t * SLIVER_MM);
};

/** Teeth part an edge into several in one line, and facets have no mitre in the kernel. */
const PLAIN = ALL.filter(({ family }) => ['duct-box', 'heel-rest', 'tank'].includes(family));

describe.each([...oneOfEach(PLAIN, ({ family }) => family)])('$title', async ({ set }) => {
  const withSolids = await loadSolids();
  const { pieces } = set.assembly;
  const joined = joinedBody(set.assembly);
  const runs = weldsOf(set.assembly, joined).flatMap((weld) => weld.runs);

  test('a stretch is as long as the edge by the kernel, where it runs along all of it', () => {
    withSolids((solids) => {
      const panels = pieces.map(({ part, flat }) => foldBlank(solids, part, flat).panels);
      let whole = 0;
      for (const run of runs) {
        const [home] = run.panels;
        const piece = joined.pieceOf(home);
        const folded = panels[piece]?.get(joined.panelOf(home));
        if (folded === undefined) throw new Error(`no ${home}`);
        // The panel in its own coordinates.
        const inWhole = solids.move(folded, pieces[piece]?.pose as Pose);
        const own = solids.move(inWhole, inverse(joined.body.poses.get(home) as Pose));
        const length = edgeLength(solids, joined, run, own);
        expect(run.lengthMm, home).toBeLessThan(length + 0.1);
        if (run.lengthMm > length - 0.1) whole += 1;
      }
      // Many run along a whole edge; others end where the other panel does.
      expect(whole).toBeGreaterThanOrEqual(runs.length / 2);
    });
  });
});

const inverse = ({ o, x, y, z }: Pose): Pose => ({
  o: [
    -(o[0] * x[0] + o[1] * x[1] + o[2] * x[2]),
    -(o[0] * y[0] + o[1] * y[1] + o[2] * y[2]),
    -(o[0] * z[0] + o[1] * z[1] + o[2] * z[2]),
  ],
  x: [x[0], y[0], z[0]],
  y: [x[1], y[1], z[1]],
  z: [x[2], y[2], z[2]],
});

test('a stop that is hemmed to its riser is welded to the tread that it was cut from', () => {
  const [set] = setsFrom(heelRest, { ...heelRest.examples[0]?.inputs });
  if (set === undefined) throw new Error('no set');
  const joined = joinedBody(set.assembly);
  const along = weldsOf(set.assembly, joined).flatMap(({ runs }) =>
    runs.map(({ panels, lengthMm }) => [
      panels.map(joined.panelOf).join(' and '),
      Number(lengthMm.toFixed(1)),
    ]),
  );
  // 160 over the cheeks; at the stop their bends of 2 + 2 mm take 4 off either end.
  expect(along).toEqual([
    ['tread and rear flange', 160],
    ['tread and stop', 152],
    ['left cheek and front riser', 16.2],
    ['right cheek and front riser', 16.2],
  ]);
});

/** A tank of 600 x 400 x 300 inside, 2 mm, gaps of 0.5, with one baffle. */
const BOX = {
  ...tank.examples[0]?.inputs,
  name: 'box',
  length: 600,
  width: 400,
  height: 300,
  measure: 'inside',
};

describe('a tank', () => {
  const [set] = setsFrom(tank, BOX);
  if (set === undefined) throw new Error('no set');
  const joined = joinedBody(set.assembly);
  const welds = weldsOf(set.assembly, joined);
  const find = (...ids: readonly string[]): Weld => {
    const found = welds.find(({ pieces }) => pieces.join(' ') === ids.join(' '));
    if (found === undefined) throw new Error(`no weld of ${ids.join(' and ')}`);
    return found;
  };

  test('its seams are as long as its inside is, less the gaps, by hand', () => {
    // A plate at the side is 600 x 300 less the gap all round and is rounded to the bends (inside
    // radius r of the wrap, less the gap) at both corners of its floor: straight edges end there.
    const r = (set.parts[0]?.flat.bends[0]?.insideRadiusMm ?? NaN) - 0.5;
    const end = find('wrap', 'end-left');
    expect(end.kind).toBe('corner');
    expect(end.runs.map(({ lengthMm }) => lengthMm).toSorted((a, b) => b - a)).toEqual([
      expect.closeTo(599 - 2 * r, 6),
      expect.closeTo(299 - r, 6),
      expect.closeTo(299 - r, 6),
    ]);
    // Both ends of the wrap are as wide as the tank.
    expect(find('wrap', 'top').runs.map(({ lengthMm }) => lengthMm)).toEqual([
      expect.closeTo(404, 6),
      expect.closeTo(404, 6),
    ]);
    expect(find('end-left', 'top').lengthMm).toBeCloseTo(599, 6);
    expect(find('end-right', 'top').gapMm).toEqual([
      expect.closeTo(0.5, 9),
      expect.closeTo(0.5, 9),
    ]);
    expect(find('wrap', 'baffle-1').kind).toBe('flange');
  });

  test('baffles are welded from inside before the sides close, the top from outside and last of all', () => {
    const access = accessOf(set.assembly, joined, welds, TORCH);
    const fromOf = (weld: Weld): readonly string[] => access[welds.indexOf(weld)]?.from ?? [];
    expect(fromOf(find('wrap', 'baffle-1'))).toContain('inside');
    for (const weld of welds.filter(({ pieces }) => pieces.includes('top'))) {
      expect(fromOf(weld)).toEqual(['outside']);
      expect(weld.turn).toBe(Math.max(...welds.map(({ turn }) => turn)));
    }
    expect(access.every(({ unreachedMm }) => unreachedMm === 0)).toBe(true);
    expect(welds.some(({ pieces }) => pieces.includes('top') && pieces.includes('baffle-1'))).toBe(
      false,
    );
  });

  test('with the top on first the baffle is out of reach', () => {
    const early = {
      ...set.assembly,
      pieces: set.assembly.pieces.map((piece) => ({
        ...piece,
        turn: piece.id === 'baffle-1' ? 9 : piece.turn,
      })),
    };
    const late = weldsOf(early);
    const access = accessOf(early, joinedBody(early), late, TORCH);
    const [i] = late.flatMap(({ pieces }, k) => (pieces.includes('baffle-1') ? [k] : []));
    expect(access[i ?? NaN]?.from).toEqual([]);
    expect(access[i ?? NaN]?.unreachedMm).toBeGreaterThan(100);
  });

  test('plates that have flanges are welded along the edges', () => {
    const [flanged] = setsFrom(tank, { ...BOX, ends: 'flanged', endFlange: 18 });
    if (flanged === undefined) throw new Error('no set');
    const kinds = new Map(
      weldsOf(flanged.assembly).map(({ pieces, kind }) => [pieces.join(' '), kind]),
    );
    expect(kinds.get('wrap end-left')).toBe('edge');
    expect(kinds.get('end-right top')).toBe('edge');
    expect(kinds.get('end-left end-left')).toBe('corner');
  });
});

test('a lid is welded to nothing, its own corners are welded before it is put on', () => {
  const fuse = ALL.find(({ set }) => set.name === 'fuse-box-L');
  const welds = weldsOf(fuse?.set.assembly ?? { name: '', pieces: [] });
  expect(welds.map(({ pieces, kind, turn }) => [...pieces, kind, turn])).toEqual([
    ['box', 'box', 'corner', 0],
    ['lid', 'lid', 'corner', 0],
  ]);
});

test('a transition has the seams of its halves, both round the collar and that of the collar itself', () => {
  const scoop = ALL.find(({ set }) => set.name === 'engine-air-scoop-L');
  const welds = weldsOf(scoop?.set.assembly ?? { name: '', pieces: [] });
  expect(welds.map(({ pieces, kind, runs }) => [...pieces, kind, runs.length])).toEqual([
    ['collar', 'collar', 'butt', 1],
    ['half-1', 'half-2', 'butt', 2],
    ['half-1', 'collar', 'butt', 8],
    ['half-2', 'collar', 'butt', 8],
  ]);
  // 16 chords that add up to the circumference of 100 less the sheet of 1.5.
  const round = welds.slice(2).reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  expect(round).toBeGreaterThan(Math.PI * 98.5 - 2);
  expect(round).toBeLessThan(Math.PI * 98.5 + 1e-6);
});

test.each([...ALL])(
  '$title: letters are in order, each once; hands that are alike have the same welds',
  ({ family, set }) => {
    const welds = weldsOf(set.assembly);
    expect(welds.map(({ letter }) => letter)).toEqual(welds.map((_, i) => letterOf(i)));
    expect(welds.map(({ turn }) => turn)).toEqual(
      welds.map(({ turn }) => turn).toSorted((a, b) => a - b),
    );
    const twin = set.name.replace(/-L$/, '-R');
    const other = ALL.find((one) => one.family === family && one.set.name === twin);
    const told = (all: readonly Weld[]) =>
      all.map(({ pieces, kind, lengthMm, gapMm }) => [
        ...pieces,
        kind,
        Number(lengthMm.toFixed(3)),
        ...gapMm.map((mm) => Number(mm.toFixed(6))),
      ]);
    const isAlike = set.parts.every(
      ({ result }) => !result.findings.some(({ rule }) => rule === 'hands-differ'),
    );
    if (other !== undefined && isAlike)
      expect(told(weldsOf(other.set.assembly))).toEqual(told(welds));
  },
);

test('a duct of one blank has its own seam beside that round its collar, in either hand', async () => {
  const inputs = { ...transition.examples[0]?.inputs, collar: 30, hand: 'both' };
  const sets = setsFrom(transition, inputs);
  expect(sets).toHaveLength(2);
  for (const { assembly } of sets) {
    const welds = weldsOf(assembly);
    expect(welds.map(({ pieces, kind, runs }) => [...pieces, kind, runs.length])).toEqual([
      ['transition', 'transition', 'butt', 1],
      ['collar', 'collar', 'butt', 1],
      ['transition', 'collar', 'butt', 12],
    ]);
    // Up the middle of a side: from the middle of an edge of 199 to the circle of radius 59.5 about
    // the middle, 150 higher; the chords of the circle add up to its circumference.
    const rim = (Math.PI * 119) / 12 / (2 * Math.sin(Math.PI / 12));
    const seam = Math.hypot(150, 99.5 - rim);
    expect(Math.abs((welds[0]?.lengthMm ?? NaN) - seam)).toBeLessThan(1);
    expect(welds[0]?.gapMm[0]).toBeCloseTo(0.5, 6);
  }
});

test('letters leave out I and O and go on with two', () => {
  const all = Array.from({ length: 60 }, (_, i) => letterOf(i));
  expect(all.slice(0, 10).join('')).toBe('ABCDEFGHJK');
  expect(all.slice(22, 27)).toEqual(['Y', 'Z', 'AA', 'AB', 'AC']);
  expect(new Set(all).size).toBe(60);
  expect(all.join('')).not.toMatch(/[IO]/);
});
