import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../../data/shop-default.ts';
import type { Machine } from '../../model/machine.ts';
import type { Shop } from '../../model/shop.ts';
import { machineView } from '../../paper/draw/machine-view.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { readShop } from '../../shop/read.ts';
import { shopEntries } from '../../shop/write.ts';
import { calibrateStrips } from '../../use/calibrate/calibrate-strips.ts';
import { shopWithBends } from '../../use/calibrate/shop-with-bends.ts';
import { bedOf } from '../../use/shop/answers.ts';
import { cutterOf } from '../../use/shop/said-cutter.ts';
import {
  type AskedFigure,
  type Kind,
  kindOf,
  KINDS,
  PLATE,
  SHEETS,
} from '../../use/shop/shop-questions.ts';
import {
  type SaidCutter,
  type SaidMachine,
  shopWithAnswers,
} from '../../use/shop/shop-with-answers.ts';
import { jobValue } from '../model/job-text.ts';
import { problemWords } from './problem-words.ts';
import { shopTables, withoutRow, withRow } from './shop-tables.ts';
import type {
  BegunCutter,
  BegunMachine,
  FigureAnswer,
  MachineAnswer,
  ShopAnswer,
  ShopChange,
  ShopChanged,
  StripsAnswer,
} from './shop-questions.ts';
import { MACHINE } from './screen-sizes.ts';

/** The shop as its file has it, with what it leaves out from the built-in one. */
export const shopAnswer = (text: string | null, shop: Shop): ShopAnswer => {
  const file = (text === null ? {} : (jobValue(text) ?? {})) as Record<string, unknown>;
  const { entries } = shopEntries(shop, DEFAULT_SHOP_SOURCES);
  const isOwn = (part: string): boolean => file[part] !== undefined && file[part] !== null;
  return {
    machines: (['folders', 'pressBrakes'] as const).flatMap((list) => {
      const machines = shop.machines.filter(
        ({ kind }) => (kind === 'folder') === (list === 'folders'),
      );
      const assumed = entries[list] as readonly unknown[];
      const written = Array.isArray(file[list]) ? (file[list] as readonly unknown[]) : [];
      return machines.map((machine, i) =>
        machineAnswer(machine, list, isOwn(list) ? i : null, written[i], assumed[i]),
      );
    }),
    tables: shopTables(file, entries),
    marking: shop.marking,
    bends: shop.bends.map((b) => ({
      name: `${b.material}, ${b.thickness} mm, ${b.machine}, ${b.tool}`,
      radius: b.radius,
      k: b.k,
      kError: b.kError,
      strips: b.strips,
    })),
  };
};

const machineAnswer = (
  machine: Machine,
  list: 'folders' | 'pressBrakes',
  index: number | null,
  written: unknown,
  used: unknown,
): MachineAnswer => {
  const kind = kindOf(machine);
  return {
    id: machine.id,
    name: machine.name,
    list,
    index,
    called: KINDS[kind].called,
    picture: pictureSvg(machineView(machine, MACHINE), `machine-${machine.id}`),
    figures: figuresOf(kind).map(({ path, ask, help }): FigureAnswer => ({
      path,
      ask,
      help,
      given: asTyped(at(written, path)),
      used: asTyped(at(used, path)),
    })),
  };
};

const figuresOf = (kind: Kind): readonly AskedFigure[] => [
  ...PLATE,
  ...KINDS[kind].before,
  ...KINDS[kind].after,
];

const at = (value: unknown, path: readonly string[]): unknown =>
  path.reduce<unknown>(
    (inner, name) =>
      typeof inner === 'object' && inner !== null
        ? (inner as Record<string, unknown>)[name]
        : undefined,
    value,
  );

const asTyped = (value: unknown): string =>
  Array.isArray(value)
    ? value.map(String).join(', ')
    : typeof value === 'number' || typeof value === 'string'
      ? String(value)
      : '';

/** The text of the shop file with one thing changed, or why it cannot be. */
export const shopChanged = (text: string | null, change: ShopChange): ShopChanged => {
  switch (change.kind) {
    case 'begin':
      return begun(text, change);
    case 'figure':
      return withFigure(text, change);
    case 'row':
      return withRow(text, readOf(text), change);
    case 'row out':
      return withoutRow(text, readOf(text), change);
    case 'strips':
      return withStrips(text, change.csv);
  }
};

const withFigure = (
  text: string | null,
  { list, index, path, answer }: ShopChange & { readonly kind: 'figure' },
): ShopChanged => {
  const shop = readOf(text);
  const machines = shop.machines.filter(({ kind }) => (kind === 'folder') === (list === 'folders'));
  const machine = machines[index];
  const asked =
    machine && figuresOf(kindOf(machine)).find((f) => f.path.join('.') === path.join('.'));
  if (machine === undefined || asked === undefined)
    return { ok: false, why: 'the shop has no such machine' };
  const read = asked.read(answer);
  if (!read.ok) return read;
  const figures = [{ path, value: read.value }];
  const said = { list, index, like: machine.id, figures };
  return checked(
    shopWithAnswers(text ?? undefined, { machines: [said], cutters: [], sheets: undefined }),
  );
};

