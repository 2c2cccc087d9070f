import fc from 'fast-check';
import type { Asked } from '../../src/contract/asked.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import type { MakeOptions } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { askedIn } from './asked-in.ts';
import { examplesIn } from './extent.ts';
import { madeOnce } from './made-once.ts';
import { type Saving, type Shape, shapesOf } from './saved-dxf.ts';
import { UNPLANNED } from './unplanned.ts';

/** A blank of an example of a family, as it was made and as it was asked for. */
export interface Blank {
  readonly name: string;
  readonly shapes: readonly Shape[];
  readonly asked: Asked;
  readonly holes: number;
  /** Of the metal as it was cut. */
  readonly areaMm2: number;
}

const MADE: readonly (readonly [name: string, options: Partial<MakeOptions>])[] = [
  ['', {}],
  [', cut only', { cutOnly: true }],
  [', with kerf', { kerf: 1.2 }],
  [', with nicks', { marks: 'nicks' }],
];

const blanksOf = async (family: string): Promise<Blank[]> => {
  const template = (await (FAMILIES.get(family) as NonNullable<ReturnType<typeof FAMILIES.get>>)())
    .default;
  return examplesIn(template).flatMap(({ inputs }, i) =>
    MADE.flatMap(([how, options]) => {
      const made = madeOnce(template, inputs, { ...UNPLANNED, ...options });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      return made.parts.flatMap(({ drawing, result }): Blank[] => {
        if (drawing === undefined || result.proof === null) return [];
        const items = drawing.items.filter(
          (item) => options.cutOnly !== true || item.role === 'outline' || item.role === 'hole',
        );
        const asked = askedIn(result);
        const area = (vertices: (typeof asked.cut.holes)[number]): number =>
          signedArea(vertices.map(([x, y, bulge]) => ({ x, y, bulge })));
        const areaMm2 = asked.cut.holes.reduce(
          (sum, hole) => sum - area(hole),
          area(asked.cut.outline),
        );
        return [
          {
            name: `${result.name} ${i + 1}${how}`,
            shapes: shapesOf(items),
            asked,
            holes: asked.cut.holes.length,
            areaMm2,
          },
        ];
      });
    }),
  );
};

export const BLANKS = (await Promise.all([...FAMILIES.keys()].map(blanksOf))).flat();

/** By name, which is all that a failing case has to say of it. */
export const anyBlank = fc
  .constantFrom(...BLANKS.map((b) => b.name))
  .map((name) => BLANKS.find((b) => b.name === name) as Blank);

export const anySaving: fc.Arbitrary<Saving> = fc.record({
  circles: fc.constantFrom<Saving['circles'][]>(
    'circle',
    'ellipse',
    'arcs',
    'polyline',
    'spline',
    'fit',
  ),
  curves: fc.constantFrom<Saving['curves'][]>('arc', 'ellipse', 'spline', 'fit'),
  texts: fc.constantFrom<Saving['texts'][]>('text', 'lines'),
  loops: fc.constantFrom<Saving['loops'][]>('light', 'heavy', 'exploded'),
  block: fc.constantFrom<Saving['block'][]>(
    'none',
    'none',
    'one',
    'nested',
    'turned',
    'scaled',
    'mirrored',
    'back',
    'deep',
  ),
  layers: fc.constantFrom<Saving['layers'][]>('kept', 'lower', 'mixed'),
  start: fc.double({ min: 0, max: 0.999, noNaN: true }),
  isReversed: fc.boolean(),
  order: fc.nat(1000),
  unit: fc.constantFrom<Saving['unit'][]>(
    { code: 4, perMm: 1 },
    { code: 4, perMm: 1 },
    { code: 1, perMm: 1 / 25.4 },
    { code: 5, perMm: 0.1 },
    { code: 6, perMm: 0.001 },
  ),
  move: fc.constantFrom<Saving['move'][]>(
    [0, 0],
    [0, 0],
    [100, -37.25],
    [-4321.5, 88.125],
    [3_500_000_000, 5_400_000_000],
  ),
  turnDeg: fc.constantFrom(0, 0, 90, 33.3),
  newline: fc.constantFrom<Saving['newline'][]>('\n', '\r\n'),
  linePieces: fc.integer({ min: 1, max: 3 }),
  isRounded: fc.boolean(),
  isOnBack: fc.boolean(),
  height: fc.constantFrom(0, 0, 3.5),
  isDressed: fc.boolean(),
  clutter: fc.constantFrom<Saving['clutter'][]>(
    [],
    [],
    ['frame'],
    ['hatch', 'dimension'],
    ['frozen'],
  ),
});
