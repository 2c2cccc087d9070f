import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Machine } from '../../src/model/machine.ts';
import { CONTACT_GAP_MM } from '../../src/geometry/tolerance.ts';
import { type Reason, whyNot } from '../../src/plan/search/reasons.ts';
import { type Contact, replaySolid } from './replay-solid.ts';
import { faultsOf, roomsOf } from './replay-solid-plan.ts';
import { HAT, type Inputs, onlyPlanned } from './replay-solid-planned.ts';

const DC = { material: 'dc01', thickness: 1.5, radius: 1.5 };
const CHANNEL = { ...DC, flangeA: 110, web: 60, flangeB: 60, width: 100 };
const ZED = { ...DC, flangeA: 80, offset: 20, flangeB: 40, width: 100 };

interface Order {
  readonly into: string;
  readonly panel: string;
  readonly family: string;
  readonly inputs: Inputs;
  readonly machine: Machine;
  readonly after: readonly string[];
  readonly bend: string;
  readonly clamped: string;
}

const order = (
  into: string,
  panelId: string,
  [family, inputs, machine]: readonly [string, Inputs, Machine],
  [after, bend, clamped]: readonly [string, string, string],
): Order => ({
  into,
  panel: panelId,
  family,
  inputs,
  machine,
  after: after.split(' '),
  bend,
  clamped,
});

describe('what is in the way is found', () => {
  test.each([
    order('beam', 'flange A', ['bracket-channel', CHANNEL, BOX_PAN], ['A', 'B', 'web']),
    order('beam', 'flange A', ['bracket-channel', CHANNEL, BOX_PAN], ['A', 'B', 'flange B']),
    order(
      'fingers',
      'flange A',
      ['bracket-channel', { ...CHANNEL, flangeA: 60, web: 40 }, BOX_PAN],
      ['A', 'B', 'web'],
    ),
    order('bed', 'flange A', ['bracket-zed', ZED, BOX_PAN], ['A', 'B', 'web']),
    order('leaf', 'flange A', ['bracket-zed', ZED, BOX_PAN], ['A', 'B', 'flange B']),
    order('die', 'flange A', ['bracket-zed', ZED, PRESS_BRAKE], ['A', 'B', 'web']),
    order(
      'punch',
      'flange A',
      ['bracket-channel', { ...CHANNEL, flangeA: 60, web: 30 }, PRESS_BRAKE],
      ['A', 'B', 'web'],
    ),
    order(
      'ram',
      'flange A',
      ['bracket-channel', { ...CHANNEL, flangeA: 170, web: 165 }, PRESS_BRAKE],
      ['A', 'B', 'web'],
    ),
    order(
      'flange A',
      'flange B',
      ['bracket-channel', { ...CHANNEL, flangeA: 30, web: 20, bendAngle: 120 }, PRESS_BRAKE],
      ['A', 'B', 'web'],
    ),
  ])(
    '$family on $machine.id: $panel in the $into',
    async ({ into, panel: panelId, family, inputs, machine, after, bend, clamped }) => {
      const { flat, plan } = await onlyPlanned(family, inputs, machine);
      const [{ angleDeg, parent }] = flat.bends.filter((b) => b.id === bend) as [
        FlatPattern['bends'][number],
      ];
      const { contacts } = replaySolid(
        flat,
        plan.machine,
        [{ bends: [bend], clamped, stopAtDeg: angleDeg }],
        'about the hinge',
        after,
      );
      expect(contacts.filter((c) => c.isFault).map((c) => [c.what, c.into])).toContainEqual([
        panelId,
        into,
      ]);
      // The planner rules the same out.
      const { net, strokes } = plan.answer.lattice;
      const made = net.folds.reduce((bits, f, i) => bits | (after.includes(f.id) ? 1 << i : 0), 0);
      const stroke = strokes.find(
        (s) => s.folds.length === 1 && net.folds[s.folds[0] as number]?.id === bend,
      );
      expect(stroke?.isClear(made, parent === clamped ? 0 : 1)).toBe(false);
    },
  );

  test('a plan for a folder whose beam is higher', async () => {
    const { flat, plan } = await onlyPlanned(
      'bracket-channel',
      { ...CHANNEL, flangeA: 90, flangeB: 90, web: 100 },
      BOX_PAN,
    );
    expect([plan.plan.feasible, faultsOf(plan, flat)]).toEqual([true, []]);
    if (plan.machine.kind !== 'folder' || plan.machine.clamp.kind !== 'fingers')
      throw new Error('a folder with fingers');
    const { clamp } = plan.machine;
    const low: Machine = {
      ...plan.machine,
      clamp: { ...clamp, boxDepthMm: { ...clamp.boxDepthMm, value: 60 } },
    };
    expect(faultsOf({ ...plan, machine: low }, flat).join('\n')).toMatch(
      /flange [AB] [\d.]+ mm in beam/,
    );
  });

  test('tools that stand where a side does', async () => {
    const { flat, plan } = await onlyPlanned(
      'bracket-gusset',
      { ...DC, base: 70, upright: 90, width: 60, gussetDepth: 40, gussetHeight: 50 },
      BOX_PAN,
    );
    const stroke = { bends: ['A'], clamped: 'base', stopAtDeg: 90 };
    const within = (ends: number): Contact[] =>
      replaySolid(
        flat,
        plan.machine,
        [{ ...stroke, places: [{ from: -30 + ends, to: 30 - ends }] }],
        'about the hinge',
        ['B', 'C'],
      ).contacts.filter((c) => c.isFault);
    expect(within(0).map((c) => [c.what, c.into])).toEqual(
      expect.arrayContaining([
        ['left cheek', 'fingers'],
        ['right cheek', 'fingers'],
      ]),
    );
    expect(within(1.5)).toEqual([]);
  });
});

