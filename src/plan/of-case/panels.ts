import * as z from 'zod';
import { findMachine, MACHINES } from '../../data/machines.ts';
import { cross, sub, type Vec2 } from '../../geometry/vec2.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Machine } from '../../model/machine.ts';
import { midPlaneNet, type MidPlanePart } from './midplane.ts';
import type { FoldNet } from '../machines/net.ts';
import { setUp } from '../machines/settings.ts';
import { partProblems } from './tree-problems.ts';

/** States are bits of a number. */
export const MOST_FOLDS = 30;
const LARGEST_MM = 100_000;

const coordinate = z.number().min(-LARGEST_MM).max(LARGEST_MM);
const point = z.tuple([coordinate, coordinate]);
const id = z.string().min(1).max(60);

/**
 * The form of a worked case of folding. Names that are not asked for - title, expected, reasoning -
 * are passed over.
 */
const CASE = z.object({
  machine: z
    .object({
      profile: z.string().optional(),
      settings: z.record(z.string(), z.unknown()).optional(),
    })
    .optional(),
  part: z.object({
    thickness_mm: z.number().min(0.1).max(50),
    root: id.optional(),
    panels: z
      .array(z.object({ id, pieces: z.array(z.array(point).min(3).max(100)).min(1).max(50) }))
      .min(2)
      .max(MOST_FOLDS + 1),
    bends: z
      .array(
        z.object({
          id,
          parent: id,
          child: id,
          line: z.tuple([point, point]),
          angle_deg: z
            .number()
            .min(-180)
            .max(180)
            .refine((deg) => deg !== 0, 'an angle other than 0'),
        }),
      )
      .min(1)
      .max(MOST_FOLDS),
  }),
  strokes_allowed: z.array(z.array(id).min(1)).optional(),
});

export type ReadCase =
  | { readonly ok: true; readonly net: FoldNet; readonly machine: Machine }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads a part given as panels and bends on its middle plane, with its machine, and tells every
 * problem at once, with the place it stands at: `part.bends[2].parent`. `machineId` goes before the
 * machine of the case; settings of the case then hold only if they are for the same machine.
 */
export function readCase(raw: unknown, machineId?: string): ReadCase {
  const parsed = CASE.safeParse(raw);
  if (!parsed.success)
    return { ok: false, problems: parsed.error.issues.map((issue) => problemOf(issue, raw)) };
  const { machine: given, part: form, strokes_allowed: strokes } = parsed.data;
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

const problemOf = (issue: z.core.$ZodIssue, raw: unknown): InputProblem => {
  const input = placeOf(issue.path);
  const value = issue.path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    raw,
  );
  return {
    input,
    given: value === undefined ? 'nothing' : shown(value),
    allowed: allowedBy(issue),
  };
};

/** `part.bends[2].line`. */
const placeOf = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, key) =>
      typeof key === 'number'
        ? `${text}[${key}]`
        : text === ''
          ? String(key)
          : `${text}.${String(key)}`,
    '',
  ) || 'panels';

/** In words, of the issues that the form above can raise. */
const allowedBy = (issue: z.core.$ZodIssue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected === 'tuple'
        ? 'a list of two: a point is [x, y], a line two points'
        : `${/^[aeiou]/.test(issue.expected) ? 'an' : 'a'} ${issue.expected}`;
    case 'too_small':
      return `at least ${String(issue.minimum)}${issue.origin === 'array' ? ' of them' : issue.origin === 'string' ? ' letter' : ''}`;
    case 'too_big':
      return `at most ${String(issue.maximum)}${issue.origin === 'array' ? ' of them' : issue.origin === 'string' ? ' letters' : ''}`;
    default:
      return issue.message;
  }
};
