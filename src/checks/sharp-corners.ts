import { pieceOf, endDirection, startDirection } from '../geometry/piece.ts';
import { vertexAt } from '../geometry/loop.ts';
import { cross, dot, type Vec2 } from '../geometry/vec2.ts';
import { note } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Check } from './check.ts';
import { NOISE_DEG } from '../geometry/tolerance.ts';

/** A free corner that turns by more than this is sharp to the hand. */
const SHARP_DEG = 45;

/** Free outer corners that were left sharp. */
export const sharpCorners: Check = {
  rule: 'sharp-corners',
  title: 'Free corners were left sharp.',
  severities: ['note'],
  reason: 'Sharp corners of sheet cut hands and clothes, and paint does not hold on them.',
  source:
    'common practice: free corners are rounded, those that turn by more than 45 degrees at least',
  measured: 'free corners that turn by more than 45 degrees',
  mend: 'Set cornerRadius, or break them with a file.',
  run: ({ flat }) => {
    const sharp = flat.outline.flatMap((_, i) => (isSharp(flat, i) ? [i] : []));
    const [first] = sharp;
    if (first === undefined) return [];
    const panels = [...new Set(sharp.map((i) => panelOf(flat, i)))];
    const message = `${sharp.length === 1 ? 'One free corner is' : `${sharp.length} free corners are`} sharp (${panels.join(', ')}). Set cornerRadius to 3, or break them with a file.`;
    const { x, y } = vertexAt(flat.outline, first);
    return [
      {
        ...note(sharpCorners, message),
        inputs: ['cornerRadius'],
        ...(panels.length === 1 && { panel: panels[0] }),
        at: [x, y],
      },
    ];
  },
};

const panelOf = ({ outline }: FlatPattern, i: number): string => {
  const { origin } = vertexAt(outline, i);
  return origin.kind === 'edge' ? origin.panel : '';
};

function isSharp({ outline }: FlatPattern, i: number): boolean {
  const [before, after] = [vertexAt(outline, i - 1).origin, vertexAt(outline, i).origin];
  if (before.kind !== 'edge' || after.kind !== 'edge' || before.panel !== after.panel) return false;
  const [inward, outward] = [
    endDirection(pieceOf(outline, i - 1)),
    startDirection(pieceOf(outline, i)),
  ];
  return turnDeg(inward, outward) > SHARP_DEG + NOISE_DEG;
}

/** The turn from `a` to `b`, degrees, positive to the left, where the metal of an outline lies. */
const turnDeg = (a: Vec2, b: Vec2): number => (Math.atan2(cross(a, b), dot(a, b)) * 180) / Math.PI;
