import type { Picture } from '../../model/picture.ts';
import { includedDeg } from '../../text/angles.ts';
import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import { partlyBent } from '../../tube/bend-steps.ts';
import type { BentTube } from '../../tube/bent-tube.ts';
import { tubeMesh } from '../../tube/tube-mesh.ts';
import { walkedBackText } from '../../tube/walk.ts';
import { foldedView } from '../draw/folded-view.ts';
import { turnText } from './bend-tables.ts';
import { markedTube } from './marked-tube.ts';

/** What the proof of a tube's sheet found, in the words of its papers. */
export const walkedBack = ({ proofMm }: BentTube, print: Printed): string =>
  print.words(walkedBackText(proofMm));

/** A bend in its turn, as it is made at the bender: lines each with the word that they are found by. */
export interface BendCard {
  readonly title: string;
  readonly lines: readonly (readonly [word: string, text: string])[];
  readonly pictures: readonly { readonly title: string; readonly picture: Picture }[];
}

/** Chords of the view, as a share of the tube's diameter. */
const VIEW_SHARE = 1 / 30;

/** The bend sheet of a tube one bend at a time, each with its mark and with the tube as it is then. */
export const bendCards = (
  tube: BentTube,
  print: Printed,
  size: { readonly widthMm: number; readonly heightMm: number },
): BendCard[] => {
  const made = new Set<number>();
  return tube.steps.map((step, i) => {
    made.add(step.bend);
    const { angleDeg, pullToDeg } = tube.sheet.bends[
      step.bend
    ] as BentTube['sheet']['bends'][number];
    const length = (mm: number): string => `${print.tape(mm, 1)} ${print.word}`;
    return {
      title: `Bend ${step.bend + 1}`,
      lines: [
        ['Mark', `${length(step.markMm)} from the leading end, on the bender's own mark`],
        ['Turn', turnText(step, i === 0)],
        ['Pull to', `${figure(pullToDeg, 1)}° on the scale, for a bend of ${figure(angleDeg, 1)}°`],
        ['Let go', `the angle finder reads ${figure(includedDeg(angleDeg), 1)}° between the legs`],
        ['Check', `${length(step.checkMm)} from end to end, middle to middle, straight across`],
      ],
      pictures: [
        { title: 'Its mark', picture: markedTube(tube, size.widthMm, print, step.bend) },
        { title: 'Once it is made', picture: onItsWay(tube, made, size) },
      ],
    };
  });
};

const onItsWay = (
  tube: BentTube,
  made: ReadonlySet<number>,
  size: { readonly widthMm: number; readonly heightMm: number },
): Picture => {
  const { points, bends } = partlyBent(tube.sheet, made);
  const mesh = tubeMesh(
    { ...tube, points, sheet: { bends } },
    'tube',
    VIEW_SHARE * tube.diameterMm,
  );
  const labels = new Map(bends.map(({ place }, i) => [String(i + 1), String(place + 1)]));
  return foldedView(mesh, { ...size, ...(bends.length <= MOST_NAMED && { labels }) });
};

/** More numbers than these hide the tube. */
const MOST_NAMED = 12;
