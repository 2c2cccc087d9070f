import { dot, figure, just, leftOf, refuse, sub, unit, without } from '../../src/template.ts';
import type { Finding, Loop, Vec2 } from '../../src/template.ts';
import { STEEPEST_DEG, type TankPlan } from './inputs.ts';
import { sideName } from './planes.ts';

/** By how much a plane differs from what was measured, and from which input that is. */
export interface Off {
  readonly input: 'floor' | 'top' | 'outlineOver';
  readonly called: string;
  readonly mm: number;
}

/** How far each side leans, and by how much both ends of it differ from that at the second outline. */
export interface Leans {
  readonly deg: readonly number[];
  readonly off: readonly Off[];
}

/**
 * The lean of each side: what lean says of it, or else the plane through its edge in outline that
 * lies as far before the one end of its edge in outlineOver as behind the other.
 */
export const leansOf = (
  v: TankPlan,
  corners: readonly Vec2[],
  over: Loop | undefined,
): Leans | { readonly findings: readonly Finding[] } => {
  const given = (side: number): number | undefined =>
    v.lean?.find((own) => own.side === side + 1)?.deg;
  if (over === undefined) return { deg: corners.map((_, side) => given(side) ?? 0), off: [] };
  const rise = v.outlineOverAt - v.outlineAt;
  const wrong = unlike(v, corners, over, rise);
  if (wrong !== undefined) return { findings: [wrong] };
  const outwards = corners.map((from, side): readonly [number, number] => {
    const next = (side + 1) % corners.length;
    const out = leftOf(unit(sub(from, corners[next] as Vec2)));
    const far = (corner: number): number => {
      const { x, y } = over[corner] as Loop[number];
      return dot(out, sub([x, y], from));
    };
    return [far(side), far(next)];
  });
  const deg = outwards.map(
    ([a, b], side) => given(side) ?? (Math.atan((a + b) / 2 / rise) * 180) / Math.PI,
  );
  const steep = deg.flatMap((own, side) =>
    Math.abs(own) > STEEPEST_DEG ? [tooSteep(side, own)] : [],
  );
  return steep.length > 0
    ? { findings: steep }
    : {
        deg,
        off: outwards.flatMap(([a, b], side) => {
          const mean = Math.tan(((deg[side] as number) * Math.PI) / 180) * rise;
          const next = (side + 1) % corners.length;
          const at = (corner: number, mm: number): Off => ({
            input: 'outlineOver',
            called: `outlineOver at corner ${corner + 1}, ${sideName(side)}`,
            mm: mean - mm,
          });
          return [at(side, a), at(next, b)];
        }),
      };
};

const unlike = (
  v: TankPlan,
  corners: readonly Vec2[],
  over: Loop,
  rise: number,
): Finding | undefined => {
  if (over.length !== corners.length)
    return refuse(
      'outlines-unlike',
      ['outlineOver', 'outline'],
      `outlineOver has ${over.length} corners, and outline ${corners.length}, a corner that is cut off counting as two`,
      [without('outlineOver')],
      'measure the same corners at both heights, beginning at the same one',
    );
  return rise === 0
    ? refuse(
        'outlines-unlike',
        ['outlineOverAt', 'outlineAt'],
        `outlineOverAt ${figure(v.outlineOverAt)} is the height at which outline was measured too`,
        [just('outlineOverAt', v.outlineAt + 100)],
        'give the height at which outlineOver was measured',
      )
    : undefined;
};

const tooSteep = (side: number, deg: number): Finding =>
  refuse(
    'outlines-unlike',
    ['outlineOver', 'outline'],
    `${sideName(side)} leans by ${figure(deg)} degrees from outline to outlineOver, and ${STEEPEST_DEG} is the most that is made`,
    [],
    'check that both outlines begin at the same corner',
  );
