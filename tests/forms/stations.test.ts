import { expect, test } from 'vitest';
import { readSections, readStations } from '../../src/forms/stations.ts';

test('sections by stations, in any unit, parted by | or lines', () => {
  const wanted = [
    {
      atMm: 0,
      corners: [
        [0, 0],
        [254, 0],
        [0, 50.8],
      ],
    },
    {
      atMm: -30,
      corners: [
        [0, 1],
        [2, 0],
        [0, 5],
      ],
    },
  ];
  for (const text of [
    '0: 0,0; 10in,0; 0,2in | -30: 0,1; 2,0; 0,5',
    '0: 0,0; 10in,0; 0,2in;\n\n-30: 0,1; 2,0; 0,5\n',
  ])
    expect(readSections(text)).toEqual({ ok: true, value: wanted });
});

test.each([
  ['0: 0,0; 1,0; 0,1', /two sections/],
  ['0: 0,0; 1,0; 0,1 | 0,0; 1,0; 0,1', /colon/],
  ['0: 0,0; 1,0; 0,1 | 5: 0,0; 1,0', /3 to 8 corners/],
  [`0: 0,0; 1,0; 0,1 | 5: ${'1,2;'.repeat(9)}`, /3 to 8 corners/],
  ['0: 0,0; 1,0; 0,1 | 5: 0,0; 1 0; 0,1', /x,y/],
  ['0: 0,0; 1,0; 0,1 | far: 0,0; 1,0; 0,1', /station: /],
  ['0: 0,0; 1,0; 0,1 | 5: 0,0; 20001,0; 0,1', /between -10000 and 10000/],
  ['0: 0,0; 1,0; 0,1 |'.repeat(13), /at most 12/],
])('%s is refused with what is allowed', (text, mend) => {
  expect(readSections(text)).toMatchObject({
    ok: false,
    mend: expect.stringMatching(mend) as string,
  });
});

test('stations alone are put in their order', () => {
  expect(readStations('400; 8in')).toEqual({ ok: true, value: [203.2, 400] });
  for (const wrong of ['', '3; x', '20000', '1;'.repeat(21)])
    expect(readStations(wrong)).toMatchObject({ ok: false });
});
