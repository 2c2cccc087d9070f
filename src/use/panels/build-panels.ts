import { readBuilt } from '../../forms/built.ts';
import { type InputProblem, readInputs } from '../../forms/read.ts';
import { defineTemplate, type Template } from '../../forms/template.ts';
import type { Finding } from '../../model/finding.ts';
import type { Part } from '../../model/part.ts';
import { buildPanels as built } from '../../panels/build.ts';
import { panelBase, panelCorners, panelFlanges, panelOrder } from '../../panels/fields.ts';
import type { PanelsSpec } from '../../panels/given-pieces.ts';
import { panelPieces, panelTabs } from '../../panels/piece-fields.ts';

/** The parts that a description is, one for each piece, or what is wrong with it. */
export type PartsOfPanels =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | {
      readonly ok: true;
      /** Nothing where a finding among them is a `stop`. */
      readonly parts: readonly Part[];
      readonly findings: readonly Finding[];
    };

const SAID = { about: 'What it is.' };
const PANELS: Template = defineTemplate({
  family: 'panels',
  summary: 'A part panel by panel.',
  inputs: {
    base: panelBase({ ...SAID, otherwise: 'pieces' }),
    flanges: panelFlanges(SAID),
    corners: panelCorners(SAID),
    order: panelOrder(SAID),
    tabs: panelTabs(SAID),
    pieces: panelPieces(SAID),
  },
  problems: (v) => built(v, v).problems,
  build: (v) => built(v, v).built,
});

/**
 * Builds the folded parts of a description: `flatten`, `foldUp`, `proveDxf` and the rest take them
 * from there. Never throws for anything given.
 */
export function buildPanels(spec: PanelsSpec): PartsOfPanels {
  const read = readInputs(PANELS, spec);
  if (!read.ok) return read;
  const whole = readBuilt(PANELS.build(read.values), read.values);
  if (!whole.ok) return whole;
  const { part, pieces = [], findings = [] } = whole.built;
  const parts = part === undefined ? pieces.map((piece) => piece.part) : [part];
  return { ok: true, parts, findings };
}
