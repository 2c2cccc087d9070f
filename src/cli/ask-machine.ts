import { HARDEST } from '../shop/machine.ts';
import * as fields from '../forms/fields.ts';
import { findMaterial } from '../data/materials.ts';
import {
  type Answer,
  MOST_OFFSET_DEG,
  offsetDeg,
  sheetOf,
  stopOffset,
  type TestFold,
} from '../use/shop/answers.ts';
import type { SaidFigure, SaidMachine } from '../use/shop/shop-with-answers.ts';
import type { Session } from './session.ts';
import { BAR, by, type Kind, KINDS, LEAF_EDGE, PLATE } from '../use/shop/shop-questions.ts';

/**
 * Asks for the figures of one machine, which stay in `said` as they come, so that those that were
 * given are kept when the questions are broken off.
 */
export async function askMachine(
  session: Session,
  kind: Kind,
  said: SaidMachine & { readonly figures: SaidFigure[] },
): Promise<void> {
  const { before, after } = KINDS[kind];
  const put = (figure: SaidFigure): void => void said.figures.push(figure);
  const askAll = async (questions: typeof PLATE): Promise<void> => {
    for (const question of questions) {
      const value = await session.ask(question);
      if (value !== undefined) put({ path: question.path, value });
    }
  };
  await askAll(PLATE);
  const hardest = await askHardest(session);
  if (hardest !== undefined) put({ path: ['hardestFold'], value: hardest });
  await askAll(before);
  const offset = await askTestFolds(session);
  if (offset !== undefined) put(offset);
  await askAll(after);
  if (kind !== 'brake') for (const figure of await askBar(session)) put(figure);
}

const material = (text: string): Answer<string> => {
  const found = findMaterial(text);
  return found.ok ? { ok: true, value: found.value.id } : { ok: false, why: found.reason };
};

async function askHardest(session: Session): Promise<object | undefined> {
  const { thickness, length } = HARDEST;
  const mm = await session.ask({
    ask: 'Thickest sheet that it has ever folded well, mm',
    help: 'The hardest fold you trust it with, not just any: it stands for the rating on the plate, be it more or less.',
    read: by(thickness),
  });
  if (mm === undefined) return undefined;
  const of = await session.ask({
    ask: 'Of which material, such as dc01',
    read: material,
    isNeeded: true,
  });
  const over = await session.ask({
    ask: 'Over which length of fold, mm (empty: its whole length)',
    read: by(length),
  });
  return { material: of, thickness: mm, ...(over !== undefined && { length: over }) };
}

const turned = by(fields.angle({ about: '', min: 1, max: 180 }));

async function askTestFolds(session: Session): Promise<SaidFigure | undefined> {
  const folds: TestFold[] = [];
  for (;;) {
    const setDeg = await session.ask({
      ask: `${folds.length === 0 ? 'Test fold' : 'Another test fold'}: stop or dial set to, degrees`,
      ...(folds.length === 0 && {
        help: 'Fold an offcut a hand wide, then lay the angle finder on the outside: degrees that it was turned from flat, 90 for square.',
      }),
      read: turned,
    });
    if (setDeg === undefined) break;
    const fold = await askTestFold(session, setDeg, folds.at(-1));
    if (fold !== undefined) folds.push(fold);
  }
  if (folds.length === 0) return undefined;
  const { deg, remark, doubt } = stopOffset(folds);
  if (doubt !== undefined) session.say(`${doubt}\n`);
  return { path: ['stopOffset'], value: deg, remark };
}

async function askTestFold(
  session: Session,
  setDeg: number,
  last: TestFold | undefined,
): Promise<TestFold | undefined> {
  const cameDeg = await session.ask({
    ask: 'It came out at, degrees',
    read: turned,
    isNeeded: true,
  });
  const same = last === undefined ? '' : `; empty: ${last.material} ${last.thickness} as before`;
  const sheet =
    (await session.ask({
      ask: `In which sheet: material and thickness, such as dc01 1.5${same}`,
      read: sheetOf,
      isNeeded: last === undefined,
    })) ?? last;
  if (cameDeg === undefined || sheet === undefined) return undefined;
  const fold = { setDeg, cameDeg, material: sheet.material, thickness: sheet.thickness };
  if (Math.abs(offsetDeg(fold)) <= MOST_OFFSET_DEG) return fold;
  session.say(
    `that is more than ${MOST_OFFSET_DEG} degrees apart, and was left out: allowed are degrees from flat for both, such as 92 and 90\n`,
  );
  return undefined;
}

async function askBar(session: Session): Promise<readonly SaidFigure[]> {
  const bar = await session.ask(BAR);
  if (bar === undefined) return [];
  if (bar !== 'none') return [{ path: ['leafBarFitted'], value: bar }];
  const mm = await session.ask(LEAF_EDGE);
  return mm === undefined
    ? []
    : [{ path: ['leafEdge'], value: { barFitted: mm, barRemoved: mm }, remark: 'it has no bar' }];
}
