import type { FieldAnswer } from '../core/questions.ts';
import { lengthText } from './units.ts';

/** More than this, mm, is looked at again with the tape. */
const OFF_MM = 2;

/** How far a distance is from what all of them together say. */
export const Residual = ({ field, at }: { readonly field: FieldAnswer; readonly at: number }) => {
  const residual = field.survey?.residuals[at];
  if (residual === undefined) return null;
  const { residualMm } = residual;
  const isOff = Math.abs(residualMm) > OFF_MM;
  return (
    <span class={isOff ? 'wrong' : 'means'}>
      {isOff ? '! ' : ''}off by {residualMm >= 0 ? '+' : ''}
      {lengthText(residualMm, 1)}
    </span>
  );
};

/** The figure that the distances give, and its mirror image where they cannot tell which it is. */
export const Sides = ({
  field,
  sides,
  onSides,
}: {
  readonly field: FieldAnswer;
  readonly sides: readonly string[];
  readonly onSides: (sides: readonly string[]) => void;
}) => {
  const { survey } = field;
  if (survey === undefined || survey.points.length < 3) return null;
  const points = survey.points;
  return (
    <>
      {survey.mirrors.map((mirror) => {
        const turned = points.map((p) =>
          mirror.whole || mirror.points.includes(p.name) ? mirrored(p, points, mirror) : p,
        );
        const about = mirror.otherwise.replace(/:.*$/, '');
        const other = (side: string): string => `${about}: ${side}`;
        const rest = sides.filter((s) => s.replace(/:.*$/, '').replace(/\s/g, '') !== about);
        const opposite = mirror.side === 'left' ? 'right' : 'left';
        return (
          <fieldset class="mirror" key={mirror.otherwise}>
            <legend>
              The tape cannot tell on which side {mirror.points.join(', ')} lies of the line from{' '}
              {mirror.from} to {mirror.to}: which is it?
            </legend>
            <div class="row">
              <button
                type="button"
                aria-pressed={mirror.why === 'stated'}
                onClick={() => onSides([...rest, other(mirror.side)])}
              >
                <Figure points={points} />
                {mirror.side}
                {mirror.why === 'stated' ? ', as said' : ', as taken'}
              </button>
              <button type="button" onClick={() => onSides([...rest, other(opposite)])}>
                <Figure points={turned} />
                {opposite}
              </button>
            </div>
          </fieldset>
        );
      })}
    </>
  );
};

interface Point {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

/** A point on the other side of a line between two others. */
const mirrored = (
  p: Point,
  points: readonly Point[],
  { from, to }: { readonly from: string; readonly to: string },
): Point => {
  const [a, b] = [from, to].map((name) => points.find((each) => each.name === name));
  if (a === undefined || b === undefined) return p;
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const share = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy);
  const [fx, fy] = [a.x + share * dx, a.y + share * dy];
  return { name: p.name, x: 2 * fx - p.x, y: 2 * fy - p.y };
};

/** Points with their names, to scale. */
const Figure = ({ points }: { readonly points: readonly Point[] }) => {
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  const scale = 80 / Math.max(Math.max(...xs) - x0, Math.max(...ys) - y0, 1);
  const at = ({ x, y }: Point): readonly [number, number] => [
    14 + (x - x0) * scale,
    100 - (y - y0) * scale,
  ];
  return (
    <svg viewBox="0 0 110 110" width="110" height="110" aria-hidden="true">
      <path
        d={`M${points.map((p) => at(p).join(' ')).join('L')}Z`}
        fill="none"
        stroke="currentColor"
      />
      {points.map((p) => (
        <g key={p.name}>
          <circle cx={at(p)[0]} cy={at(p)[1]} r={3} fill="currentColor" />
          <text x={at(p)[0] + 4} y={at(p)[1] - 4} font-size={13} fill="currentColor">
            {p.name}
          </text>
        </g>
      ))}
    </svg>
  );
};
