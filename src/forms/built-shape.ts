import { BEND_RULE_IDS } from '../bending/rule.ts';
import { formed } from './formed-shape.ts';
import {
  byKind,
  either,
  fixed,
  list,
  name,
  number,
  object,
  oneOf,
  optional,
  pair,
  type Shape,
  text,
} from './shape.ts';

const vertex = object(
  { x: number, y: number, bulge: optional(number), edge: optional(text) },
  'a point { x, y }, with bulge where an arc begins',
);

const loop = list(vertex, 'points { x, y }, with bulge where an arc begins');

const use = object(
  {
    screw: optional(text),
    meets: optional(text),
    thread: optional(
      object(
        { kind: oneOf('tapped', 'rivet nut'), pitchMm: optional(number) },
        "a thread { kind: 'tapped', pitchMm } or { kind: 'rivet nut' }",
      ),
    ),
    countersink: optional(
      object(
        { diameterMm: number, face: oneOf('up', 'down') },
        'a countersink { diameterMm, face }',
      ),
    ),
    tube: optional(
      object(
        {
          diameterMm: number,
          leanDeg: number,
          clearMm: optional(number),
          grommetMm: optional(number),
        },
        'a tube that passes through { diameterMm, leanDeg }',
      ),
    ),
  },
  'what a hole is for { screw, meets, thread, countersink, tube }',
);

const hole = {
  from: optional(text),
  inputs: optional(list(text, 'names of inputs')),
  number: optional(text),
  use: optional(use),
  takes: optional(text),
  otherWay: optional(pair),
};

const cutout = byKind(
  {
    round: object({ centre: pair, diameterMm: number, ...hole }, ''),
    loop: object({ loop, ...hole }, ''),
  },
  "a hole { kind: 'round', centre, diameterMm } or a cut-out { kind: 'loop', loop }",
);

const panel = object(
  {
    id: name('a name, such as leg A'),
    outline: loop,
    cutouts: optional(list(cutout, 'holes and cut-outs')),
    formed: optional(list(formed, 'louvres and beads')),
  },
  'a panel { id, outline }',
);

const side = object(
  {
    panel: text,
    edge: either(number, text, "the name of an edge, such as 'top', or its number"),
    called: optional(text),
    from: optional(number),
    to: optional(number),
  },
  'a side { panel, edge }',
);

const rule = object({ id: oneOf(...BEND_RULE_IDS) }, "a bend rule, such as { id: 'k', k: 0.42 }");

const fold = object(
  {
    id: name('a name, such as A'),
    parent: side,
    child: side,
    angleDeg: number,
    direction: oneOf('up', 'down'),
    insideRadiusMm: optional(number),
    teardropMm: optional(number),
    rule: optional(rule),
    slots: optional(
      object(
        { longestMm: number, landMm: number, widthMm: number },
        'slots { longestMm, landMm, widthMm }',
      ),
    ),
  },
  'a fold { id, parent, child, angleDeg, direction }',
);

const corner = object(
  {
    folds: fixed(text, 2, 'two folds'),
    style: oneOf('open', 'butt'),
    through: optional(text),
    gapMm: optional(number),
  },
  "a corner { folds: ['A', 'B'], style }",
);

const facing = oneOf('left', 'right', 'up', 'down');

const feature = byKind(
  {
    edge: object({ panel: text, facing }, ''),
    face: object({ panel: text, face: oneOf('lower', 'upper') }, ''),
    fold: object({ panel: text, fold: text, measure: oneOf('outside', 'inside') }, ''),
    hole: object({ panel: text, from: text }, ''),
  },
  'what a length is measured from, made by edge, faceOf or cornerOf',
);

const triple = fixed(number, 3, 'three numbers');

