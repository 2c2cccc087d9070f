import { figure } from '../text/figures.ts';
import { type Finding, note, stop, warn } from '../model/finding.ts';
import { MM_PER_INCH } from '../text/units.ts';
import { SAME_SCALE } from './alignment.ts';
import type { Unit } from './reading.ts';
import type { FileLines } from './file-lines.ts';
import type { Alignment } from '../measure/placing.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';

/** A smaller turn, degrees, does not count: over a metre it makes 0.02 mm. */
const STILL_DEG = 1e-3;

/** Contours that do not belong to the part: those that lie on one that does, and others. */
export interface Strays {
  readonly doubled: number;
  readonly others: number;
}

/** What became of the contours and fold lines of a file. */
export interface Losses {
  readonly lostHoles: readonly string[];
  readonly strayOutlines: Strays;
  readonly strayHoles: Strays;
  readonly lostFolds: readonly string[];
  readonly strayFolds: number;
  readonly turnedFolds: readonly string[];
  /** Whether fold lines count as lost when there are none at all. */
  readonly missesFolds: boolean;
}

/**
 * The usual accidents of a file that has been through another program, as far as they can be seen.
 */
export const accidents = (
  sheet: FileLines,
  unit: Unit,
  to: Alignment,
  losses: Losses,
): Finding[] => [
  ...unitFindings(unit),
  ...(unit.times === 1 ? scaleFinding(to.scale, unit) : []),
  ...(to.mirrored
    ? [
        stop(
          'file-mirrored',
          'The file is mirrored: it folds to the other hand. Mirror it back, or fold the other way and mark it as the other hand.',
        ),
      ]
    : []),
  ...placeFinding(to),
  ...hiddenFindings(sheet),
  ...contourFindings(sheet, losses),
  ...foldFindings(losses),
  ...(sheet.unread.length > 0
    ? [
        stop(
          'file-not-read',
          `The file has ${named(sheet.unread)} on the layers of cuts and folds, which the proof does not read: save them as lines and arcs.`,
        ),
      ]
    : []),
  ...(sheet.noLines.length > 0
    ? [
        warn(
          'no-line',
          `The file has ${named(sheet.noLines)} beside the lines of the part: it is no line to cut, and left out here. Delete it before it is cut.`,
        ),
      ]
    : []),
  ...(sheet.tilted.length > 0
    ? [
        stop(
          'not-flat',
          `The file has ${named(sheet.tilted)} that rise out of the plane of the sheet: seen from above they are shorter than they really are. Draw them flat.`,
        ),
      ]
    : []),
  ...(sheet.strange.length > 0
    ? [
        stop(
          'strange-layer',
          `There are lines on ${layersNamed(sheet.strange)} that do not belong to the part: they may be cut. Delete them, or put them on the layer they came from.`,
        ),
      ]
    : []),
];

/** The most that are listed; a file may have thousands. */
const MOST_TOLD = 6;

const named = (names: readonly string[]): string =>
  [
    ...names.slice(0, MOST_TOLD),
    ...(names.length > MOST_TOLD ? [`${names.length - MOST_TOLD} more`] : []),
  ].join(', ');

const layersNamed = (layers: readonly string[]): string => named(layers.map((l) => `layer ${l}`));

/** Whether the figures and the unit of the file belong together. */
const unitFindings = ({ name, made, times, said }: Unit): Finding[] => {
  if (times !== 1) {
    const far =
      times > 1 ? `${figure(times, 4)} times too large` : `${figure(1 / times, 4)} times too small`;
    return [
      stop(
        'file-scaled',
        `The file is ${far} (its unit: ${name}): its figures are ${made}, the unit that it was made in. Set its unit to ${made}, or scale it.`,
      ),
    ];
  }
  if (said === 'lost')
    return [
      warn(
        'unit-lost',
        `The file states no unit any more: it was made in ${made}, and is right when it is read in them. Tell whoever cuts it, or save it with its unit.`,
      ),
    ];
  return said === 'unknown'
    ? [
        warn(
          'unit-lost',
          `The unit that the file states is not known: it is right when it is read in ${made}. Save it in ${made}.`,
        ),
      ]
    : [];
};

const scaleFinding = (scale: number, { name }: Unit): Finding[] => {
  const near = (wanted: number): boolean => Math.abs(scale / wanted - 1) < SAME_SCALE;
  if (near(1)) return [];
  if (near(MM_PER_INCH))
    return [
      stop(
        'file-scaled',
        `The file is ${MM_PER_INCH} times too large (its unit: ${name}): millimetres were taken for inches. Save it in millimetres, or scale it by 1/${MM_PER_INCH}.`,
      ),
    ];
  if (near(1 / MM_PER_INCH))
    return [
      stop(
        'file-scaled',
        `The file is ${MM_PER_INCH} times too small (its unit: ${name}): it is in inches and read as millimetres. Save it in millimetres, or scale it by ${MM_PER_INCH}.`,
      ),
    ];
  return [
    stop(
      'file-scaled',
      `The file is scaled by ${figure(scale, 5)} (its unit: ${name}). Scale it by ${figure(1 / scale, 5)}.`,
    ),
  ];
};

