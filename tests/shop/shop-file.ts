import type { InputProblem } from '../../src/forms/problem.ts';
import { readShop } from '../../src/shop/read.ts';

/** A shop file that is in order, and short. */
export const SHOP = `name: the farm workshop
cutters:
  - name: torch
    process: plasma
    thickness: { from: 0.5, to: 10 }
    bed: { length: 2000, width: 1000 }
    kerf:
      - { thickness: 1, kerf: 1.2 }
      - { thickness: 3, kerf: 1.6 }
      - { thickness: 6, kerf: 2 }
folders:
  - id: bench-folder
    name: bench folder
    workingLength: 4 ft
    capacity: 1.5
    maxAngle: 120
    bedDepth: 250
    noseSetback: 2
    noseDepth: 40
    noseFront: 20
    noseBevel: 45
    clampHeight: 80
    leafEdge: { barFitted: 18, barRemoved: 6 }
    stiffener: { projection: 50, startsBelow: 60, endsBelow: 150 }
    fingers: { boxDepth: 80, beamDepth: 90, widths: [25, 50, 1in, 75] }
pressBrakes:
  - id: brake
    name: brake
    workingLength: 1000
    v: 16
    dieHeight: 60
    dieHolderHalf: 30
    ramHalf: 30
    punchHeight: 120
    punches:
      - id: straight
        polygons: [[[0, 0], [6, 22], [-6, 22]], [[-6, 22], [6, 22], [6, 120], [-6, 120]]]
sheets:
  - { length: 2000, width: 1000, material: steel, thickness: 1.5, price: 48.5 }
`;

/** What is wrong with a shop file; nothing of one that can be read. */
export const problemsOf = (text: string): readonly InputProblem[] => {
  const read = readShop(text);
  return read.ok ? [] : read.problems;
};
