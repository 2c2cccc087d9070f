import { useEffect, useRef } from 'preact/hooks';
import type { DrawnHole, PictureAnswer, SpotAnswer } from '../core/drawn-questions.ts';
import { Svg } from './svg.tsx';

/** How near to a size a finger has to come, pixels of the screen. */
const NEAR_PX = 28;
/** What is seen round the size that is typed, as a share of the picture. */
const ZOOMED = 0.55;

interface Shown {
  readonly picture: PictureAnswer;
  readonly label: string;
  /** The input that a spot stands for. */
  readonly inputOf: (spot: string) => string | undefined;
  /** The input whose spots are marked. */
  readonly marked: string | undefined;
  /** Whether what is marked is brought near: on a screen that is held in one hand. */
  readonly isZoomed: boolean;
  readonly onPress: (input: string) => void;
  readonly onHole?: {
    readonly take: (hole: DrawnHole) => void;
    readonly move: (by: readonly [number, number], isCoarse: boolean) => void;
    readonly drop: () => void;
  };
}

/** A picture in which sizes can be pressed and holes dragged. Fields do the same by keyboard. */
export const Pictured = (props: Shown) => {
  const { picture, label, inputOf, marked, isZoomed, onPress, onHole } = props;
  const box = useRef<HTMLDivElement>(null);
  const grip = useRef<readonly [number, number] | undefined>(undefined);
  const on = picture.spots.filter(({ of }) => marked !== undefined && inputOf(of) === marked);
  const holes = picture.holes.filter(({ input }) => input === marked);
  const view = viewOf(picture, isZoomed ? aroundOf([...on, ...holes.map(spotOf)]) : undefined);
  useEffect(() => {
    box.current?.querySelector('.paper > svg')?.setAttribute('viewBox', view);
  });
  const at = (e: PointerEvent): readonly [number, number] => {
    const svg = e.currentTarget as SVGSVGElement;
    const turned = svg.getScreenCTM()?.inverse();
    const { x, y } = new DOMPoint(e.clientX, e.clientY).matrixTransform(turned);
    return [x, y];
  };
  const near = (e: PointerEvent): number => {
    const scale = (e.currentTarget as SVGSVGElement).getScreenCTM()?.a ?? 1;
    return NEAR_PX / scale;
  };
  return (
    <div class="pictured" ref={box}>
      <Svg picture={picture.svg} label={label} />
      <svg
        class="over"
        viewBox={view}
        aria-hidden="true"
        onPointerDown={(e) => {
          const p = at(e);
          const hole = nearestHole(picture.holes, p, near(e) / 2);
          if (onHole === undefined || hole === undefined) return;
          e.preventDefault();
          e.currentTarget.setPointerCapture(e.pointerId);
          grip.current = p;
          onHole.take(hole);
        }}
        onPointerMove={(e) => {
          if (grip.current === undefined) return;
          const [x, y] = at(e);
          onHole?.move([x - grip.current[0], y - grip.current[1]], e.shiftKey);
        }}
        onPointerUp={() => {
          if (grip.current !== undefined) onHole?.drop();
          grip.current = undefined;
        }}
        onClick={(e) => {
          const p = at(e as unknown as PointerEvent);
          const spot = nearestSpot(
            picture.spots.filter(({ of }) => inputOf(of) !== undefined),
            p,
            near(e as unknown as PointerEvent),
          );
          const input = spot === undefined ? undefined : inputOf(spot.of);
          if (input !== undefined) onPress(input);
        }}
      >
        {picture.spots.map((spot) => (
          <rect
            key={spot.of}
            class={`spot ${inputOf(spot.of) === undefined ? 'idle' : ''} ${on.includes(spot) ? 'on' : ''}`}
            x={spot.x - 0.8}
            y={spot.y - 0.8}
            width={spot.width + 1.6}
            height={spot.height + 1.6}
            rx={1.5}
          />
        ))}
        {picture.holes.map((hole, i) => (
          <circle
            key={i}
            class={`hole ${holes.includes(hole) ? 'on' : ''}`}
            cx={hole.x}
            cy={hole.y}
            r={Math.max(hole.radius + 0.8, 2.2)}
          />
        ))}
      </svg>
    </div>
  );
};

const spotOf = ({ x, y, radius }: DrawnHole): SpotAnswer => ({
  of: '',
  x: x - radius,
  y: y - radius,
  width: 2 * radius,
  height: 2 * radius,
});

/** The box round everything that is marked; `undefined` where nothing is. */
const aroundOf = (spots: readonly SpotAnswer[]): Omit<SpotAnswer, 'of'> | undefined => {
  if (spots.length === 0) return undefined;
  const [x, y] = [Math.min(...spots.map((s) => s.x)), Math.min(...spots.map((s) => s.y))];
  return {
    x,
    y,
    width: Math.max(...spots.map((s) => s.x + s.width)) - x,
    height: Math.max(...spots.map((s) => s.y + s.height)) - y,
  };
};

/** Clear picture round what is marked, mm. */
const ROUND_MM = 8;

const viewOf = (
  { widthMm, heightMm }: PictureAnswer,
  near: Omit<SpotAnswer, 'of'> | undefined,
): string => {
  if (near === undefined) return `0 0 ${widthMm} ${heightMm}`;
  const share = Math.min(
    1,
    Math.max(
      ZOOMED,
      (near.width + 2 * ROUND_MM) / widthMm,
      (near.height + 2 * ROUND_MM) / heightMm,
    ),
  );
  const [w, h] = [widthMm * share, heightMm * share];
  const clamp = (v: number, most: number): number => Math.max(0, Math.min(most, v));
  const x = clamp(near.x + near.width / 2 - w / 2, widthMm - w);
  const y = clamp(near.y + near.height / 2 - h / 2, heightMm - h);
  return `${x} ${y} ${w} ${h}`;
};

const nearestHole = (
  holes: readonly DrawnHole[],
  [x, y]: readonly [number, number],
  within: number,
): DrawnHole | undefined =>
  holes
    .map((hole) => ({ hole, off: Math.hypot(hole.x - x, hole.y - y) - hole.radius }))
    .filter(({ off }) => off < within)
    .toSorted((a, b) => a.off - b.off)[0]?.hole;

const nearestSpot = (
  spots: readonly SpotAnswer[],
  [x, y]: readonly [number, number],
  within: number,
): SpotAnswer | undefined =>
  spots
    .map((spot) => ({
      spot,
      off: Math.hypot(
        Math.max(spot.x - x, 0, x - spot.x - spot.width),
        Math.max(spot.y - y, 0, y - spot.y - spot.height),
      ),
    }))
    .filter(({ off }) => off < within)
    .toSorted((a, b) => a.off - b.off)[0]?.spot;
