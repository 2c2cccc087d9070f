import { DEFAULT_SHOP } from '../data/shop-default.ts';
import * as fields from '../forms/fields.ts';
import { section } from '../forms/sections.ts';
import type { Cutter, CutterProcess, Shop } from '../model/shop.ts';
import { LENGTH_AND_WIDTH, sheetThickness } from '../shop/cutter.ts';
import { type Answer, bedOf } from '../use/shop/answers.ts';
import { type CutterFigures, cutterOf } from '../use/shop/said-cutter.ts';
import type { SaidCutter } from '../use/shop/shop-with-answers.ts';
import type { Session } from './session.ts';
import { by, written } from '../use/shop/shop-questions.ts';

const PROCESSES: readonly CutterProcess[] = ['plasma', 'laser', 'waterjet'];

/**
 * Asks for cutters, which stay in `said` as they are complete; names that the file has are not taken
 * again.
 */
export async function askCutters(
  session: Session,
  shop: Shop | undefined,
  said: { readonly cutters: SaidCutter[] },
): Promise<void> {
  const taken = new Set(
    shop === undefined || shop.builtIn?.includes('cutters') === true
      ? []
      : shop.cutters.map(({ name }) => name.toLowerCase()),
  );
  for (;;) {
    const process = await session.ask({
      ask: `${said.cutters.length === 0 ? 'What do' : 'What else do'} you cut with: ${PROCESSES.join(', ')} (empty: ${said.cutters.length === 0 ? 'as it is' : 'no more'})`,
      help: 'A service that cuts for you counts too. The first that takes a sheet is the one that cuts it.',
      read: (text): Answer<CutterProcess> => {
        const value = PROCESSES.find((each) => each === text.toLowerCase());
        return value === undefined
          ? { ok: false, why: `allowed: ${PROCESSES.join(', ')}` }
          : { ok: true, value };
      },
    });
    if (process === undefined) return;
    said.cutters.push(await askCutter(session, process, taken));
  }
}

const thickness = by(sheetThickness(''));

/** Asks for a cutter. */
async function askCutter(
  session: Session,
  process: CutterProcess,
  taken: Set<string>,
): Promise<SaidCutter> {
  const known = DEFAULT_SHOP.cutters.find((cutter) => cutter.process === process);
  const name = await session.ask({
    ask: 'What it is called, such as plasma table',
    read: (text): Answer<string> =>
      taken.has(text.toLowerCase()) || text.length > 100
        ? { ok: false, why: 'allowed: a name of 100 letters at most that no other cutter has' }
        : { ok: true, value: text },
    isNeeded: true,
  });
  taken.add((name as string).toLowerCase());
  const figures = await askCutterFigures(session, known);
  return cutterOf(name as string, process, figures, known);
}

/** Where there is no cutter of the kind to assume figures from, all of them are needed. */
async function askCutterFigures(
  session: Session,
  known: Cutter | undefined,
): Promise<CutterFigures> {
  const isNeeded = known === undefined;
  const from = await session.ask({
    ask: 'Thinnest sheet that it cuts, mm',
    read: thickness,
    isNeeded,
  });
  const least = from ?? known?.thickness.from ?? 0;
  const to = await session.ask({
    ask: 'Thickest, mm',
    read: (text) => {
      const read = thickness(text);
      return !read.ok || read.value >= least
        ? read
        : { ok: false, why: `allowed: at least the ${least} of the thinnest` };
    },
    isNeeded: isNeeded || least > known.thickness.to,
  });
  const bed = await session.ask({
    ask: 'Its bed, length x width, mm',
    help: 'What the torch or head reaches, not the table.',
    read: written(bedOf, section('', LENGTH_AND_WIDTH)),
    isNeeded,
  });
  return { from, to, bed, kerf: await askKerf(session, isNeeded) };
}

async function askKerf(session: Session, isNeeded: boolean): Promise<CutterFigures['kerf']> {
  const kerf = await session.ask({
    ask: 'Width of its cut (kerf), mm',
    help: 'Cut a square of 50 from an offcut: the hole less the piece, calliper, and half of it.',
    read: by(fields.length({ about: '', min: 0.01, max: 10 })),
    isNeeded,
  });
  if (kerf === undefined) return undefined;
  const inMm = await session.ask({
    ask: 'In sheet of which thickness, mm',
    read: thickness,
    isNeeded: true,
  });
  return { kerf, thickness: inMm as number };
}
