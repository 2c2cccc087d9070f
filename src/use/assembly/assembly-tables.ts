import type { BoltedHoles } from '../../assembly/bolted-holes.ts';
import { TORCH } from '../../data/welding.ts';
import type { TableBlock } from '../../paper/sheet/content.ts';
import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import type { MadeSet } from './assembled.ts';
import { fitUpWords, type WeldedSheet } from './fit-up-words.ts';
import {
  accessText,
  betweenText,
  gapText,
  kindText,
  stretchesText,
  type ReachedWeld,
} from './assembly-words.ts';

const word = (name: string) => ({ name, isText: true });

/** Every seam with what a welder asks of it. */
export const weldTable = (
  welds: readonly ReachedWeld[],
  sheet: WeldedSheet,
  print: Printed,
): TableBlock => ({
  kind: 'table',
  title: 'Seams, in the order in which they are welded',
  columns: [
    { name: 'Seam', isBig: true, isText: true },
    word('Between'),
    word('Joint'),
    { name: `Length ${print.word}`, isBig: true },
    word(`Stretches ${print.word}`),
    { name: `Gap ${print.word}` },
    word('Welded from'),
  ],
  rows: welds.map((weld) => [
    weld.letter,
    betweenText(weld),
    kindText(weld.kind),
    print.tape(weld.lengthMm, 0),
    stretchesText(weld, print),
    gapText(weld.gapMm, print),
    accessText(weld),
  ]),
  captions: [
    'Lengths of the joint, whether it is welded all along or in runs: how much a joint needs is for whoever answers for its strength. Of a lap one edge is counted. A tooth in its slot is welded over from behind.',
    ...fitUpWords(welds, sheet),
    `Reach is that of a straight torch with a nozzle ${figure(TORCH.nozzleMm.value)} mm across, while those pieces stand that are joined before; holes for fittings are no way in.`,
  ],
});

/** Every bolt that joins two pieces of the set, and whether its holes line up. */
export const boltTable = (bolts: readonly BoltedHoles[], print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Bolts',
  columns: [
    { name: 'Bolt', isBig: true, isText: true },
    word('Through'),
    { name: `Aside ${print.word}` },
    { name: `Apart ${print.word}` },
  ],
  rows: bolts.map(({ screw = '', through: [one, other], asideMm, apartMm }) => [
    screw,
    `${one.piece} ${one.hole}, ${other.piece} ${other.hole}`,
    print.machine(asideMm, 2),
    print.machine(apartMm, 2),
  ]),
  captions: [
    'Aside: how far the middles of both holes lie from one line, as drawn. Apart: how far the faces stand off until the bolt pulls them together.',
  ],
});

/** What one set is made of. */
export const pieceTable = ({ parts }: MadeSet, print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Pieces of one set',
  columns: [
    { name: 'Piece', isBig: true, isText: true },
    { name: 'Off', isBig: true },
    word('Cut file'),
    word(`Blank ${print.word}`),
    { name: 'Folds' },
    { name: 'Mass kg' },
  ],
  rows: parts.map(({ result, base, standing }) => [
    result.piece ?? result.name,
    String(standing?.poses.length ?? 1),
    `${base}.dxf`,
    `${print.tape(result.blank.widthMm, 1)} x ${print.tape(result.blank.heightMm, 1)}`,
    String(result.bends.length),
    figure(result.blank.massKg, 3),
  ]),
});
