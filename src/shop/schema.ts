import { MATERIALS } from '../data/materials.ts';
import { DEFAULT_SHOP } from '../data/shop-default.ts';
import type { Reader, ValueOf } from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import {
  checked,
  type Disagree,
  list,
  made,
  optional,
  section,
  unless,
} from '../forms/sections.ts';
import { DEFAULT_HANDOVER, PATTERN_ALLOWED, patternMend } from '../model/handover.ts';
import { DRILLED_MARKS, FOLD_MARKS, type Shop, SHOP_PARTS, type ShopPart } from '../model/shop.ts';
import { bender, tubeStock } from './bender.ts';
import { cutter, sheetThickness } from './cutter.ts';
import { folder } from './folder.ts';
import { orBuiltIn } from './machine.ts';
import { pressBrake } from './press-brake.ts';
import { rolls } from './rolls.ts';
import { remnants, sheet } from './stock.ts';

/** The machines of a kind that the built-in shop has, as a file names them. */
const idsOf = (kind: 'folder' | 'press brake'): string[] =>
  DEFAULT_SHOP.machines.flatMap((m) => (m.kind === kind ? [m.id] : []));

const marking = section('How what is not cut comes onto the metal.', {
  folds: fields.choice({
    about: 'How fold lines come onto it: lines, nicks in the edge at their ends, or none.',
    choices: FOLD_MARKS,
    default: 'lines',
  }),
  face: fields.choice({
    about: 'The face that is marked, as the part is folded.',
    choices: ['inside', 'outside'],
    default: 'inside',
  }),
  drilled: fields.choice({
    about: 'How the middles of holes to be drilled come onto it: marked crosses, or pierces.',
    choices: DRILLED_MARKS,
    default: 'crosses',
  }),
});

const handover = checked(
  section('How cut files are handed over to a cutting service.', {
    names: fields.text({
      about: 'Pattern of the names of the cut files, without extension.',
      max: 100,
      default: DEFAULT_HANDOVER.names,
    }),
    perSheet: fields.flag({
      about: 'One archive for each material and thickness, or one for all.',
      default: DEFAULT_HANDOVER.perSheet,
    }),
    tolerance: fields.choice({
      about: 'The class of ISO 2768-1 that is asked for.',
      choices: ['f', 'm', 'c', 'v'],
      default: DEFAULT_HANDOVER.tolerance,
    }),
    protect: fields.choice({
      about: 'The face that must not be scratched, as the finished part has it.',
      choices: ['inside', 'outside', 'none'],
      default: DEFAULT_HANDOVER.protect,
    }),
  }),
  ({ names }, disagree) => {
    const mend = patternMend(names);
    if (mend !== undefined) disagree(['names'], PATTERN_ALLOWED, mend);
  },
);

const turned = (about: string) => fields.angle({ about, min: 0.5, max: 180 });
const radius = (about: string) => fields.length({ about, min: 0, max: 1000 });
const numberOf = (what: string, about: string, min: number, max: number) =>
  fields.number({ about, what, min, max });
const strips = numberOf(
  'a number of strips',
  'Number of strips that the figures rest on.',
  1,
  1000,
);

/** Bends as `calibrate` writes them. */
const bend = section('Measured bends of one sheet, folded with one tool.', {
  material: fields.choice({ about: 'The sheet.', choices: MATERIALS.map((m) => m.id) }),
  machine: fields.text({ about: 'The machine.', max: 100 }),
  tool: fields.text({ about: 'Its tool.', max: 100 }),
  noseRadius: optional(radius("Radius of the tool's nose.")),
  hem: optional(
    fields.choice({
      about: 'The form of the hems, where they are hems.',
      choices: ['closed', 'open', 'teardrop'],
    }),
  ),
  thickness: sheetThickness('Thickness of the sheet.'),
  radius: radius('Inside radius of the bends.'),
  k: numberOf('a K factor', 'Their K factor.', 0, 1),
  kError: numberOf('a standard error', 'Standard error of the K factor.', 0, 1),
  radiusError: radius('Standard error of the radius.'),
  correlation: optional(
    numberOf('a correlation', 'Correlation of the errors of K and radius.', -1, 1),
  ),
  spread: optional(
    fields.length({
      about: 'Scatter of the deduction from one bend to the next, one standard deviation.',
      min: 0,
      max: 100,
    }),
  ),
  springback: optional(
    numberOf('a share', 'Ratio of the bend angle that stayed to the angle at the stop.', 0.1, 1.1),
  ),
  strips,
  angles: section('The angles that were measured.', {
    from: turned('The smallest.'),
    to: turned('The largest.'),
  }),
  deductions: optional(
    list(
      'Measured deductions of the strips, by bend angle.',
      section('The deduction at one angle.', {
        angle: turned('The angle.'),
        deduction: numberOf('a deduction in mm', 'Legs less flat length, mm.', -1000, 1000),
        strips,
      }),
      { what: 'deductions, each with angle, deduction and strips', min: 0, max: 100 },
    ),
  ),
});

