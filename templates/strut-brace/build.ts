import {
  angleWish,
  assemble,
  cautionText,
  edge,
  faceOf,
  hasStop,
  note,
  placeHole,
  placeHoles,
  pointFindings,
  residualFigures,
  spacingWishes,
  wish,
} from '../../src/template.ts';
import type { Built, Cutout, Finding, HoleFrame, ReportFigure, Wish } from '../../src/template.ts';
import { creasedPlate, creaseLine, slitFigures, straightFigures } from './crease.ts';
import { braceHoles } from './holes.ts';
import { braceOutline, thinEdges, withNotch } from './outline.ts';
import { type Tree, withReturn } from './return.ts';
import type { BraceHole } from './sizes.ts';
import { crossTube } from './tube.ts';
import type { StrutBrace } from './inputs.ts';

/** Axes of the holes: x to the right and y up, from the origin of the points. */
const frameOf = ({ thicknessMm }: Pick<StrutBrace, 'thicknessMm'>): HoleFrame => ({
  origin: [0, 0],
  across: [1, 0],
  along: [0, 1],
  thicknessMm,
});

/**
 * The plate over a strut tower: its outline, notch, crease and return edge, and the figures of the
 * cross tube.
 */
export function strutBrace(v: StrutBrace): Built {
  const { holes, findings: atHoles } = braceHoles(v);
  const tube = crossTube(v);
  const line = creaseLine(v);
  const first = [
    ...pointFindings(v.points),
    ...atHoles,
    ...tube.findings,
    ...(line !== undefined && 'severity' in line ? [line] : []),
  ];
  if (hasStop(first) || (line !== undefined && 'severity' in line)) return { findings: first };
  const outline = braceOutline(v, holes);
  if ('severity' in outline) return { findings: [...first, outline] };
  const notched = withNotch(v, outline, holes);
  if ('severity' in notched) return { findings: [...first, notched] };
  const split = creasedPlate(v, notched, cutoutsOf(v, holes), line);
  if ('findings' in split) return { findings: [...first, ...split.findings] };
  const { tree, lengthsMm, findings } = withReturn(v, split, outline, holes, line);
  const all = [...first, ...thinEdges(v, holes, notched), ...findings, ...weldCaution(v)];
  if (hasStop(all)) return { findings: all };
  const returned = lengthsMm.map((value, i): ReportFigure => ({
    name: `length of return${lengthsMm.length > 1 ? ` ${i + 1}` : ''}`,
    value,
    unit: 'mm',
    about: 'Along its fold, between its reliefs.',
  }));
  const figures = [
    ...residualFigures(v.points),
    ...(line === undefined ? [] : straightFigures(v, holes, line)),
    ...slitFigures(v),
    ...returned,
    ...tube.figures,
  ];
  return {
    part: assemble(v, { ...tree, wishes: wishesOf(v, tree, holes) }),
    findings: all,
    report: { figures },
  };
}

/**
 * What the inputs mean on the plate: its holes, the angle of the crease, and the height of its
 * return edges.
 */
const wishesOf = (v: StrutBrace, { panels, folds }: Tree, holes: readonly BraceHole[]): Wish[] => [
  ...spacingWishes('points', holes, panels),
  ...spacingWishes(
    'holes',
    v.holes.map(({ acrossMm, alongMm, number }) => ({
      from: `holes ${number}`,
      at: [acrossMm, alongMm] as const,
    })),
    panels,
  ),
  ...folds.flatMap(({ id, parent, child }): Wish[] =>
    id.startsWith('R')
      ? [
          wish(
            'returnHeight',
            v.returnHeight,
            edge(child.panel, 'up'),
            faceOf(parent.panel, v.returnDirection, v.measure),
          ),
        ]
      : [angleWish('creaseAngle', v.creaseAngle, parent.panel, child.panel)],
  ),
];

/** Caution on welding, since a slit crease is welded and nothing else is. */
const weldCaution = (v: StrutBrace): readonly Finding[] =>
  v.crease !== undefined && v.creaseStyle === 'slit'
    ? [note('caution-weld-heat', cautionText('weld-heat'))]
    : [];

const cutoutsOf = (v: StrutBrace, holes: readonly BraceHole[]): Cutout[] => [
  ...holes.map(({ from, at, ...hole }) => ({
    ...placeHole({ acrossMm: at[0], alongMm: at[1], ...hole }, from, frameOf(v)),
    ...(from.startsWith('saddle ') ? {} : { inputs: ['points'] }),
  })),
  ...placeHoles('holes', v.holes, frameOf(v)),
];
