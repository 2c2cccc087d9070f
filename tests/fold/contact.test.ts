import { describe, expect, it, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { contactsOf } from '../../src/fold/contact.ts';
import { contactFindings } from '../../src/fold/contact-findings.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import { isInside } from '../../src/geometry/inside.ts';
import { moveLoop } from '../../src/geometry/motion2.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { reroot } from '../../src/model/reroot.ts';
import type { Part } from '../../src/model/part.ts';
import { box, fold, panel, part } from '../helpers/parts.ts';
import { TREES } from '../helpers/trees.ts';
import { CONTACT_GAP_MM } from '../../src/geometry/tolerance.ts';

const K = { id: 'k', k: 0.42 } as const;

/** A strip 50 wide, folded up square between its legs; legs by their outside lengths. */
const strip = (lengths: readonly number[], width = 50, t = 2): Part =>
  part(
    lengths.map((length, i) => panel(`leg ${i}`, rectangle(0, 0, width, length))),
    lengths
      .slice(1)
      .map((_, i) =>
        fold(
          `F${i}`,
          { panel: `leg ${i}`, edge: 2 },
          { panel: `leg ${i + 1}`, edge: 0 },
          90,
          'up',
          2,
        ),
      ),
    { thicknessMm: t },
  );

const found = (p: Part) =>
  contactsOf(p, flatten(p, K)).map(
    ({ between, depthMm }) => [[...between].toSorted(), depthMm] as const,
  );

describe.each(TREES)('$name', ({ part: tree }) => {
  it('does not run into itself, in either hand', () => {
    for (const hand of [tree, mirrorPart(tree)])
      expect(contactsOf(hand, flatten(hand, K))).toEqual([]);
  });
});

describe('a strip rolled up square', () => {
  // Outside lengths 60, 40, 60: the last leg comes down to the first one's outer end, whose face is
  // at 2. It is 2 thick and stands over the first leg's own end, so it can go 2 sideways or as deep
  // as it reaches.
  it.each([
    [37, []],
    [37.99, []],
    [38 + CONTACT_GAP_MM - 0.001, []],
    [38 + CONTACT_GAP_MM + 0.001, [[['leg 0', 'leg 3'], CONTACT_GAP_MM + 0.001]]],
    [39, [[['leg 0', 'leg 3'], 1]]],
    // Deeper than it is thick: out sideways is nearer.
    [60, [[['leg 0', 'leg 3'], 2]]],
  ])('with a last leg of %d', (last, contacts) => {
    const rolled = strip([60, 40, 60, last]);
    const expected = contacts.map(([names, depth]) => [names, expect.closeTo(depth as number, 6)]);
    expect(found(rolled)).toEqual(expected);
    expect(found(mirrorPart(rolled))).toEqual(expected);
    for (const { id } of rolled.panels) expect(found(reroot(rolled, id))).toEqual(expected);
  });

  it('says where', () => {
    const rolled = strip([60, 40, 60, 39]);
    const [contact] = contactsOf(rolled, flatten(rolled, K));
    // In the first leg's frame: across the middle of the width, at its free end, between its faces.
    expect(contact?.at).toEqual([
      expect.closeTo(25, 6),
      expect.closeTo(1, 6),
      expect.closeTo(1.5, 6),
    ]);
  });

  it('runs into a bend as well as into a leg', () => {
    // The first bend is wide: its metal begins 48 along the first leg, and the last leg comes down
    // at 51.9 to 53.9.
    const onBend = strip([60, 40, 8.1, 60]);
    const wide = {
      ...onBend,
      folds: onBend.folds.map((f) => (f.id === 'F0' ? { ...f, insideRadiusMm: 10 } : f)),
    };
    expect(found(wide).map(([names]) => names)).toEqual([['fold F0', 'leg 3']]);
  });
});

it('walls that lean in until they meet, and lips that cross', () => {
  // Base 100 x 100, walls 60 high folded 130: 60 cos 50 = 38.6 in on either side is less than half,
  // 80 cos 50 = 51 is more.
  expect(found({ ...box(100, 100, 60, 130, 2, 2) }).length).toBe(0);
  const crossing = part(
    [
      panel('base', rectangle(0, 0, 60, 40)),
      panel('a', rectangle(0, 0, 60, 30)),
      panel('b', rectangle(0, 0, 60, 30)),
      panel('la', rectangle(0, 0, 60, 25)),
      panel('lb', rectangle(0, 0, 60, 25)),
    ],
    [
      fold('A', { panel: 'base', edge: 0 }, { panel: 'a', edge: 0 }, 90, 'up', 2),
      fold('B', { panel: 'base', edge: 2 }, { panel: 'b', edge: 0 }, 90, 'up', 2),
      fold('LA', { panel: 'a', edge: 2 }, { panel: 'la', edge: 0 }, 90, 'up', 2),
      fold('LB', { panel: 'b', edge: 2 }, { panel: 'lb', edge: 0 }, 90, 'up', 2),
    ],
    { thicknessMm: 2 },
  );
  // Lips of 25 from either side of 40 at the same height: 10 over each other, 2 thick.
  expect(found(crossing)).toEqual([[['la', 'lb'], expect.closeTo(2, 6)]]);
});

test('an edge that grazes a bend by less than the sheet is a warning, everything else a stop', () => {
  const rolled = strip([60, 40, 8.1, 60]);
  // The first bend is wide: the last leg comes down on its metal, past the sheet's thickness or
  // not.
  const wide = (last: number) => {
    const p = strip([60, 40, 8.1, last]);
    return { ...p, folds: p.folds.map((f) => (f.id === 'F0' ? { ...f, insideRadiusMm: 10 } : f)) };
  };
  const severities = (p: Part) =>
    contactFindings(p, flatten(p, K)).map((f) => [f.rule, f.severity]);
  expect(severities(wide(60))).toEqual([['runs-into-itself', 'stop']]);
  const grazing = [36, 36.5, 37, 37.5, 38]
    .map((last) => severities(wide(last)))
    .find((found) => found.length > 0);
  expect(grazing).toEqual([['grazes-bend', 'warn']]);
  expect(severities(rolled)[0]).toEqual(['runs-into-itself', 'stop']);
});

test('a finding on a contact tells a panel, a place on it, and how deep it is, in either hand', () => {
  for (const p of [strip([60, 40, 8.1, 60]), mirrorPart(strip([60, 40, 8.1, 60]))]) {
    const flat = flatten(p, K);
    const [deepest] = contactsOf(p, flat);
    const [stop] = contactFindings(p, flat);
    expect(deepest?.between).toContain(stop?.panel);
    expect(stop?.measured).toEqual({ value: deepest?.depthMm, unit: 'mm' });
    expect(stop?.limit).toEqual({ atMost: 0, unit: 'mm' });
    const own = flat.panels.find(({ id }) => id === stop?.panel);
    if (own === undefined || stop?.at === undefined) throw new Error('no place');
    expect(
      pointGap(stop.at, moveLoop(own.placement, own.region)) < 1 ||
        isInside(moveLoop(own.placement, own.region), stop.at),
    ).toBe(true);
  }
});
