import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';

// The bend of 2 mm sheet about a radius of 4 reaches (2 + 4) tan(45) = 6 mm from its mould line on
// either side: all of a fold that begins there and is 6 mm long, and as much of what lies between
// two that run along each other, which takes 12.
describe('two folds of a plate whose bends meet', () => {
  const stops = async (outline: string, folds: string) => {
    const inputs = { outline, folds, material: 's235', thickness: 2, radius: 4 };
    const made = makeParts(await loadFamily('plate'), inputs);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    return made.parts.flatMap(({ result }) =>
      result.findings.filter((f) => f.severity === 'stop').map((f) => [f.rule, f.message]),
    );
  };

  test('at an angle: one takes all of the other’s length, and no panel is called too narrow', async () => {
    const ear = '0,0; 100,0; 100,30; 130,30; 130,36; 100,36; 100,100; 0,100';
    expect(await stops(ear, '0,30 100,30 90 up; 100,30 100,36 90 up')).toEqual([
      [
        'leg-too-short',
        expect.stringMatching(
          /^On panel 1 fold line 1 of folds runs at an angle to fold line 2 of folds and its bend, 6 mm wide from the mould line, takes all of that fold's length/,
        ),
      ],
    ]);
    // 3 mm more of it are left by the bend, and are no matter of this rule.
    const longer = ear.replaceAll(',36', ',45');
    expect(await stops(longer, '0,30 100,30 90 up; 100,30 100,45 90 up')).toEqual([]);
  });

  test('along each other: the panel between them is too narrow', async () => {
    expect(
      await stops('0,0; 100,0; 100,100; 0,100', '0,30 100,30 90 up; 0,36 100,36 90 up'),
    ).toEqual([
      ['leg-too-short', expect.stringMatching(/^panel \d is too narrow for .* take 12 mm of it/)],
    ]);
  });
});
