import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Machine, Section } from '../../model/machine.ts';
import type { Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { brakeBodies } from '../../plan/machines/brake.ts';
import { folderBodies } from '../../plan/machines/folder.ts';
import { NO_SHEET } from '../../plan/machines/stroke-rules.ts';
import { line, ring } from './strokes.ts';

/** What is shown of a machine round its fold line, in its own coordinates, mm. */
const FOLDER: Extents = { minX: -120, minY: -110, maxX: 80, maxY: 130 };
const BRAKE: Extents = { minX: -90, minY: -80, maxX: 90, maxY: 110 };

const OUTLINE: Stroke = { widthMm: 0.3 };
const SHEET: Stroke = { widthMm: 0.8 };
const TEXT_MM = 4;

interface Named {
  readonly name: string;
  readonly pieces: readonly Section[];
  readonly fill: number;
}

/** A machine's section with its fold line in the middle: its tools by name, and flat sheet on it. */
export const machineView = (
  machine: Machine,
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
): Picture => {
  const box = machine.kind === 'folder' ? FOLDER : BRAKE;
  const scale = Math.min(widthMm / (box.maxX - box.minX), heightMm / (box.maxY - box.minY));
  const [ox, oy] = [
    widthMm / 2 - (scale * (box.minX + box.maxX)) / 2,
    heightMm / 2 - (scale * (box.minY + box.maxY)) / 2,
  ];
  const at = ([x, y]: Vec2): Vec2 => [x * scale + ox, y * scale + oy];
  const parts = partsOf(machine);
  const tools = parts.flatMap(({ pieces, fill }) =>
    pieces.map((piece): PictureItem => ({
      kind: 'area',
      rims: [ring(piece.map(at))],
      fill,
      stroke: OUTLINE,
    })),
  );
  const sheet = line(at([box.minX, 0]), at([box.maxX, 0]), SHEET);
  const names = parts.flatMap(({ name, pieces }) => nameAt(name, pieces, box, at));
  return {
    widthMm,
    heightMm,
    items: [
      {
        kind: 'group',
        at: [0, 0],
        clip: { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm },
        items: [...tools, sheet, ...names],
      },
    ],
  };
};

const partsOf = (machine: Machine): Named[] => {
  if (machine.kind === 'folder') {
    const noseRadiusMm = machine.noseRadiiMm?.value[0] ?? 0;
    const { bed, leaf, clamp, beam } = folderBodies(machine, { ...NO_SHEET, noseRadiusMm });
    const isFingers = machine.clamp.kind === 'fingers';
    return [
      { name: 'bed', pieces: bed, fill: 0.85 },
      { name: 'leaf', pieces: leaf, fill: 0.72 },
      { name: 'beam', pieces: beam, fill: 0.85 },
      { name: isFingers ? 'finger' : 'clamp', pieces: clamp, fill: 0.94 },
    ];
  }
  const { punch, ram, die } = brakeBodies(machine);
  return [
    { name: 'ram', pieces: ram, fill: 0.85 },
    { name: 'punch', pieces: punch, fill: 0.94 },
    { name: 'die', pieces: die, fill: 0.72 },
  ];
};

/** A name in the middle of what is seen of the largest piece. */
const nameAt = (
  name: string,
  pieces: readonly Section[],
  box: Extents,
  at: (p: Vec2) => Vec2,
): PictureItem[] => {
  const seen = pieces.map((piece) => {
    const xs = piece.map(([x]) => Math.min(box.maxX, Math.max(box.minX, x)));
    const ys = piece.map(([, y]) => Math.min(box.maxY, Math.max(box.minY, y)));
    const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
    const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
    return { middle: [(x0 + x1) / 2, (y0 + y1) / 2] as const, size: (x1 - x0) * (y1 - y0) };
  });
  const [largest] = seen.toSorted((a, b) => b.size - a.size);
  if (largest === undefined) return [];
  const [x, y] = at(largest.middle);
  return [
    {
      kind: 'label',
      at: [x, y - 0.36 * TEXT_MM],
      sizeMm: TEXT_MM,
      text: name,
      align: 'middle',
    },
  ];
};