/** A part of the file; where it is left out, it is that of the built-in shop, as a file has it. */
const orBuiltInPart = <T>(reader: Reader<T>, part: ShopPart): Reader<T> =>
  unless(reader, BUILT_IN[part]);

const BUILT_IN: Readonly<Record<ShopPart, unknown>> = {
  ...DEFAULT_SHOP,
  // A file that gives anything is no longer the assumed shop that the built-in one is called.
  name: 'the shop',
  folders: idsOf('folder'),
  pressBrakes: idsOf('press brake'),
};

const file = section('A shop. What is left out is as in the built-in one.', {
  name: orBuiltInPart(fields.text({ about: 'What the shop is called.', max: 100 }), 'name'),
  folders: orBuiltInPart(
    list(
      'Its folders, in the order of preference; none when the list is empty.',
      orBuiltIn(folder, 'folder'),
      { what: 'folders', min: 0, max: 20 },
    ),
    'folders',
  ),
  pressBrakes: orBuiltInPart(
    list('Its press brakes, in the order of preference.', orBuiltIn(pressBrake, 'press brake'), {
      what: 'press brakes',
      min: 0,
      max: 20,
    }),
    'pressBrakes',
  ),
  cutters: orBuiltInPart(
    list('Its cutters: a sheet is cut by the first one that takes it.', cutter, {
      what: 'cutters',
      min: 1,
      max: 20,
    }),
    'cutters',
  ),
  sheets: orBuiltInPart(
    list('Its sheets; there is no limit when the list is empty.', sheet, {
      what: 'sheet sizes',
      min: 0,
      max: 200,
    }),
    'sheets',
  ),
  remnants: orBuiltInPart(remnants, 'remnants'),
  marking: orBuiltInPart(marking, 'marking'),
  handover: orBuiltInPart(handover, 'handover'),
  weldGap: orBuiltInPart(
    fields.length({
      about: 'Gap between the ends of neighbouring flanges, to be welded.',
      min: 0,
      max: 20,
    }),
    'weldGap',
  ),
  bends: orBuiltInPart(
    list('Its own measured bends.', bend, {
      what: 'measured bends',
      min: 0,
      max: 1000,
    }),
    'bends',
  ),
  benders: optional(
    list('Its tube benders, in the order of preference.', bender, {
      what: 'tube benders',
      min: 0,
      max: 20,
    }),
  ),
  tubeStock: optional(tubeStock),
  rolls: optional(rolls),
});

/** The same file with the names of the parts that it leaves out. */
const withLeftOut: Reader<ValueOf<typeof file> & { readonly builtIn: readonly ShopPart[] }> = {
  json: file.json,
  read: (given) => {
    const read = file.read(given);
    if (!read.ok) return read;
    const own = Object.keys(given as object);
    return {
      ok: true,
      value: { ...read.value, builtIn: SHOP_PARTS.filter((part) => !own.includes(part)) },
    };
  },
};

/** Schema of the whole file. */
export const shopSchema: Reader<Omit<Shop, 'isAssumed'>> = made(
  checked(
    withLeftOut,
    (
      { folders, pressBrakes, cutters, sheets, remnants: kept, benders = [], rolls: round = [] },
      disagree,
    ) => {
      unlike(
        [
          ...folders.map(({ id }, i) => ({ id, path: ['folders', i, 'id'] })),
          ...pressBrakes.map(({ id }, i) => ({ id, path: ['pressBrakes', i, 'id'] })),
        ],
        disagree,
      );
      unlike(
        cutters.map((c, i) => ({ id: c.name.toLowerCase(), path: ['cutters', i, 'name'] })),
        disagree,
      );
      // No two pieces of metal have one name: a layout says by it which one to fetch.
      unlike([...namedOf('sheets', sheets), ...namedOf('remnants', kept)], disagree);
      unlike(
        benders.map((b, i) => ({ id: b.name.toLowerCase(), path: ['benders', i, 'name'] })),
        disagree,
      );
      unlike(
        round.map((r, i) => ({ id: r.name.toLowerCase(), path: ['rolls', i, 'name'] })),
        disagree,
      );
    },
  ),
  ({ folders, pressBrakes, ...rest }) => ({ ...rest, machines: [...folders, ...pressBrakes] }),
);

const namedOf = (
  part: 'sheets' | 'remnants',
  all: readonly { readonly name?: string | undefined }[],
): { readonly id: string; readonly path: (string | number)[] }[] =>
  all.flatMap(({ name }, i) =>
    name === undefined ? [] : [{ id: name.toLowerCase(), path: [part, i, 'name'] }],
  );

const unlike = (
  named: readonly { readonly id: string; readonly path: (string | number)[] }[],
  disagree: Disagree,
): void => {
  for (const [i, { id, path }] of named.entries())
    if (named.findIndex((other) => other.id === id) < i)
      disagree(path, 'a name no other of them has', 'call one of the two by another name');
};
