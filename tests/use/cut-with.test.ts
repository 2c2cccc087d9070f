import { expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { readJob } from '../../src/jobfile/read.ts';
import { cutListOfJob } from '../../src/use/cutlist/cut-list-of-job.ts';
import { shopOfJob } from '../../src/use/job/ready-job.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';

// 12 mm from the edge is 7.5 mm of metal: enough for a laser on 6 mm sheet and too little for plasma.
const INPUTS = { legA: 80, legB: 60, width: 80, thickness: 6, material: 's275' };
const HOLES = { holesA: 'from fold 50, from left 12, M8' };

const made = async (cutWith?: string) =>
  makeParts(await loadFamily('bracket-angle'), { ...INPUTS, ...HOLES }, { cutWith });

const rulesOf = (parts: Awaited<ReturnType<typeof made>>): string[] => {
  if (!parts.ok) throw new Error(JSON.stringify(parts.problems));
  return parts.parts.flatMap(({ result }) => result.findings.map(({ rule }) => rule));
};

test('a part is checked against the cutter that it is cut with, by name or by process', async () => {
  expect(rulesOf(await made())).toContain('web-too-thin');
  expect(rulesOf(await made('plasma'))).toContain('web-too-thin');
  expect(rulesOf(await made('laser'))).not.toContain('web-too-thin');
  expect(rulesOf(await made('Laser Service'))).not.toContain('web-too-thin');
});

test('a cutter that the shop has not is told, with those that it has', async () => {
  expect(await made('water')).toEqual({
    ok: false,
    problems: [
      {
        input: 'cutWith',
        given: "'water'",
        allowed:
          'a cutter of the shop file, by its name or process: plasma (plasma), laser service (laser)',
      },
    ],
  });
});

test('a job that goes to a service has its cutter in the cut list', async () => {
  const families = new Map([['bracket-angle', await loadFamily('bracket-angle')]]);
  const listed = (cutWith: string) => {
    const read = readJob(
      `title: t\ndefaults: { ${cutWith}material: s275, thickness: 6 }\nparts: [{ family: bracket-angle, inputs: { legA: 80, legB: 60, width: 80 } }]\n`,
      families,
    );
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const shop = shopOfJob(read.job, DEFAULT_SHOP);
    return cutListOfJob({ job: read.job, families, shop }).result.groups.map((g) => g.cutter);
  };
  expect(listed('')).toEqual(['plasma']);
  expect(listed('cutWith: laser, ')).toEqual(['laser service']);
});