const placeFinding = (to: Alignment): Finding[] => {
  const turn = (Math.atan2(to.b, to.a) * 180) / Math.PI;
  if (
    to.mirrored ||
    Math.abs(to.scale - 1) > SAME_SCALE ||
    (Math.abs(turn) < STILL_DEG && Math.hypot(to.x, to.y) < PROOF_MM)
  )
    return [];
  return [
    note(
      'file-moved',
      `The blank was shifted or turned in the file, by ${figure(turn)} degrees: that does no harm.`,
    ),
  ];
};

/**
 * Reports what is hidden. Some programs cut it and others leave it out, and neither gives what was
 * made.
 */
const hiddenFindings = ({ hidden, strangeHidden }: FileLines): Finding[] => [
  ...hidden.map(({ layer, why, count }) => {
    const what = count === 1 ? 'a line or circle' : `${count} lines or circles`;
    const them = count === 1 ? 'it' : 'them';
    if (why === 'paper')
      return stop(
        'lines-on-paper',
        `Layer ${layer} has ${what} in paper space, which is not cut. Put ${them} back into the model, or delete ${them}.`,
      );
    return stop(
      'lines-hidden',
      `Layer ${layer} has ${what} switched off, frozen or invisible: some programs cut ${them}, others leave ${them} out. Switch ${them} on, or delete ${them}.`,
    );
  }),
  ...(strangeHidden.length === 0
    ? []
    : [
        warn(
          'lines-hidden',
          `There is something switched off or frozen on ${layersNamed(strangeHidden)} that does not belong to the part: some programs cut it all the same. Delete it.`,
        ),
      ]),
];

const contourFindings = (lines: FileLines, losses: Losses): Finding[] => [
  ...(losses.strayOutlines.others > 0
    ? [
        stop(
          'contour-stray',
          `There are ${lines.outlines.length} closed contours on the layer OUTLINE, where one belongs.`,
        ),
      ]
    : []),
  ...openFindings(lines),
  ...holeFindings(losses),
  ...doubledFindings(lines, losses),
];

const openFindings = ({ open }: FileLines): Finding[] => [
  ...open.slice(0, MOST_TOLD).map((at): Finding => ({
    ...stop(
      'contour-open',
      `A contour near ${place(at)} is not closed: a piece of it is missing or does not meet the next.`,
    ),
    at,
  })),
  ...(open.length > MOST_TOLD
    ? [stop('contour-open', `${open.length - MOST_TOLD} more are not closed.`)]
    : []),
];

const holeFindings = ({ lostHoles, strayHoles: { others } }: Losses): Finding[] => [
  ...(lostHoles.length > 0
    ? [stop('contour-lost', `Lost from the layer HOLES: ${lostHoles.join(', ')}.`)]
    : []),
  ...(others > 0
    ? [
        stop(
          'contour-stray',
          `On the layer HOLES there ${others === 1 ? 'is a contour' : `are ${others} contours`} that the part does not have.`,
        ),
      ]
    : []),
];

/** Contours that are drawn twice, and lines that lie on one another. */
const doubledFindings = (
  { doubled }: FileLines,
  { strayOutlines, strayHoles }: Losses,
): Finding[] => {
  const twice = strayOutlines.doubled + strayHoles.doubled;
  return [
    ...(twice > 0
      ? [
          stop(
            'contour-doubled',
            `${twice === 1 ? 'A contour is' : `${twice} contours are`} drawn twice, and would be cut twice. Delete one of each.`,
          ),
        ]
      : []),
    ...doubled.slice(0, 1).map((at): Finding => ({
      ...stop(
        'contour-doubled',
        `Lines lie on one another, first near ${place(at)}: they would be cut or marked twice. Delete one of each.`,
      ),
      at,
    })),
  ];
};

const place = ([x, y]: readonly [number, number]): string => `${figure(x)}, ${figure(y)}`;

const foldFindings = ({ lostFolds, strayFolds, turnedFolds, missesFolds }: Losses): Finding[] => [
  ...(lostFolds.length > 0 && !missesFolds
    ? [
        note(
          'fold-lines-left-out',
          'The file has cut lines but no fold lines: the proof folded it where its fold lines were when it was made.',
        ),
      ]
    : []),
  ...(lostFolds.length > 0 && missesFolds
    ? [stop('fold-line-lost', `Lost from the layers of fold lines: fold ${lostFolds.join(', ')}.`)]
    : []),
  ...(strayFolds > 0
    ? [
        stop(
          'fold-line-stray',
          `There ${strayFolds === 1 ? 'is a fold line' : `are ${strayFolds} fold lines`} too many.`,
        ),
      ]
    : []),
  ...turnedFolds.map((id) =>
    stop(
      'fold-turned',
      `Fold ${id} is on the layer of folds that go the other way: the part would be folded inside out there.`,
    ),
  ),
];
