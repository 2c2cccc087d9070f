import { cross, distance, dot, length, middle, sub, type Vec2 } from '../../geometry/vec2.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { nearest } from '../../text/nearest.ts';
import type { MidPlanePart } from './midplane.ts';
import { inset, overlap } from '../../geometry/convex-polygon.ts';
import { SAME_TURN_RAD, CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/** How far a fold line and the edges of its panels may be drawn apart, mm. */
const DRAWN_APART_MM = 1;
const SHORTEST_FOLD_MM = 1;

/**
 * What is wrong with a part as a tree of convex panels in the flat: names, pieces, fold lines,
 * overlaps. The search relies on all of it.
 */
export function partProblems(
  part: MidPlanePart,
  root: string | undefined,
  strokes: readonly (readonly string[])[] = [],
): InputProblem[] {
  const panels = part.panels.map((p) => p.id);
  const bends = part.bends.map((b) => b.id);
  const named = [
    ...twice('part.panels', panels),
    ...twice('part.bends', bends),
    ...(root === undefined ? [] : known('part.root', root, panels)),
    ...part.bends.flatMap((b, i) => [
      ...known(`part.bends[${i}].parent`, b.parent, panels),
      ...known(`part.bends[${i}].child`, b.child, panels),
    ]),
    ...strokes.flatMap((s, i) =>
      s.flatMap((name, j) => known(`strokes_allowed[${i}][${j}]`, name, bends)),
    ),
  ];
  const shapes = part.panels.flatMap((p, i) =>
    p.pieces.flatMap((piece, j) => pieceProblems(`part.panels[${i}].pieces[${j}]`, piece)),
  );
  if (named.length + shapes.length > 0) return [...named, ...shapes];
  return [
    ...treeProblems(part),
    ...part.bends.flatMap((_, i) => lineProblems(part, i)),
    ...overlaps(part),
  ];
}

const twice = (place: string, names: readonly string[]): InputProblem[] =>
  names.flatMap((name, i) =>
    names.indexOf(name) === i
      ? []
      : [
          {
            input: `${place}[${i}].id`,
            given: shown(name),
            allowed: 'a name that no other one has',
          },
        ],
  );

const known = (input: string, name: string, names: readonly string[]): InputProblem[] => {
  if (names.includes(name)) return [];
  const meant = nearest(name, names);
  return [
    {
      input,
      given: shown(name),
      allowed: names.join(', '),
      ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
    },
  ];
};

/**
 * The points of a corner whose sides span a smaller parallelogram than this, mm2, lie on one line.
 */
const STRAIGHT_MM2 = 1e-9;

const pieceProblems = (input: string, piece: readonly Vec2[]): InputProblem[] => {
  const turns = piece.map((p, i) =>
    cross(sub(p, piece.at(i - 1) as Vec2), sub(piece[(i + 1) % piece.length] as Vec2, p)),
  );
  const isFlat = turns.every((t) => Math.abs(t) < STRAIGHT_MM2);
  if (isFlat) return [{ input, given: 'points on one line', allowed: 'a convex polygon' }];
  // A star turns the same way at every corner, but goes round more than once.
  const around = piece.reduce((sum, p, i) => {
    const [a, b] = [sub(p, piece.at(i - 1) as Vec2), sub(piece[(i + 1) % piece.length] as Vec2, p)];
    return sum + Math.atan2(cross(a, b), dot(a, b));
  }, 0);
  const isConvex =
    (turns.every((t) => t >= -STRAIGHT_MM2) || turns.every((t) => t <= STRAIGHT_MM2)) &&
    Math.abs(Math.abs(around) - 2 * Math.PI) < SAME_TURN_RAD;
  return isConvex
    ? []
    : [
        {
          input,
          given: 'a polygon that is not convex',
          allowed: 'a convex polygon',
          mend: 'part it into convex pieces',
        },
      ];
};

/** Checks that folds join every panel to the others, and that no panel is reached in two ways. */
function treeProblems({ panels, bends }: MidPlanePart): InputProblem[] {
  if (bends.length !== panels.length - 1) {
    return [
      {
        input: 'part.bends',
        given: `${bends.length} bends for ${panels.length} panels`,
        allowed: `${panels.length - 1}: one less than panels, so that they make a tree`,
      },
    ];
  }
  const reached = new Set([panels[0]?.id]);
  for (let size = 0; size < reached.size;) {
    size = reached.size;
    for (const { parent, child } of bends) {
      if (reached.has(parent)) reached.add(child);
      if (reached.has(child)) reached.add(parent);
    }
  }
  return panels.flatMap((p, i) =>
    reached.has(p.id)
      ? []
      : [
          {
            input: `part.panels[${i}]`,
            given: shown(p.id),
            allowed: 'a panel that bends join to the others',
            mend: 'add the bend that holds it',
          },
        ],
  );
}

function lineProblems({ panels, bends }: MidPlanePart, i: number): InputProblem[] {
  const { line, parent, child } = bends[i] as MidPlanePart['bends'][number];
  const input = `part.bends[${i}].line`;
  if (distance(...line) < SHORTEST_FOLD_MM)
    return [{ input, given: shown(line), allowed: `a line at least ${SHORTEST_FOLD_MM} mm long` }];
  const at = middle(...line);
  return [parent, child].flatMap((name) => {
    const { pieces } = panels.find((p) => p.id === name) as MidPlanePart['panels'][number];
    const gap = Math.min(...pieces.map((piece) => outsideBy(piece, at)));
    return gap <= DRAWN_APART_MM
      ? []
      : [
          {
            input,
            given: `a line ${Math.round(gap * 10) / 10} mm away from ${name}`,
            allowed: 'the line in which the two panels meet',
          },
        ];
  });
}

/** How far a point lies outside a convex polygon; 0 inside. */
const outsideBy = (piece: readonly Vec2[], p: Vec2): number => {
  const sides = piece.map((from, i) => {
    const edge = sub(piece[(i + 1) % piece.length] as Vec2, from);
    return { outside: -cross(edge, sub(p, from)) / (length(edge) || 1), from, edge };
  });
  if (sides.every((s) => s.outside <= 0)) return 0;
  return Math.min(
    ...sides.map(({ from, edge }) => {
      const share = Math.min(1, Math.max(0, dot(sub(p, from), edge) / (dot(edge, edge) || 1)));
      return distance(p, [from[0] + share * edge[0], from[1] + share * edge[1]]);
    }),
  );
};

/**
 * Checks that panels do not lie over each other in the flat. Such panels cannot be cut from one
 * sheet, and would seem to collide from the start.
 */
const overlaps = ({ panels }: MidPlanePart): InputProblem[] => {
  const inner = panels.map((p) =>
    p.pieces
      .map((piece) => inset(piece, () => CONTACT_GAP_MM / 2))
      .filter((piece) => piece.length > 2),
  );
  return panels.flatMap((p, i) =>
    panels.slice(0, i).flatMap((other, j) =>
      (inner[i] ?? []).some((a) => (inner[j] ?? []).some((b) => overlap(a, b)))
        ? [
            {
              input: `part.panels[${i}]`,
              given: `${p.id}, which lies over ${other.id} in the flat`,
              allowed: 'panels side by side',
              mend: 'trim one of them',
            },
          ]
        : [],
    ),
  );
};
