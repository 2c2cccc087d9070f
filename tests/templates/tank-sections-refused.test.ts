import { expect, test } from 'vitest';
import { make, rulesOf } from '../helpers/check-template.ts';

type Inputs = Readonly<Record<string, unknown>>;

const COMMON = { material: 'dc01', thickness: 2, radius: 3 };
const BOX = '0: 0,0; 400,0; 400,220; 0,240 | 600: 20,10; 380,10; 380,190; 20,208';

/** What is wrong, its rule, and what of its message makes it right. */
const REFUSED: readonly (readonly [
  what: string,
  inputs: Inputs,
  rule: string,
  figure?: RegExp,
  mended?: (found: readonly string[]) => Inputs,
])[] = [
  [
    'unequal corners',
    { sections: '0: 0,0; 400,0; 400,220; 0,240 | 600: 0,0; 400,0; 200,220' },
    'sections-unlike',
  ],
  ['stations that fall', { sections: BOX.replace('600:', '-600:') }, 'sections-out-of-order'],
  [
    'stations too near to each other',
    {
      sections: BOX.replace('600:', '12:').replace(
        '20,10; 380,10; 380,190; 20,208',
        '0,0; 400,0; 400,220; 0,240',
      ),
    },
    'sections-out-of-order',
    /(\d+) mm or more/,
    ([apart]) => ({
      sections: `0: 0,0; 400,0; 400,220; 0,240 | ${apart}: 0,0; 400,0; 400,220; 0,240`,
    }),
  ],
  [
    'a section that crosses itself',
    { sections: BOX.replace('400,220; 0,240', '0,240; 400,220') },
    'walls-cross',
  ],
  [
    'a corner on a straight side',
    { sections: '0: 0,0; 200,0; 400,0; 200,220 | 600: 0,0; 200,0; 400,0; 200,220' },
    'section-corner',
  ],
  [
    'a wall that is warped too far',
    { sections: '0: 0,0; 400,0; 400,220; 0,240 | 200: 0,0; 400,0; 400,220; 0,90' },
    'wall-too-warped',
    /give corner 4 at station 200 ([-\d.]+,[-\d.]+)/,
    ([corner]) => ({
      sections: `0: 0,0; 400,0; 400,220; 0,240 | 200: 0,0; 400,0; 400,220; ${corner}`,
    }),
  ],
  [
    'a wall that is nearly a step',
    {
      sections: '0: 0,0; 400,0; 400,220; 0,220 | 60: 150,0; 400,0; 400,220; 150,220',
    },
    'wall-leans-along',
    /give stations ([\d.]+) or more/,
    ([apart]) => ({
      sections: `0: 0,0; 400,0; 400,220; 0,220 | ${apart}: 150,0; 400,0; 400,220; 150,220`,
    }),
  ],
  [
    'a section that is begun at the opposite corner',
    {
      sections: '0: 0,0; 400,0; 400,220; 0,220 | 600: 400,220; 0,220; 0,0; 400,0',
    },
    'walls-cross',
  ],
  [
    'a section thinner than its sheet',
    { sections: '0: 0,0; 400,0; 400,15; 0,15 | 600: 0,0; 400,0; 400,15; 0,15', thickness: 3 },
    'section-too-thin',
    /give ([\d.]+) or less/,
    ([thickness]) => ({
      sections: '0: 0,0; 400,0; 400,15; 0,15 | 600: 0,0; 400,0; 400,15; 0,15',
      thickness: Number(thickness),
      radius: 0.5,
      blanks: 'plates',
      longestBay: 700,
    }),
  ],
  [
    'a filler over the edge',
    { sections: BOX, filler: '300,20,60' },
    'hole-meets-wall',
    /reaches ([\d.]+) over/,
    ([over]) => ({ sections: BOX, filler: `300,${20 + Number(over) + 0.05},60` }),
  ],
  ['a filler beside the tank', { sections: BOX, filler: '900,20,60' }, 'hole-meets-wall'],
  [
    'a baffle outside',
    { sections: BOX, baffleAt: '100; 700' },
    'baffle-in-the-way',
    /give [\d.]+ to ([\d.]+)/,
    ([most]) => ({ sections: BOX, baffleAt: `100; ${most}` }),
  ],
  [
    'a baffle on a weld',
    {
      sections: `${BOX.replace(' | ', ' | 300: 10,5; 390,5; 390,205; 10,224 | ')}`,
      baffleAt: '299',
    },
    'baffle-in-the-way',
    /give ([\d.]+) or less/,
    ([most]) => ({
      sections: `${BOX.replace(' | ', ' | 300: 10,5; 390,5; 390,205; 10,224 | ')}`,
      baffleAt: most,
    }),
  ],
  [
    'a corner that there is not',
    { sections: BOX, seam: 5 },
    'no-such-side',
    /give (\d) or less/,
    ([seam]) => ({ sections: BOX, seam: Number(seam) }),
  ],
  [
    'ends that fall in',
    { sections: BOX, setback: 1.5 },
    'top-falls-in',
    /give ([\d.]+) or less/,
    ([setback]) => ({ sections: BOX, setback: Number(setback) }),
  ],
  [
    'a triangle that stands on its edge has no top for a filler',
    { sections: '0: 0,0; 200,0; 100,250 | 600: 0,0; 200,0; 100,250', filler: '300,100,10' },
    'no-face-for-hole',
  ],
];

for (const [what, inputs, rule, figure, mended] of REFUSED)
  test(`${what} is refused by ${rule}, with what passes`, async () => {
    const [part] = await make('tank-sections', { ...COMMON, ...inputs });
    expect([...new Set(rulesOf(part, 'stop'))]).toEqual([rule]);
    const message = part?.result.findings.find((f) => f.rule === rule)?.message ?? '';
    if (figure === undefined || mended === undefined) return;
    const found = figure.exec(message);
    expect(found, message).not.toBeNull();
    const again = await make('tank-sections', { ...COMMON, ...mended((found ?? []).slice(1)) });
    expect(again.flatMap((one) => rulesOf(one, 'stop'))).toEqual([]);
  });
