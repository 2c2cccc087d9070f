import { offsetLoop } from '../../geometry/offset.ts';
import { selfCrossing } from '../../geometry/self-crossing.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { Finding } from '../../model/finding.ts';
import type { FlatBend, FlatCutout, FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import { rulesUsed } from '../../model/rules-used.ts';
import { asCut } from '../../paper/draw/as-cut.ts';
import { drawBlank } from '../../paper/draw/blank.ts';
import { cutLines } from '../../paper/draw/cut-lines.ts';
import { type Nicked, nickFindings, nickFor, withNicks } from '../../paper/draw/nicks.ts';
import { type AskedBump, askedBumps } from '../../plan/of-part/asked-bumps.ts';
import { figure } from '../../text/figures.ts';
import type { Context } from './context.ts';
import type { TakenOptions } from './make-options.ts';
import type { PartHead } from './part-head.ts';

/** The drawing of a blank, what is cut of it, and the findings on both. */
export interface DrawnPart {
  /** Drawn when it is first asked for: room for its notes is not found at once. */
  readonly drawing: Drawing;
  readonly cut: ReturnType<typeof asCut>;
  readonly cutHoles: readonly FlatCutout[];
  readonly findings: readonly Finding[];
}

/**
 * Draws a blank with everything that is done to it on purpose: nicks for its folds, marks for holes
 * to be drilled, and lines shifted by half the width of the cut away from the metal.
 */
export function drawPart(
  { values, options }: Context,
  { top, mark }: PartHead,
  flat: FlatPattern,
  part: Part,
): DrawnPart {
  const bumps = askedBumps(part, flat, options.shop.machines, options.wideBends);
  const metal = metalEdge(flat, bumps, options);
  const cut = asCut(flat, metal.outline, options.drilled, options.kerfMm);
  const cutHoles = cut.holes.filter((hole) => hole !== undefined);
  const lines = cutLines({ outline: cut.outline, cutouts: cutHoles }, options.kerfMm);
  const bendsBy = `bends by ${rulesUsed(top.rule, flat.bends)}`;
  const draw = (): Drawing =>
    drawBlank(
      flat,
      {
        mark,
        remarks: [bendsBy],
        foldLines: options.marks !== 'none',
        bumps,
        title: `${top.name}, ${top.hand} hand`,
        lines: [
          `${values.material.name} ${figure(values.thicknessMm, 3)} mm, ${top.quantity} off`,
          bendsBy,
        ],
      },
      'outline' in lines ? lines : flat,
      cut.marks,
    );
  const findings = [...nickFindings(metal), ...('outline' in lines ? [] : lines)];
  let drawing: Drawing | undefined;
  return {
    get drawing() {
      return (drawing ??= draw());
    },
    cut,
    cutHoles,
    findings,
  };
}

/**
 * The edge of the metal, with nicks of a size that the cutter can cut where nicks are to mark the
 * folds.
 */
const metalEdge = (
  flat: FlatPattern,
  bumps: readonly AskedBump[],
  { marks, kerfMm, cutterKerfMm }: TakenOptions,
): Nicked =>
  marks === 'nicks'
    ? withNicks(
        flat.outline,
        flat.bends.flatMap((bend) => hitsOf(bend, bumps)),
        nickFor(Math.max(cutterKerfMm, kerfMm)),
        (loop) => selfCrossing(loop) === undefined && offsetLoop(loop, kerfMm / 2) !== undefined,
      )
    : { outline: flat.outline, without: [] };

/** What is nicked for a bend: its line, or the lines of its hits, as bends of its name. */
const hitsOf = (bend: FlatBend, bumps: readonly AskedBump[]): FlatBend[] =>
  bumps
    .find((b) => b.bend === bend)
    ?.lines.map((centreLine): FlatBend => ({ ...bend, centreLine })) ?? [bend];
