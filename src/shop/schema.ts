import type * as z from 'zod';
import { DEFAULT_HANDOVER, PATTERN_ALLOWED, patternMend } from '../model/handover.ts';
import type { Shop } from '../model/shop.ts';
import { cutter, family, LENGTH_AND_WIDTH, THICKEST_MM } from './cutter.ts';
import { MATERIALS } from '../data/materials.ts';
import {
  degrees,
  disagree,
  list,
  mm,
  name,
  plain,
  section,
  word,
  yesNo,
} from '../forms/entries.ts';
import { folder, orBuiltIn, pressBrake } from './machine.ts';

const sheet = section({
  ...LENGTH_AND_WIDTH,
  material: family().optional(),
  thickness: mm(0.1, THICKEST_MM).optional(),
  price: plain('a price', 0, 1e6).optional(),
});

const marking = section({
  folds: word('lines', 'nicks', 'none').default('lines'),
  face: word('inside', 'outside').default('inside'),
  drilled: word('crosses', 'pierces').default('crosses'),
});

const handover = section({
  names: name().default(DEFAULT_HANDOVER.names),
  perSheet: yesNo().default(DEFAULT_HANDOVER.perSheet),
  tolerance: word('f', 'm', 'c', 'v').default(DEFAULT_HANDOVER.tolerance),
  protect: word('inside', 'outside', 'none').default(DEFAULT_HANDOVER.protect),
}).check(({ value, issues }) => {
  const mend = patternMend(value.names);
  if (mend !== undefined) disagree(issues, value.names, ['names'], PATTERN_ALLOWED, mend);
});

const bend = section({
  material: word(...MATERIALS.map((m) => m.id)),
  machine: name(),
  tool: name(),
  noseRadius: mm(0, 1000).optional(),
  hem: word('closed', 'open', 'teardrop').optional(),
  thickness: mm(0.1, THICKEST_MM),
  radius: mm(0, 1000),
  k: plain('a K factor', 0, 1),
  kError: plain('a standard error', 0, 1),
  radiusError: mm(0, 1000),
  correlation: plain('a correlation', -1, 1).optional(),
  spread: mm(0, 100).optional(),
  springback: plain('a share', 0.1, 1.1).optional(),
  strips: plain('a number of strips', 1, 1000),
  angles: section({ from: degrees(0.5, 180), to: degrees(0.5, 180) }),
  deductions: list(
    section({
      angle: degrees(0.5, 180),
      deduction: plain('a deduction in mm', -1000, 1000),
      strips: plain('a number of strips', 1, 1000),
    }),
    'deductions, each with angle, deduction and strips',
    0,
    100,
  ).optional(),
});

/** The whole file. */
export const shopSchema: z.ZodType<Omit<Shop, 'isAssumed'>> = section({
  name: name().default('the shop'),
  folders: list(orBuiltIn(folder, 'folder'), 'folders', 0, 20).default([]),
  pressBrakes: list(orBuiltIn(pressBrake, 'press brake'), 'press brakes', 0, 20).default([]),
  cutters: list(cutter, 'cutters', 1, 20),
  sheets: list(sheet, 'sheet sizes', 0, 200).default([]),
  marking: marking.prefault({}),
  handover: handover.prefault({}),
  weldGap: mm(0, 20).default(0.5),
  bends: list(bend, 'measured bends', 0, 1000).default([]),
})
  .check(({ value, issues }) => {
    const ids = [
      ...value.folders.map((m, i) => ({ id: m.id, path: ['folders', i, 'id'] })),
      ...value.pressBrakes.map((m, i) => ({ id: m.id, path: ['pressBrakes', i, 'id'] })),
    ];
    const names = value.cutters.map((c, i) => ({
      id: c.name.toLowerCase(),
      path: ['cutters', i, 'name'],
    }));
    for (const named of [ids, names]) {
      for (const [i, { id, path }] of named.entries()) {
        if (named.findIndex((other) => other.id === id) < i)
          disagree(
            issues,
            id,
            path,
            'a name no other of them has',
            'call one of the two by another name',
          );
      }
    }
  })
  .transform(({ folders, pressBrakes, ...rest }) => ({
    ...rest,
    machines: [...folders, ...pressBrakes],
  }));
