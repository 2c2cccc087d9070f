import { setbackMm } from '../bending/setback.ts';
import type { CommonValues } from '../forms/common.ts';
import type { Loop } from '../geometry/loop.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Cutout } from '../model/part.ts';
import { figure } from '../text/figures.ts';
import { type Folded, notched, roundTheLoop, withCornersOff } from './cut-shape.ts';
import type { Figures } from './figures.ts';
import {
  cutoutsOf,
  freeCuts,
  holeEntries,
  type HoleEntry,
  type HolePlan,
  holePlanOf,
} from './holes.ts';
import type { Shape } from './shape.ts';
import type { Bend, Panelled } from './tree.ts';

/** A panel with its outline cut and its own holes. */
export interface CutPanel extends Panelled {
  readonly outline: Loop;
  readonly cutouts: readonly Cutout[];
  readonly entries: readonly HoleEntry[];
  readonly plan: HolePlan;
  readonly findings: readonly Finding[];
}

/** What is folded on a panel, on the way round its shape. */
const foldedOn = (shape: Shape, bends: readonly Bend[], values: CommonValues): Folded[] =>
  bends.flatMap((bend): Folded[] => {
    const side =
      bend.parent === shape.id
        ? bend.parentSide
        : bend.child === shape.id
          ? bend.childSide
          : undefined;
    if (side === undefined) return [];
    const { edge } = side;
    return [
      {
        edge,
        stretch: roundTheLoop(shape, edge, side.stretch),
        setbackMm: setbackOf(bend, values),
      },
    ];
  });

const setbackOf = ({ angleDeg, insideRadiusMm, midSurface }: Bend, values: CommonValues): number =>
  midSurface === true ? 0 : setbackMm(angleDeg, insideRadiusMm, values.thicknessMm, values.measure);

export function cutPanel(
  panelled: Panelled,
  bends: readonly Bend[],
  figures: Figures,
  values: CommonValues,
): CutPanel | undefined {
  const { shape, given, at, input, isBase } = panelled;
  const folded = foldedOn(shape, bends, values);
  const corners = cornersAsked(panelled, figures, values);
  const cuts = freeCuts(figures, given, at, values.leastSlotMm);
  const plan = holePlanOf(shape, isBase, values.thicknessMm);
  const entries = holeEntries(figures, given.holes, plan, { at, id: shape.id, input });
  if (corners === undefined || cuts === undefined || entries === undefined) return undefined;
  const rounded = withCornersOff(shape, folded, corners);
  const findings = [...rounded.findings];
  let { outline } = rounded;
  const cutouts = entries.flatMap((entry): readonly Cutout[] =>
    entry.kind === 'here'
      ? cutoutsOf(entry, plan, shape.id, input)
      : entry.kind === 'shaped'
        ? [entry.cutout]
        : [],
  );
  for (const [i, loop] of cuts.entries()) {
    const found = notched(shape, outline, loop, folded);
    const name = `${shape.id} cut-out ${i + 1}`;
    if (found.kind === 'notch') outline = found.outline;
    else if (found.kind === 'apart')
      findings.push(
        refuse(
          'panel-cut-apart',
          [input],
          `${name} parts ${shape.id} in two, or leaves nothing of it`,
          [],
          'make it smaller, or describe the rest as pieces of their own',
        ),
      );
    else if (found.kind === 'touching')
      findings.push(
        refuse(
          'panel-cut-apart',
          [input],
          `${name} only touches the edge of ${shape.id} at ${found.at.map((mm) => figure(mm)).join(', ')}: there is no metal, and no opening either`,
          [],
          'let it end before the edge, or reach past it',
        ),
      );
    else cutouts.push({ kind: 'loop', from: name, inputs: [input], loop });
  }
  return { ...panelled, outline, cutouts, entries, plan, findings };
}

/** What is taken off the corners of a panel: what it says itself, or what the part says of plain ones. */
const cornersAsked = (
  { shape, given, at }: Panelled,
  figures: Figures,
  values: CommonValues,
): Pick<CommonValues, 'cornerRadiusMm' | 'cornerChamferMm'> | undefined => {
  const { cornerRadius, cornerChamfer } = given;
  if (cornerRadius === undefined && cornerChamfer === undefined)
    return shape.isPlain ? values : { cornerRadiusMm: 0, cornerChamferMm: 0 };
  if (cornerRadius !== undefined && cornerChamfer !== undefined)
    return figures.problem(
      `${at}.cornerChamfer`,
      cornerChamfer,
      'cornerRadius or cornerChamfer, one of the two',
    );
  const limits = { kind: 'length', least: 0, most: 1000 } as const;
  const radius =
    cornerRadius === undefined ? 0 : figures.read(cornerRadius, `${at}.cornerRadius`, limits);
  const chamfer =
    cornerChamfer === undefined ? 0 : figures.read(cornerChamfer, `${at}.cornerChamfer`, limits);
  return radius === undefined || chamfer === undefined
    ? undefined
    : { cornerRadiusMm: radius, cornerChamferMm: chamfer };
};
