import { figure } from '../../text/figures.ts';
import type { Seat } from './seat.ts';

/** What a tube sits on, in a few words: `on 48.3 at 60 deg, 5 beside`. */
export const seatText = (seat: Seat): string => {
  const angle = `at ${figure(seat.angleDeg)} deg`;
  switch (seat.kind) {
    case 'plate':
      return `on plate ${angle}`;
    case 'mitre':
      return `mitre, ${figure(90 - seat.angleDeg)} deg from square`;
    case 'bend':
      return `on bend R${figure(seat.bendRadiusMm)} of ${figure(seat.diameterMm)} ${angle}`;
    case 'header':
      return [
        `on ${figure(seat.diameterMm)} ${angle}`,
        ...(seat.offsetMm === 0 ? [] : [`${figure(seat.offsetMm)} beside`]),
        ...(seat.beside === undefined ? [] : [`and on ${figure(seat.beside.diameterMm)}`]),
      ].join(', ');
  }
};

/** Where the axis meets the seat, in a word. */
export const placeWord = (seat: Seat): string => (seat.kind === 'mitre' ? 'joint' : 'node');

/** What lies at 0 degrees round the tube. */
export const zeroText = (seat: Seat): string =>
  seat.kind === 'mitre' ? 'inside of the bend' : 'acute side';
