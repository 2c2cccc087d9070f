import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { at, brokenCount, type Figure, offsetMm, type Sided } from './network.ts';

/**
 * The rigid points that fix the frame; `third` is the next one off the line, absent where all lie
 * in line.
 */
export interface FramePoints {
  readonly first: number;
  readonly second: number;
  readonly third: number | undefined;
}

/** Distance from the line beyond which a point tells which side of it is up, mm. */
const OFF_LINE_MM = 1e-3;

/**
 * The first rigid point, the next one apart from it, and the next one off the line through both.
 */
export function framePoints(figure: Figure, rigid: readonly number[]): FramePoints {
  const first = rigid[0] as number;
  const second =
    rigid.find((p) => distance(at(figure, first), at(figure, p)) > NOISE_MM) ??
    (rigid[1] as number);
  const third = rigid.find((p) => Math.abs(offsetMm(figure, first, second, p)) > OFF_LINE_MM);
  return { first, second, third };
}

/**
 * A figure shifted and turned into the frame of the survey. It is turned over where that keeps more
 * statements.
 */
export function framed(figure: Figure, rigid: readonly number[], sides: readonly Sided[]): Figure {
  const { first, second, third } = framePoints(figure, rigid);
  const laid = laidDown(figure, first, second);
  const over = laid.map(([x, y]): Vec2 => [x, y === 0 ? 0 : -y]);
  const excess = brokenCount(laid, sides) - brokenCount(over, sides);
  if (excess !== 0) return excess > 0 ? over : laid;
  return third !== undefined && at(laid, third)[1] < 0 ? over : laid;
}

function laidDown(figure: Figure, first: number, second: number): Figure {
  const origin = at(figure, first);
  const end = at(figure, second);
  const long = distance(origin, end);
  const [ux, uy] = long === 0 ? [1, 0] : [(end[0] - origin[0]) / long, (end[1] - origin[1]) / long];
  return figure.map(([x, y], i): Vec2 => {
    if (i === first) return [0, 0];
    if (i === second) return [long, 0];
    const [dx, dy] = [x - origin[0], y - origin[1]];
    return [dx * ux + dy * uy, dy * ux - dx * uy];
  });
}
