import type { DxfLayoutFault } from './check-dxf.ts';

/** A length as a message tells it: to a hundredth of a millimetre. */
const mmText = (mm: number): string => `${String(Math.round(mm * 100) / 100)} mm`;

/** A fault of a laid sheet's file in words. */
export const faultText = (fault: DxfLayoutFault): string => {
  switch (fault.kind) {
    case 'unreadable':
      return `the file cannot be read: ${fault.reason}`;
    case 'missing':
      return `${fault.part} is not in it as it should be`;
    case 'other-face':
      return `${fault.part} lies on its other face`;
    case 'moved':
      return `${fault.part} lies ${mmText(fault.mm)} from its place`;
    case 'inner-missing':
      return `${fault.part} lacks ${fault.count} of its holes`;
    case 'stray':
      return `${fault.count} closed lines belong to no part`;
    case 'open':
      return `${fault.count} lines do not close`;
    case 'overlap':
      return `${fault.part} and ${fault.other ?? 'another part'} lie ${mmText(fault.mm)} in each other`;
    case 'gap':
      return `${fault.part} is ${mmText(fault.mm)} from ${fault.other ?? 'another part'}`;
    case 'outside':
      return `${fault.part} sticks out by ${mmText(fault.mm)}`;
    case 'edge':
      return `${fault.part} is ${mmText(fault.mm)} from the edge`;
    case 'clamps':
      return `${fault.part} is ${mmText(fault.mm)} from the lower edge, where clamps hold`;
  }
};
