import { figure } from '../../text/figures.ts';
import type { Seat } from './seat.ts';

/** What a tube sits on, in a few words: `on 48.3 at 60 deg, 5 beside`. */
export const seatText = (seat: Seat): string => {
  const angle = `at ${figure(seat.angleDeg)} deg`;
  switch (seat.kind) {
    case 'plate':
      return `on plate ${angle}`;
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