/** A shop from the four questions that a person is asked first. */
const begun = (
  text: string | null,
  { machines, cutters, sheets }: ShopChange & { readonly kind: 'begin' },
): ShopChanged => {
  const saidMachines = machines.map((one, i) => saidMachine(one, i));
  const wrong = saidMachines.find((one) => 'why' in one);
  if (wrong !== undefined && 'why' in wrong) return { ok: false, why: wrong.why };
  const saidCutters = cutters.map(saidCutter);
  const wrongCutter = saidCutters.find((one) => 'why' in one);
  if (wrongCutter !== undefined && 'why' in wrongCutter) return { ok: false, why: wrongCutter.why };
  const rack = sheets.trim() === '' ? undefined : SHEETS.read(sheets);
  if (rack?.ok === false) return { ok: false, why: `sheets: ${rack.why}` };
  return checked(
    shopWithAnswers(text ?? undefined, {
      machines: saidMachines as readonly SaidMachine[],
      cutters: saidCutters as readonly SaidCutter[],
      sheets: rack?.value,
    }),
  );
};

const saidMachine = (
  { kind, name, length, thickest }: BegunMachine,
  i: number,
): SaidMachine | { readonly why: string } => {
  const { list, like, called } = KINDS[kind];
  const typed = [length, thickest].map((answer, k) => {
    const question = PLATE[k] as AskedFigure;
    return answer.trim() === '' ? undefined : { question, read: question.read(answer) };
  });
  const bad = typed.find((one) => one?.read.ok === false);
  if (bad !== undefined && !bad.read.ok) return { why: `${bad.question.ask}: ${bad.read.why}` };
  const title = name.trim() === '' ? called : name.trim();
  return {
    list,
    like,
    index: undefined,
    figures: [
      { path: ['id'], value: `${idOf(title)}-${i + 1}` },
      { path: ['name'], value: title },
      ...typed.flatMap((one) =>
        one?.read.ok === true ? [{ path: one.question.path, value: one.read.value }] : [],
      ),
    ],
  };
};

/** Small letters, digits and hyphens, as ids are written. */
const idOf = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z\d]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 30) || 'machine';

const saidCutter = ({
  process,
  name,
  thickest,
  bed,
}: BegunCutter): SaidCutter | { readonly why: string } => {
  const known = DEFAULT_SHOP.cutters.find((cutter) => cutter.process === process);
  const to = thickest.trim() === '' ? undefined : Number(thickest);
  if (to !== undefined && !(to > 0)) return { why: `${thickest}: allowed: a thickness in mm` };
  const readBed = bed.trim() === '' ? undefined : bedOf(bed);
  if (readBed?.ok === false) return { why: `bed: ${readBed.why}` };
  if (known === undefined && (to === undefined || readBed === undefined))
    return { why: `${process}: its thickest sheet and its bed have to be given` };
  const title = name.trim() === '' ? process : name.trim();
  return cutterOf(
    title,
    process,
    {
      to,
      bed: readBed?.value,
      ...(known === undefined && {
        from: LEAST_SHEET_MM,
        kerf: { kerf: USUAL_KERF_MM, thickness: to ?? LEAST_SHEET_MM },
      }),
    },
    known,
  );
};

/** Of a cutter of a kind that the built-in shop has none of: common practice, to be measured. */
const LEAST_SHEET_MM = 0.5;
const USUAL_KERF_MM = 0.8;

const withStrips = (text: string | null, csv: string): ShopChanged => {
  const done = calibrateStrips(csv, 'csv');
  if (!done.ok) return { ok: false, why: done.problems.map(problemWords).join('; ') };
  if (done.measured.length === 0)
    return { ok: false, why: done.findings.map(({ message }) => message).join(' ') };
  const known = text === null ? undefined : { text, shop: readOf(text) };
  return checked(shopWithBends(known, done.measured));
};

/** What strips tell of bends so far. */
export const stripsAnswer = (csv: string): StripsAnswer => {
  const done = calibrateStrips(csv, 'csv');
  if (!done.ok) return { problems: done.problems, lines: [], findings: [], isEnough: false };
  return {
    problems: [],
    lines: done.result.bends.flatMap(({ fit, material, thicknessMm }) =>
      fit === null || fit === undefined
        ? []
        : [
            `${material} ${thicknessMm} mm: K ${fit.kFactor.value.toFixed(3)} ±${fit.kFactor.within95.toFixed(3)}, inside radius ${fit.insideRadiusMm.value.toFixed(2)} ±${fit.insideRadiusMm.within95.toFixed(2)} mm, from ${fit.used} strips`,
          ],
    ),
    findings: done.findings,
    isEnough: done.measured.length > 0,
  };
};

const readOf = (text: string | null): Shop => {
  const read = text === null ? undefined : readShop(text);
  return read?.ok === true ? read.shop : DEFAULT_SHOP;
};

/** Only a text that reads as a shop takes the place of another. */
const checked = (text: string): ShopChanged => {
  const read = readShop(text);
  return read.ok
    ? { ok: true, text }
    : { ok: false, why: read.problems.map(problemWords).join('; ') };
};
