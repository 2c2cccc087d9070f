import { readHoleSize } from '../forms/hole-shape.ts';
import { isSameValue } from '../text/same-value.ts';
import type { HoleUse, TubePassage } from '../model/hole-use.ts';
import type { Cutout } from '../model/part.ts';
import type { GivenHoles } from './given.ts';

/**
 * A hole as it is typed, to the last digit; one that is not round point by point. `axes` are the
 * words for its two coordinates.
 */
export function writtenHole(
  cutout: Cutout,
  [x, y]: readonly [string, string],
): Exclude<GivenHoles, string>[number] {
  const { use } = cutout;
  if (cutout.kind === 'loop')
    return {
      outline: cutout.loop.map((vertex) => ({
        x: vertex.x,
        y: vertex.y,
        ...(vertex.bulge !== 0 && { bulge: vertex.bulge }),
      })),
      ...(use !== undefined && {
        use: use.tube === undefined ? behind(use).join(' ') : tubeText(use.tube),
      }),
    };
  const [cx, cy] = cutout.centre;
  return `${x} ${cx}, ${y} ${cy}, ${sizeText(cutout.diameterMm, use)}`;
}

/** The shortest way to write a size that reads as just that. */
const sizeText = (diameterMm: number, use: HoleUse | undefined): string => {
  const { screw, thread, tube } = use ?? {};
  const words = use === undefined ? [] : behind(use);
  const sunk = words.filter((word) => !word.startsWith('for '));
  const nut = thread?.kind === 'rivet nut' ? [`RN${screw?.slice(1) ?? ''}`] : [];
  const tapped =
    thread?.kind === 'tapped' ? [`${screw} tapped`, `${screw}x${thread.pitchMm} tapped`] : [];
  const texts = [
    ...(tube === undefined ? [] : [[tubeText(tube)]]),
    ...[...nut, ...tapped, ...(screw === undefined ? [] : [screw])].map((size) => [size, ...sunk]),
    [String(diameterMm), ...words],
  ].map((text) => text.join(' '));
  return (
    texts.find((text) => {
      const read = readHoleSize(text);
      return (
        read.ok &&
        isSameValue(read.value, { shape: { kind: 'round', diameterMm }, ...(use && { use }) })
      );
    }) ?? String(diameterMm)
  );
};

/** `T76@30 clear 1`, without the turn, which the outline of a hole at an angle shows. */
const tubeText = ({ diameterMm, leanDeg, clearMm, grommetMm }: TubePassage): string =>
  [
    `T${diameterMm}${leanDeg === 0 ? '' : `@${leanDeg}`}`,
    ...(clearMm === undefined ? [] : [`clear ${clearMm}`]),
    ...(grommetMm === undefined ? [] : [`grommet ${grommetMm}`]),
  ].join(' ');

const behind = ({ screw, meets, countersink, isDrilled }: HoleUse): string[] => [
  ...(screw === undefined ? [] : [`for ${screw}`]),
  ...(countersink === undefined ? [] : [`csk ${countersink.diameterMm} ${countersink.face}`]),
  ...(isDrilled === true ? ['drill'] : []),
  ...(meets === undefined ? [] : [`to ${meets}`]),
];
