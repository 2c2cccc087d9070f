import { dot3, figure, orMore, refuse, sub3 } from '../../src/template.ts';
import type { Finding, Vec3 } from '../../src/template.ts';
import type { DuctEnds } from './ends.ts';
import type { DuctBetween } from './inputs.ts';

/**
 * Findings on ends whose planes cut each other's openings: no wall goes straight from the one to
 * the other there. `nearPoints` and `farPoints` are the corners of both.
 */
export const crossingEnds = (
  v: DuctBetween,
  { far }: DuctEnds,
  nearPoints: readonly Vec3[],
  farPoints: readonly Vec3[],
): Finding[] => {
  const least = LEAST_APART_MM;
  const out = Math.min(...farPoints.map((p) => p[2]));
  const place = v.farAt === undefined ? ['length'] : ['farAt'];
  if (out < least) {
    const what = `comes ${out < 0 ? `${figure(-out)} mm behind` : `within ${figure(out)} mm of`} the plane of the near opening`;
    const more = least - out;
    return [
      refuse(
        'openings-cross',
        [...place, 'far'],
        `with ${place[0] as string} ${v.farAt === undefined ? figure(v.length ?? 0) : 'as measured'} the far opening ${what}, and no wall reaches it there`,
        v.farAt === undefined ? [orMore('length', (v.length ?? 0) + more)] : [],
        ...(v.farAt === undefined
          ? []
          : [
              `move farAt ${figure(Math.ceil(more * 100) / 100)} mm out, or exchange right and left if it was measured from behind`,
            ]),
      ),
    ];
  }
  const normal = far.pose.z;
  const beyond = Math.max(...nearPoints.map((p) => dot3(normal, sub3(p, far.pose.o))));
  if (beyond <= -least) return [];
  const more = beyond + least;
  const what = `its plane passes ${beyond > 0 ? `${figure(beyond)} mm in front of` : `within ${figure(-beyond)} mm of`} a corner of the near opening`;
  const turned = v.farAt === undefined ? ['faceRight', 'faceUp', 'length'] : ['farAt'];
  const said = `the far opening faces back to the near one${v.farAt === undefined ? ` with faceRight ${figure(v.faceRight)}, faceUp ${figure(v.faceUp)} and length ${figure(v.length ?? 0)}` : ' as farAt measures it'}: ${what}`;
  return [
    refuse(
      'openings-face',
      turned,
      said,
      v.farAt === undefined && normal[2] > LEAST_COSINE
        ? [orMore('length', (v.length ?? 0) + more / normal[2])]
        : [],
      `move it ${figure(Math.ceil(more * 100) / 100)} mm the way it faces, or turn it less`,
    ),
  ];
};

/** Walls shorter than this, mm, are no walls. */
const LEAST_APART_MM = 1;

/** Moving along the duct clears an end that is turned by less than some 84 degrees in reason. */
const LEAST_COSINE = 0.1;
