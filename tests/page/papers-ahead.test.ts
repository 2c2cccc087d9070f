import { expect, test } from 'vitest';
import { coreAnswers } from '../../src/page/core/answers.ts';
import { SHEET_NAMES } from '../../src/model/paper.ts';
import { IS_FULL } from '../helpers/extent.ts';

/** What the page says that a press would write is what is written. */

const core = coreAnswers();

const JOB = `title: cart
parts:
  - family: bracket-angle
    hand: both
    inputs: { legA: 60, legB: 40, width: 80, thickness: 3 }
  - family: tank
    inputs: { length: 300, width: 200, height: 150, thickness: 2 }
  - family: bracket-channel
    name: deep
    inputs: { flangeA: 120, web: 20, flangeB: 120, width: 600, thickness: 2 }
  - family: tube-bent
    inputs: { legs: "300; 90, 300", diameter: 25, wall: 2 }
  - family: tube-cope
    hand: both
    inputs: { diameter: 60, wall: 2, header: 76, angle: 40, other: header, clocking: 30 }
  - family: bracket-angle
    name: stopped
    inputs: { legA: 4, legB: 40, width: 80, thickness: 3 }
`;

const SHOP = `name: shed
cutters:
  - name: table
    process: plasma
    thickness: { from: 0.5, to: 6 }
    bed: { length: 1250, width: 1250 }
    kerf: [{ thickness: 3, kerf: 1.5 }]
    import: { layers: merged, foldLines: out, curves: chords, units: inch }
`;

const WORDS = ['card', 'sheet', 'folding', 'assembly', 'model'] as const;

test('each press is told by the files that it writes, the card by its pages', async () => {
  for (const index of IS_FULL ? [0, 1, 2, 3, 4, 5] : [0, 3, 4, 5]) {
    const ask = { job: JOB, shop: null, index, isNarrow: false };
    const ahead = await core.ahead(ask);
    const cut = (await core.files({ ...ask, outputs: [] })).files.map(({ name }) => name);
    expect(ahead.files.cut).toEqual(cut);
    for (const word of WORDS) {
      const { files } = await core.files({ ...ask, outputs: [word] });
      const names = files.map(({ name }) => name).filter((name) => !cut.includes(name));
      expect(ahead.files[word]?.toSorted(), word).toEqual(names.toSorted());
    }
    for (const paper of IS_FULL ? SHEET_NAMES : (['letter'] as const)) {
      const { files } = await core.files({ ...ask, outputs: ['card'], paper });
      const pages = files
        .filter(({ name }) => name.endsWith('-card.pdf'))
        .map(
          ({ contents }) =>
            (String.fromCharCode(...bytesOf(contents)).match(/\/Type \/Page\b/g) ?? []).length,
        );
      expect(ahead.cardPages[paper], paper).toBe(pages.reduce((sum, n) => sum + n, 0));
    }
  }
});

const bytesOf = (contents: string | Uint8Array): number[] =>
  typeof contents === 'string' ? [] : [...contents];

test('the cut files are told in the form of the cutter that takes the sheet', async () => {
  const ask = { job: JOB, index: 0, isNarrow: false };
  const { cutForm } = await core.ahead({ ...ask, shop: SHOP });
  expect(cutForm).toBe(
    'for table: DXF of release 2000 and SVG, all cuts on one layer, without fold lines, arcs as short chords, in inches',
  );
  const { files } = await core.files({ ...ask, shop: SHOP, outputs: [] });
  const dxf = String(files.find(({ name }) => name.endsWith('.dxf'))?.contents);
  expect(dxf).not.toMatch(/\nARC\n/);
  expect((await core.ahead({ ...ask, index: 5, shop: null })).cutForm).toBe('');
});
