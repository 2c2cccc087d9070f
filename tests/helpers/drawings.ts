import fc from 'fast-check';
import type { Loop, Vertex } from '../../src/geometry/loop.ts';
import type { Drawing, DrawingItem, Role } from '../../src/model/drawing.ts';

/**
 * A bracket of a vineyard cart with everything that a drawing may hold, and arcs on the outline's
 * reach.
 */
export const CART_BRACKET: Drawing = {
  title: 'Lamp bracket, left',
  items: [
    {
      kind: 'loop',
      role: 'outline',
      loop: [
        { x: 0, y: 0, bulge: 0 },
        { x: 100, y: 0, bulge: Math.tan(Math.PI / 8) },
        { x: 110, y: 10, bulge: 0 },
        { x: 110, y: 60, bulge: 0 },
        { x: 60, y: 60, bulge: -1 },
        { x: 40, y: 60, bulge: 0 },
        { x: 0, y: 60, bulge: 0.5 },
      ],
    },
    { kind: 'circle', role: 'hole', centre: [12.34567, 15.67891], radius: 3.25 },
    {
      kind: 'loop',
      role: 'hole',
      loop: [
        { x: 20, y: 30, bulge: 0 },
        { x: 30, y: 30, bulge: 1 },
        { x: 30, y: 36, bulge: 0 },
        { x: 20, y: 36, bulge: 1 },
      ],
    },
    { kind: 'line', role: 'fold-up', from: [35, 0], to: [35, 60] },
    { kind: 'line', role: 'fold-down', from: [75.00004, 0], to: [75.00004, 60] },
    { kind: 'line', role: 'mark', from: [80, 30], to: [84, 30] },
    { kind: 'text', role: 'note', at: [36, 20], heightMm: 3, angleDeg: 90, text: 'up 90° r2' },
  ],
};

/** A drawing of one loop. */
export const loopDrawing = (loop: Loop, role: Role = 'outline'): Drawing => ({
  title: 'loop',
  items: [{ kind: 'loop', role, loop }],
});

export const textDrawing = (text: string): Drawing => ({
  title: text,
  items: [{ kind: 'text', role: 'note', at: [1, 2], heightMm: 3, angleDeg: 0, text }],
});

const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true });

/**
 * Bulges for straight, nearly straight, exactly half a circle, and up to nearly a full circle,
 * either way round.
 */
const anyBulge: fc.Arbitrary<number> = fc.oneof(
  { weight: 3, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.constantFrom(1, -1) },
  { weight: 1, arbitrary: between(-1e-5, 1e-5) },
  { weight: 3, arbitrary: between(-1, 1) },
  { weight: 1, arbitrary: between(-40, 40) },
);

/**
 * A loop of 2 to 12 pieces round a point, from the size of a washer to that of a house, anywhere
 * within 1 km, either way round. Its pieces are longer than what a file leaves out; it may cross
 * itself where arcs are large.
 */
export const anyLoop: fc.Arbitrary<Vertex[]> = fc
  .record({
    steps: fc.array(fc.record({ reach: between(0.5, 1), bulge: anyBulge }), {
      minLength: 2,
      maxLength: 12,
    }),
    size: fc.constantFrom(0.5, 20, 300, 10_000),
    x: between(-1e5, 1e5),
    y: between(-1e5, 1e5),
    turn: between(0, 6),
    clockwise: fc.boolean(),
  })
  .map(({ steps, size, x, y, turn, clockwise }) => {
    const loop = steps.map(({ reach, bulge }, i) => {
      const angle = turn + (2 * Math.PI * i * (clockwise ? -1 : 1)) / steps.length;
      return {
        x: x + size * reach * Math.cos(angle),
        y: y + size * reach * Math.sin(angle),
        bulge,
      };
    });
    // Two straight pieces there and back enclose nothing; a file rightly leaves them out.
    return loop.length === 2
      ? loop.map((v) => ({ ...v, bulge: v.bulge === 0 ? 0.3 : Math.abs(v.bulge) + 1e-3 }))
      : loop;
  });

const point: fc.Arbitrary<[number, number]> = fc.tuple(between(-1e4, 1e4), between(-1e4, 1e4));

/** Roles differ, so that nothing on one layer can hide another thing. */
export const anyDrawing: fc.Arbitrary<Drawing> = fc
  .record({
    outline: anyLoop,
    centre: point,
    radius: between(0.1, 1e4),
    ends: fc.tuple(point, point).filter(([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1]) > 0.02),
    angle: between(-1000, 1000),
    text: fc.string({ unit: 'binary', maxLength: 30 }),
  })
  .map(({ outline, centre, radius, ends: [from, to], angle, text }): Drawing => {
    const items: DrawingItem[] = [
      { kind: 'loop', role: 'outline', loop: outline },
      { kind: 'circle', role: 'hole', centre, radius },
      { kind: 'line', role: 'fold-up', from, to },
      { kind: 'text', role: 'note', at: from, heightMm: 3, angleDeg: angle, text: `x${text}` },
    ];
    return { title: text, items };
  });
