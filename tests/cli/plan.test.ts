import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';
import { caseOf } from '../plan/cases.ts';
import type { PlanResult } from '../../src/contract/panel-plan.ts';

const plan = async (text: string, ...flags: string[]) => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'case.json'), text);
  return blankwright(['plan', '--panels', 'case.json', ...flags], folder);
};

// The channel of the folding figures, case FC04: 6 orders of 24.
test('a part of panels and bends: verdict, orders and their number', async () => {
  const ran = await plan(JSON.stringify(caseOf('FC04')), '--count', '--json');
  expect(ran.code).toBe(0);
  const result = json<PlanResult>(ran);
  expect(result).toMatchObject({
    feasible: true,
    feasibleOrders: 6,
    totalOrders: 24,
    orders: caseOf('FC04').expected.orders,
    blocked: caseOf('FC04').expected.blocked,
  });
  expect(result.foldPlan?.steps.map((s) => s.stopAtDeg)).toEqual([95, 95, 95, 95]);
  expect(
    json<PlanResult>(await plan(JSON.stringify(caseOf('FC04')), '--json')).feasibleOrders,
  ).toBeNull();
});

test('a part that cannot be folded ends like one that cannot be made, and says why', async () => {
  const ran = await plan(JSON.stringify(caseOf('FC02')));
  expect(ran.code).toBe(1);
  expect(ran.out).toMatch(/No order of folds works/);
  expect(ran.out).toMatch(/p0 occupies the finger space along the fold/);
});

// FC08: the box of FC07 cannot be made on the straight folder.
test('on another machine', async () => {
  expect((await plan(JSON.stringify(caseOf('FC07')))).code).toBe(0);
  const ran = await plan(
    JSON.stringify(caseOf('FC07')),
    '--machine',
    'straight-2000x1.5',
    '--json',
  );
  expect(ran.code).toBe(1);
  expect(json<PlanResult>(ran)).toMatchObject({
    machine: 'straight-2000x1.5',
    feasible: false,
    feasibleOrders: 0,
  });
});

test('wrong input names its place', async () => {
  const given = structuredClone(caseOf('FC01')) as unknown as {
    part: { bends: { parent: string }[] };
  };
  (given.part.bends[1] as { parent: string }).parent = 'p7';
  const ran = await plan(JSON.stringify(given), '--json');
  expect(ran.code).toBe(2);
  expect(json<Problems>(ran).problems[0]).toMatchObject({
    input: 'part.bends[1].parent',
    given: "'p7'",
  });
  expect((await plan('{"part": ', '--json')).code).toBe(2);
  expect((await blankwright(['plan'], tempFolder())).code).toBe(2);
  expect((await blankwright(['plan', '--panels', 'none.json'], tempFolder())).code).toBe(2);
});
