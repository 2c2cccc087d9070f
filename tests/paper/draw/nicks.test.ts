import { describe, expect, it, test } from 'vitest';
import { nickFindings, nickFor, withNicks } from '../../../src/paper/draw/nicks.ts';
import { flatten } from '../../../src/flatten/flatten.ts';
import { signedArea } from '../../../src/geometry/measure.ts';
import { selfCrossing } from '../../../src/geometry/self-crossing.ts';
import { makeParts } from '../../../src/use/make/make-parts.ts';
import type { FlatBend } from '../../../src/model/flat.ts';
import { mirrorPart } from '../../../src/model/mirror.ts';
import { loadFamily } from '../../helpers/check-template.ts';
import { angle } from '../../helpers/parts.ts';
import { TREES } from '../../helpers/trees.ts';

const K = { id: 'k', k: 0.42 } as const;
const SIZE = { widthMm: 1, depthMm: 1.5, besideMm: 0.5 };
const anything = () => true;

test('an angle has two nicks, at the ends of its fold line, pointing along it', () => {
  const flat = flatten(angle(60, 40, 80, 90, 3, 3), K);
  const { outline, without } = withNicks(flat.outline, flat.bends, SIZE, anything);
  expect(without).toEqual([]);
  const level = flat.bends[0]?.centreLine[0][1] ?? NaN;
  const added = outline
    .filter((v) => !flat.outline.some((o) => o.x === v.x && o.y === v.y))
    .map((v) => [v.x, v.y]);
  expect(added).toHaveLength(6);
  for (const point of [
    [0, level - 0.5],
    [1.5, level],
    [0, level + 0.5],
    [80, level - 0.5],
    [78.5, level],
    [80, level + 0.5],
  ]) {
    expect(added).toContainEqual(point.map((n) => expect.closeTo(n, 9)));
  }
  expect(signedArea(outline)).toBeCloseTo(signedArea(flat.outline) - 2 * 0.75, 9);
});

test('one that the cut cannot follow is left out, and the fold is told', () => {
  const flat = flatten(angle(60, 40, 80, 90, 3, 3), K);
  const nicked = withNicks(flat.outline, flat.bends, SIZE, () => false);
  expect(nicked).toEqual({ outline: flat.outline, without: ['A'] });
  expect(nickFindings(nicked).map((f) => [f.rule, f.severity])).toEqual([
    ['fold-without-nick', 'note'],
  ]);
});

test('on a slanted edge its width is square to the fold line', () => {
  const slanted = { ...flatten(angle(60, 40, 80, 90, 3, 3), K) };
  const [bend] = slanted.bends;
  const square = [
    [0, 0],
    [100, 0],
    [130, 60],
    [0, 60],
  ].map(([x, y]) => ({ x: x as number, y: y as number, bulge: 0 }));
  const line = {
    ...(bend as FlatBend),
    centreLine: [
      [0, 30],
      [115, 30],
    ] as const,
  };
  const { outline } = withNicks(square, [line], SIZE, anything);
  const mouth = outline.filter((v) => v.x > 114 && v.x < 116).map((v) => v.y);
  expect(Math.max(...mouth) - Math.min(...mouth)).toBeCloseTo(1, 9);
});

describe.each(TREES)('$name', ({ part }) => {
  it('keeps one simple outline, less a V for every nick, in either hand', () => {
    const counts = [part, mirrorPart(part)].map((hand) => {
      const flat = flatten(hand, K);
      const { outline } = withNicks(
        flat.outline,
        flat.bends,
        { widthMm: 0.4, depthMm: 0.3, besideMm: 0 },
        anything,
      );
      expect(selfCrossing(outline)).toBeUndefined();
      const lost = (signedArea(flat.outline) - signedArea(outline)) / 0.06;
      // Half its width by its depth, whatever the slant of the edge.
      expect(lost).toBeCloseTo((outline.length - flat.outline.length) / 3, 6);
      return outline.length;
    });
    expect(counts[0]).toBe(counts[1]);
  });
});

test('the size follows the cutter, and the choice reaches the drawing', async () => {
  expect([nickFor(0.2), nickFor(2)]).toEqual([
    { widthMm: 1, depthMm: 1.5, besideMm: 0.5 },
    { widthMm: 3, depthMm: 4, besideMm: 2 },
  ]);
  const inputs = { legA: 60, legB: 40, width: 80, thickness: 3 };
  const drawn = async (marks: 'lines' | 'nicks' | 'none') => {
    const made = makeParts(await loadFamily('bracket-angle'), inputs, {
      cutOnly: false,
      dxfVersion: 'r2000',
      marks,
    });
    const items = (made.ok ? made.parts[0]?.drawing?.items : undefined) ?? [];
    const [outline] = items.flatMap((i) =>
      i.kind === 'loop' && i.role === 'outline' ? [i.loop.length] : [],
    );
    return [outline, items.filter((i) => i.role === 'fold-up').length];
  };
  expect([await drawn('lines'), await drawn('nicks'), await drawn('none')]).toEqual([
    [4, 1],
    [10, 1],
    [4, 0],
  ]);
});