const wish = byKind(
  {
    length: object(
      {
        input: text,
        mm: number,
        between: fixed(feature, 2, 'two things that it is measured between'),
      },
      '',
    ),
    diameter: object({ input: text, mm: number, panel: text }, ''),
    angle: object({ input: text, deg: number, panels: fixed(text, 2, 'two panels') }, ''),
    rolled: object(
      {
        input: text,
        mm: number,
        panel: text,
        frame: object({ at: pair, round: pair, axis: pair }, 'a frame { at, round, axis }'),
        shape: object({ kind: oneOf('cylinder', 'cone'), radiusMm: number }, 'a rolled shape'),
        from: pair,
        to: pair,
        plane: optional(object({ at: triple, normal: triple }, 'a plane { at, normal }')),
      },
      '',
    ),
  },
  'what an input means, made by wish, diameterWish, angleWish or rolledWish',
);

const line = { from: pair, to: pair };

const rolled = object(
  {
    panel: text,
    direction: oneOf('up', 'down'),
    lines: list(object({ ...line, turnDeg: number }, 'a line { from, to, turnDeg }'), 'lines'),
    marks: list(object({ ...line, called: text }, 'a mark { from, to, called }'), 'marks'),
    sizes: object(
      {
        insideRadiusMm: fixed(number, 2, 'two radii'),
        angleDeg: number,
        aroundMm: fixed(number, 2, 'two lengths'),
      },
      'sizes { insideRadiusMm, angleDeg, aroundMm }',
    ),
  },
  'how a panel is rolled { panel, direction, lines, marks, sizes }',
);

const part = object(
  {
    name: optional(name('a name')),
    thicknessMm: optional(number),
    measure: optional(oneOf('outside', 'inside')),
    root: optional(text),
    panels: list(panel, 'panels { id, outline }'),
    folds: optional(list(fold, 'folds { id, parent, child, angleDeg, direction }')),
    corners: optional(list(corner, 'corners')),
    relief: optional(
      object(
        { shape: oneOf('square', 'round', 'slit'), widthMm: number, leastSlotMm: number },
        'a relief { shape, widthMm, leastSlotMm }',
      ),
    ),
    cornerGapMm: optional(number),
    wishes: optional(list(wish, 'wishes')),
    rolled: optional(rolled),
  },
  'a part { panels, folds }',
);

const standing = object(
  {
    poses: list(
      object({ o: triple, x: triple, y: triple, z: triple }, 'a pose { o, x, y, z }'),
      'poses { o, x, y, z }, one for each of its quantity',
    ),
    turn: optional(number),
    weldedTo: optional(list(text, 'ids of pieces')),
    rolledOver: optional(number),
    flatsDeg: optional(list(number, 'how far round each flat goes')),
  },
  'where it stands { poses }',
);

const finding = object(
  {
    rule: name('the name of a rule'),
    severity: oneOf('stop', 'warn', 'note'),
    message: name('a sentence'),
  },
  'a finding, made by stop, warn or note',
);

const figures = list(
  object({ name: text, value: number, unit: text }, 'a figure { name, value, unit }'),
  'figures { name, value, unit }',
);

const table = object(
  {
    title: text,
    columns: list(
      object({ name: text, unit: text }, 'a column { name, unit }'),
      'columns { name, unit }',
    ),
    rows: list(list(number, 'numbers'), 'rows'),
  },
  'a table { title, columns, rows }',
);

/** What a template's `build` has to return, in the words of messages. */
export const PROMISED = '{ part }, { pieces }, { tubes } or { findings }, and no promise of it';

/** The same, field by field. */
export const BUILT: Shape = object(
  {
    part: optional(part),
    pieces: optional(
      list(
        object(
          { id: text, part, quantity: optional(number), standing: optional(standing) },
          'a piece { id, part }',
        ),
        'pieces { id, part }',
      ),
    ),
    tubes: optional(
      list(
        object(
          {
            id: optional(text),
            quantity: optional(number),
            tube: object({ kind: oneOf('bent', 'coped') }, 'a tube, made by bentTube or copedPart'),
          },
          'a tube { tube }',
        ),
        'tubes { tube }',
      ),
    ),
    weldAt: optional(list(text, 'names of folds')),
    findings: optional(list(finding, 'findings')),
    report: optional(
      object({ figures, tables: optional(list(table, 'tables')) }, 'a report { figures, tables }'),
    ),
  },
  PROMISED,
);
