import { describe, expect, test } from 'vitest';
import { proveDxf } from '../../src/proof/proof.ts';
import { readPart } from '../../src/proof/read-part.ts';
import { angle } from '../helpers/parts.ts';
import { blankOf, stopsOf } from '../helpers/proved.ts';

const blank = blankOf(angle(60, 40, 80, 90, 3, 3));
if (blank === undefined) throw new Error('not flat');
const { asked, dxf } = blank;

describe('a text that is no whole DXF', () => {
  test.each([
    ['nothing', '', 'no DXF text'],
    ['prose', 'Dear reader,\nthis is no drawing.\n', 'should be a group code'],
    ['a binary one', 'AutoCAD Binary DXF\r\n\u001a\u0000', 'should be a group code'],
    ['cut off in the middle', dxf.slice(0, dxf.indexOf('AcDbPolyline')), 'cut off before its end'],
    ['without entities', '0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n', 'no ENTITIES section'],
    [
      'with a word for a number',
      dxf.replace(/(AcDbLine\n8\n[^\n]*\n10\n)[^\n]*/, '$1ten'),
      'no number',
    ],
  ])('%s', (_, text, reason) => {
    const proved = proveDxf(text, asked);
    expect(proved.ok ? '' : proved.reason).toContain(reason);
  });

  test('a DXF without anything on our layers has lost its outline', () => {
    const proved = proveDxf('0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n', asked);
    expect(proved.ok && stopsOf(proved.proof)).toEqual(['contour-lost']);
    expect(proved.ok && proved.proof.measures.every((m) => m.foundMm === null)).toBe(true);
  });

  test('fold lines that cross cannot be folded', () => {
    const [bend] = asked.bends;
    if (bend === undefined) throw new Error('no bend');
    const crossed = {
      ...asked,
      bends: [
        bend,
        {
          ...bend,
          id: 'B',
          centreLine: [
            [40, 0],
            [40, 90],
          ] as const,
        },
      ],
    };
    const proved = proveDxf(dxf, crossed);
    expect(proved.ok && stopsOf(proved.proof)).toContain('fold-lines-cross');
  });
});

describe('what a file is measured against', () => {
  const made = {
    name: 'post',
    material: { id: 's275', thicknessMm: 3 },
    bends: asked.bends,
    files: ['out/post.dxf'],
    proof: {
      worstMm: 0,
      measures: asked.measures,
      angles: asked.angles,
      made: { measure: asked.measure, kerfMm: 0, panels: asked.panels, cut: asked.cut },
    },
  };

  test('is one part, the only part, or the one that wrote the file', () => {
    for (const json of [
      made,
      { parts: [made] },
      { parts: [{ ...made, name: 'other', files: ['other.dxf'] }, made] },
    ]) {
      const read = readPart(JSON.parse(JSON.stringify(json)), 'post.dxf');
      expect(read).toMatchObject({ ok: true, name: 'post' });
      expect(read.ok && proveDxf(dxf, read.asked)).toEqual(proveDxf(dxf, asked));
    }
  });

  test.each([
    ['a list', []],
    ['nothing', null],
    ['another thing', { name: 'x' }],
    ['a part without its proof', { ...made, proof: undefined }],
    ['a part that was stopped', { ...made, proof: null }],
    [
      'parts of other files',
      {
        parts: [
          { ...made, files: ['a.dxf'] },
          { ...made, files: ['b.dxf'] },
        ],
      },
    ],
  ])('%s is refused with a mend', (_, json) => {
    expect(readPart(json, 'post.dxf')).toMatchObject({
      ok: false,
      given: expect.stringMatching(/./) as string,
      mend: expect.stringMatching(/./) as string,
    });
  });
});
