import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { partFlaws } from '../../src/flatten/part-flaws.ts';
import { polygon } from '../../src/geometry/loop.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { square, withOutline, WRONG } from './wrong-parts.ts';

const K = { id: 'k', k: 0.42 } as const;

describe('a part that is none is told, and not laid flat', () => {
  test.each(WRONG)('%s', (_, wrong, rule, says) => {
    const { findings, outline } = flatten(wrong, K);
    expect(findings.map((f) => [f.rule, f.severity])).toEqual(findings.map(() => [rule, 'stop']));
    expect(findings.map((f) => f.message).join('\n')).toMatch(says);
    expect(outline).toEqual([]);
  });

  test('every panel and every fold of it, at once', () => {
    const bad = part(
      [panel('a', polygon([0, 0], [0, 5], [5, 5])), panel('b', [])],
      [fold('F', { panel: 'a', edge: 9 }, { panel: 'b', edge: 0 })],
    );
    expect(partFlaws(bad).map((f) => /'(\w)'/.exec(f.message)?.[1])).toEqual(['a', 'b']);
    const folds = part(
      [panel('a', square), panel('b', square), panel('c', square)],
      [
        fold('F', { panel: 'a', edge: 9 }, { panel: 'b', edge: 8 }),
        fold('G', { panel: 'a', edge: 1 }, { panel: 'x', edge: 0 }, 300),
      ],
    );
    expect(partFlaws(folds).map((f) => /^Fold (\w)/.exec(f.message)?.[1])).toEqual([
      'F',
      'F',
      'G',
      'G',
    ]);
  });
});

test('the mend for a clockwise outline is right: edges are where it says', () => {
  const outline = polygon([0, 0], [0, 40], [60, 40], [80, 20], [80, 0]);
  const n = outline.length;
  const turned = [...outline].reverse();
  expect(partFlaws(withOutline(outline))[0]?.message).toContain(
    `edge ${n - 2} - i, the last one keeps its number`,
  );
  const edge = (loop: typeof outline, i: number): string =>
    [loop[i], loop[(i + 1) % n]]
      .map((v) => `${v?.x},${v?.y}`)
      .toSorted()
      .join(' ');
  for (let i = 0; i < n; i++)
    expect(edge(turned, i === n - 1 ? n - 1 : n - 2 - i)).toBe(edge(outline, i));
});
