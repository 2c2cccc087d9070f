import { defineTemplate, fields, rectangle } from '../../src/template.ts';

/** As it is written in JavaScript, where anything may stand anywhere. */
export type Loose = Record<string, unknown>;

/** All of a small template but its build. */
export const DRAFT = {
  family: 'crate-stop',
  summary: 'A stop for the grape crates: a floor and a lip.',
  inputs: {
    floor: fields.length({ about: 'The floor.', min: 10, max: 500, example: 50 }),
    width: fields.length({ about: 'Along the fold.', min: 10, max: 500, default: 80 }),
  },
};

/** The panels of one, and the fold between them. */
export const panels = (floor: number, width: number) => [
  { id: 'floor', outline: rectangle(0, 0, width, floor) },
  { id: 'lip', outline: rectangle(0, 0, width, 20) },
];
export const FOLD = {
  id: 'A',
  parent: { panel: 'floor', edge: 2 },
  child: { panel: 'lip', edge: 0 },
  angleDeg: 90,
  direction: 'up',
} as const;

/** Nothing but what must be given. */
export const SHORT = defineTemplate({
  ...DRAFT,
  build: (v) => ({ part: { panels: panels(v.floor, v.width), folds: [FOLD] } }),
});

/** All that may be left out said as the common inputs say it. */
export const LONG = defineTemplate({
  ...DRAFT,
  build: (v) => ({
    part: {
      name: v.name,
      thicknessMm: v.thicknessMm,
      measure: v.measure,
      root: 'floor',
      panels: panels(v.floor, v.width).map((p) => ({ ...p, cutouts: [] })),
      folds: [{ ...FOLD, insideRadiusMm: v.insideRadiusMm }],
      relief: {
        shape: v.reliefShape,
        widthMm: Math.max(v.thicknessMm, v.leastSlotMm),
        leastSlotMm: v.leastSlotMm,
      },
      cornerGapMm: v.cornerGapMm,
    },
  }),
});

/** The least that makes one. */
export const INPUTS = { floor: 50, thickness: 2 };
