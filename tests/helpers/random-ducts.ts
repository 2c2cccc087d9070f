import fc from 'fast-check';

/** Ducts between two openings as they may well be asked for. */
export const askedDuct = fc.record({
  near: fc.constantFrom(
    '180 x 120 r12',
    '160 to 110 x 90',
    'oval 180 x 80',
    'round 150',
    '0,0; 180,0; 170,120 r15; 20,130',
    '0,0; 180,0; 180,60; 80,60; 80,150; 0,150 r20',
  ),
  far: fc.constantFrom(
    'round 100',
    'round 160',
    '120 x 70 r10',
    'oval 60 x 110',
    '0,0; 90,10; 80,90 r8; 5,80',
  ),
  length: fc.integer({ min: 60, max: 300 }),
  offsetRight: fc.integer({ min: -120, max: 120 }),
  offsetUp: fc.integer({ min: -120, max: 120 }),
  faceRight: fc.integer({ min: -40, max: 40 }),
  faceUp: fc.integer({ min: -30, max: 30 }),
  farTurn: fc.integer({ min: -90, max: 90 }),
  walls: fc.constantFrom('smooth', 'few-folds'),
  roundEdge: fc.constantFrom('chords', 'circumference'),
  blanks: fc.constantFrom('auto', 'one', 'two', 'three', 'four', 'apart'),
  seamSide: fc.constantFrom('top', 'right', 'bottom', 'left'),
  seamPlace: fc.constantFrom('flat', 'fold'),
  nearLip: fc.constantFrom(0, 20),
  farLip: fc.constantFrom(0, 18),
  lipSides: fc.constantFrom('all', 'all', 'left-right', 'top'),
  lipTo: fc.constantFrom('out', 'in'),
  lipHole: fc.constantFrom(undefined, 5),
  measure: fc.constantFrom('outside', 'inside'),
  thickness: fc.constantFrom(0.8, 1.5),
});