/** The body, or the panel, that a reason names; none where it names a length or an angle. */
const namedIn = ({ text, touches }: Reason): string | null => {
  const bodies = [
    [/upper beam/, 'beam'],
    [/finger space/, 'fingers'],
    [/leaf/, 'leaf'],
    [/the bed/, 'bed'],
    [/the ram/, 'ram'],
    [/the die/, 'die'],
    [/the punch/, 'punch'],
    [/swings into/, touches],
  ] as const;
  return bodies.find(([pattern]) => pattern.test(text))?.[1] ?? null;
};

const pair = (a: string, b: string): string =>
  [a, b].toSorted((x, y) => (x < y ? -1 : 1)).join(' and ');

describe('planner and replay agree on every stroke from every state', () => {
  test.each([
    ['a zed', 'bracket-zed', { ...ZED, offset: 15 }, BOX_PAN],
    ['a zed', 'bracket-zed', ZED, PRESS_BRAKE],
    [
      'a steep channel',
      'bracket-channel',
      { ...CHANNEL, flangeA: 30, web: 20, bendAngle: 120 },
      PRESS_BRAKE,
    ],
    ['a hat', 'bracket-hat', HAT, BOX_PAN],
    [
      'a bracket with cheeks',
      'bracket-gusset',
      { ...DC, base: 70, upright: 90, width: 60, gussetDepth: 40, gussetHeight: 50 },
      BOX_PAN,
    ],
  ])('%s (%s)', async (_, family, inputs, machine) => {
    // What hands may do beside the machine is another question.
    const { flat, plan } = await onlyPlanned(family, inputs, machine, { byMachineOnly: true });
    const { net, strokes } = plan.answer.lattice;
    const idOf = (number: number): string => net.folds[number]?.id ?? '';
    const found = { clear: 0, blocked: 0 };
    for (let made = 0; made < 1 << net.folds.length; made++) {
      for (const stroke of strokes.filter((s) => (s.bits & made) === 0 && s.isInLine(made))) {
        for (const placement of [0, 1] as const) {
          const after = net.folds.map((f) => f.id).filter((_id, i) => (made & (1 << i)) !== 0);
          const [first] = flat.bends.filter((b) => b.id === idOf(stroke.folds[0] as number)) as [
            FlatPattern['bends'][number],
          ];
          const clamped = placement === 0 ? first.parent : first.child;
          const rooms = stroke
            .tools(made, placement, stroke.taken(made, placement))
            ?.map((b) => b.room);
          const { contacts } = replaySolid(
            flat,
            plan.machine,
            [
              {
                bends: stroke.folds.map(idOf),
                clamped,
                stopAtDeg: stroke.rules.swingDeg,
                places: rooms && roomsOf(machine, rooms),
              },
            ],
            'about the hinge',
            after,
          );
          const about = `${first.id} after ${after.join()}, ${clamped} clamped`;
          const why = whyNot(net, stroke, made, placement);
          if (why === undefined) {
            found.clear += 1;
            expect(
              contacts.filter((c) => c.isFault),
              about,
            ).toEqual([]);
            continue;
          }
          const into = namedIn(why);
          if (into === null) continue;
          found.blocked += 1;
          const met = contacts
            .filter((c) => c.deepestMm >= CONTACT_GAP_MM)
            .map((c) => pair(c.what, c.into));
          if (into === why.touches) expect(met.join(), `${about}: ${why.text}`).toContain(into);
          else expect(met, `${about}: ${why.text}`).toContain(pair(why.touches ?? '', into));
        }
      }
    }
    expect(Math.min(found.clear, found.blocked)).toBeGreaterThan(1);
  });
});
