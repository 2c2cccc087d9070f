import type { HeaderSeat, Seat, TubeValues } from '../../src/template.ts';
import type { inputs } from './inputs.ts';

export type Values = TubeValues<typeof inputs>;

/** A header as thick as the branch where nothing else is said. */
export const headerOf = ({ header, diameter }: Values): number => header ?? diameter;

/** Three diameters, as benders have them where nothing else is said. */
const USUAL_DIAMETERS = 3;

/** What the first end sits on. */
export const firstSeat = (v: Values): Seat => {
  switch (v.on) {
    case 'plate':
      return { kind: 'plate', angleDeg: v.angle };
    case 'bend':
      return {
        kind: 'bend',
        diameterMm: headerOf(v),
        bendRadiusMm: v.bendRadius ?? USUAL_DIAMETERS * headerOf(v),
        angleDeg: v.angle,
        leavesDeg: v.bendSide,
        beforeDeg: v.bendBefore,
        behindDeg: v.bendBehind,
      };
    case 'header':
      return onHeader(v);
  }
};

const onHeader = (v: Values): HeaderSeat => ({
  kind: 'header',
  diameterMm: headerOf(v),
  angleDeg: v.angle,
  offsetMm: v.offset,
  ...(v.beside !== undefined && {
    beside: {
      diameterMm: v.beside,
      angleDeg: v.besideAngle,
      roundDeg: v.besideTurn,
      apartMm: v.besideApart,
    },
  }),
});

/** What the other end sits on; nothing where it is cut square. */
export const otherSeat = (v: Values): Seat | undefined => {
  if (v.other === 'square') return undefined;
  return v.other === 'plate'
    ? { kind: 'plate', angleDeg: v.otherAngle }
    : {
        kind: 'header',
        diameterMm: v.otherHeader ?? headerOf(v),
        angleDeg: v.otherAngle,
        offsetMm: v.otherOffset,
      };
};
