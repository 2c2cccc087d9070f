import { findMachine, MACHINES } from '../../data/machines.ts';
import { cross, sub, type Vec2 } from '../../geometry/vec2.ts';
import type { Flaw } from '../../forms/field.ts';
import * as fields from '../../forms/fields.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { ANYTHING, checked, list, named, optional, pair, section } from '../../forms/sections.ts';
import { valueAt, written } from '../../forms/value-path.ts';
import type { Machine } from '../../model/machine.ts';
import { setUp } from '../../shop/settings.ts';
import { midPlaneNet, type MidPlanePart } from './midplane.ts';
import type { FoldNet } from '../machines/net.ts';
import { partProblems } from './tree-problems.ts';

/** The most folds of a case, because states are bits of a number. */
export const MOST_FOLDS = 30;
const LARGEST_MM = 100_000;

const point = pair<number>(
  fields.length({ about: 'A figure of a point.', min: -LARGEST_MM, max: LARGEST_MM }),
  'a point [x, y]',
);
const id = (about: string) => fields.text({ about, max: 60 });

const panel = section(
  'A panel, in the flat.',
  {
    id: id('Its name.'),
    pieces: list(
      'Its convex pieces.',
      list('A convex polygon.', point, { what: 'points [x, y]', min: 3, max: 100 }),
      { what: 'convex polygons', min: 1, max: 50 },
    ),
  },
  'passed over',
);

const bend = section(
  'A bend.',
  {
    id: id('Its name.'),
    parent: id('The panel that stays.'),
    child: id('The panel that is turned.'),
    line: pair(point, 'a line of two points, each [x, y]'),
    angle_deg: checked(
      fields.angle({
        about: 'How far it is turned, less than 0 away from the visible face.',
        min: -180,
        max: 180,
      }),
      (deg, disagree) => {
        if (deg === 0) disagree([], 'an angle other than 0');
      },
    ),
  },
  'passed over',
);

/**
 * The form of a worked case of folding. Names that the planner does not use - title, expected,
 * reasoning - are ignored.
 */
const CASE = section(
  'A worked case of folding.',
  {
    machine: optional(
      section(
        'Its machine.',
        {
          profile: optional(fields.text({ about: 'Its id.', max: 1000 })),
          settings: optional(named('What is set anew.', ANYTHING, 'a set of settings')),
        },
        'passed over',
      ),
    ),
    part: section(
      'What is folded.',
      {
        thickness_mm: fields.length({ about: 'Thickness of the sheet.', min: 0.1, max: 50 }),
        root: optional(id('The panel that stays.')),
        panels: list('Its panels.', panel, { what: 'panels', min: 2, max: MOST_FOLDS + 1 }),
        bends: list('Its bends.', bend, { what: 'bends', min: 1, max: MOST_FOLDS }),
      },
      'passed over',
    ),
    strokes_allowed: optional(
      list(
        'The only sets of bends that may be made at once.',
        list('A set of bends.', id('A bend.'), { what: 'bends', min: 1, max: MOST_FOLDS }),
        { what: 'sets of bends', min: 0, max: 100_000 },
      ),
    ),
  },
  'passed over',
);

export type ReadCase =
  | { readonly ok: true; readonly net: FoldNet; readonly machine: Machine }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads a part given as panels and bends on its middle plane, with its machine. All problems are
 * reported together, each with its place: `part.bends[2].parent`. `machineId` overrides the machine
 * of the case; settings of the case then hold only if they are for the same machine.
 */
export function readCase(raw: unknown, machineId?: string): ReadCase {
  const read = CASE.read(raw);
  if (!read.ok) return { ok: false, problems: read.flaws.map((flaw) => problemOf(flaw, raw)) };
  const { machine: given, part: form, strokes_allowed: strokes } = read.value;
  const set = machineOf(given?.profile, given?.settings ?? {}, machineId);
  const part: MidPlanePart = {
    thicknessMm: form.thickness_mm,
    panels: form.panels.map((p) => ({ ...p, pieces: p.pieces.map(counterClockwise) })),
    bends: form.bends.map(({ angle_deg, ...b }) => ({ ...b, angleDeg: angle_deg })),
  };
  const problems = [...set.problems, ...partProblems(part, form.root, strokes)];
  if (set.machine === undefined || problems.length > 0) return { ok: false, problems };
  return { ok: true, net: midPlaneNet(part, strokes), machine: set.machine };
}

const counterClockwise = (piece: readonly Vec2[]): readonly Vec2[] => {
  const [origin] = piece as [Vec2];
  const twice = piece.reduce(
    (sum, p, i) => sum + cross(sub(p, origin), sub(piece[(i + 1) % piece.length] as Vec2, origin)),
    0,
  );
  return twice < 0 ? piece.toReversed() : piece;
};

interface SetMachine {
  readonly machine?: Machine;
  readonly problems: readonly InputProblem[];
}

const machineOf = (
  profile: string | undefined,
  settings: Readonly<Record<string, unknown>>,
  asked: string | undefined,
): SetMachine => {
  const named = asked ?? profile ?? MACHINES[0].id;
  const found = findMachine(named);
  if (!found.ok) {
    const input = asked === undefined ? 'machine.profile' : '--machine';
    return {
      problems: [
        {
          input,
          given: shown(named),
          allowed: MACHINES.map((m) => m.id).join(', '),
          mend: found.reason,
        },
      ],
    };
  }
  const own = profile === undefined ? MACHINES[0] : undefined;
  const isSame =
    own === found.value ||
    (profile !== undefined && profile.trim().toLowerCase() === found.value.id);
  return setUp(found.value, isSame ? settings : {}, 'machine.settings');
};

const problemOf = ({ path, allowed, mend }: Flaw, raw: unknown): InputProblem => {
  const value = valueAt(raw, path);
  return {
    input: written(path, 'panels'),
    given: value === undefined ? 'nothing' : shown(value),
    allowed,
    ...(mend !== undefined && { mend }),
  };
};
