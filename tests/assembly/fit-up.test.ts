import { describe, expect, test } from 'vitest';
import { fitUpWords } from '../../src/use/assembly/fit-up-words.ts';
import { published } from '../helpers/published.ts';

const STEEL = { family: 'steel' } as const;
const ALUMINIUM = { family: 'aluminium' } as const;
const seam = (letter: string, gapMm: number, kind: 'butt' | 'corner' | 'lap' = 'butt') => ({
  letter,
  kind,
  gapMm: [0, gapMm] as const,
});

describe('how seams are fitted up (tests/published/welding.json)', () => {
  const { expect: gaps } = published('welding', 'gap-mig');

  test.each([
    [1.5, gaps['gap_mm_up_to_4_8']],
    [4.8, gaps['gap_mm_up_to_4_8']],
    [5, gaps['gap_mm_4_8_to_6_4']],
    [6.4, gaps['gap_mm_4_8_to_6_4']],
  ])('square edges of %s mm: the gap of the handbook, and which seams stand wider', (t, gap) => {
    const [least, most] = gap as [number, number];
    const sheet = { material: STEEL, thicknessMm: t };
    const seams = [seam('A', most), seam('B', most + 0.1), seam('C', most + 9, 'lap')];
    const [words, ...more] = fitUpWords(seams, sheet);
    expect(more).toEqual([]);
    expect(words).toContain(`a gap of ${least} to ${most} mm`);
    expect(words).toMatch(/: B is drawn wider/);
    expect(fitUpWords([seam('A', most), seam('D', 0, 'corner')], sheet)[0]).not.toMatch(/wider/);
  });

  test('thicker than the handbook says nothing of', () => {
    expect(fitUpWords([seam('A', 5)], { material: STEEL, thicknessMm: 6.5 })).toEqual([]);
  });

  test('aluminium has a bar or a strip behind a seam that is welded from one side', () => {
    const { given, expect: wanted } = published('welding', 'backing-al');
    const [narrow, wide] = wanted['strip_width'] as [number, number];
    const [thin, thick] = wanted['strip_thickness'] as [number, number];
    const [, words] = fitUpWords([], { material: ALUMINIUM, thicknessMm: Number(given['t']) });
    expect(words).toContain(
      `a groove ${String(wanted['groove_width'])} mm wide and ${String(wanted['groove_depth'])} mm deep`,
    );
    expect(words).toContain(`${narrow} to ${wide} mm wide and ${thin} to ${thick} mm thick`);
    expect(fitUpWords([], { material: ALUMINIUM, thicknessMm: 8 })).toEqual([]);
  });
});
