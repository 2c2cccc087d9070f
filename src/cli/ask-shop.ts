import * as fields from '../forms/fields.ts';
import type { Shop } from '../model/shop.ts';
import { ANY_MACHINE } from '../shop/machine.ts';
import type { Answer } from '../use/shop/answers.ts';
import { changedLines } from '../use/shop/changed-lines.ts';
import {
  type SaidCutter,
  type SaidFigure,
  type SaidMachine,
  type SaidShop,
  shopWithAnswers,
} from '../use/shop/shop-with-answers.ts';
import { askCutters } from './ask-cutter.ts';
import { askMachine } from './ask-machine.ts';
import type { Dialogue } from './dialogue.ts';
import { Over, type Session, sessionOf } from './session.ts';
import { by, type Kind, kindOf, KINDS, SHEETS } from '../use/shop/shop-questions.ts';

/** A shop file that is there, and its path. */
export interface FileToAskFor {
  readonly path: string;
  /** Its text and what was read from it; `undefined` where it is to be made. */
  readonly known: { readonly text: string; readonly shop: Shop } | undefined;
}

/**
 * Asks for a shop, machine by machine, shows what would change in its file, and asks whether to
 * write it. Returns the new text; `undefined` where nothing is to be written: nothing was answered,
 * it was declined, or the answers ended on the way.
 */
export async function askShop(
  { path, known }: FileToAskFor,
  dialogue: Dialogue,
): Promise<string | undefined> {
  const session = sessionOf(dialogue);
  session.say(opening(path, known !== undefined));
  const said: Said = { machines: [], cutters: [], sheets: undefined };
  try {
    await askAll(session, known?.shop, said);
  } catch (error) {
    if (!(error instanceof Over)) throw error;
    if (!error.isKept) return nothing(session);
  }
  const text = shopWithAnswers(known?.text, said);
  if (said.machines.length + said.cutters.length === 0 && said.sheets === undefined) {
    session.say('Nothing was answered, and nothing is written.\n');
    return undefined;
  }
  session.say(`\n${changedLines(known?.text ?? '', text).join('\n')}\n\n`);
  try {
    const isWanted = await session.ask({
      ask: `Write this to ${path}: yes or no (empty: yes)`,
      read: by(fields.flag({ about: '' })),
    });
    if (isWanted !== false) return text;
  } catch (error) {
    if (!(error instanceof Over)) throw error;
    if (error.isKept) return text;
  }
  return nothing(session);
}

type Said = { -readonly [K in keyof SaidShop]: SaidShop[K] } & {
  readonly machines: SaidMachine[];
  readonly cutters: SaidCutter[];
};

const nothing = (session: Session): undefined => {
  session.say('\nNothing was written.\n');
};

const opening = (path: string, isThere: boolean): string =>
  [
    `The shop, ${isThere ? 'to be changed' : 'to be written'} in ${path}: only what you answer. Lengths in mm, or as 2in.`,
    'Enter leaves a figure as it is, or assumed as in the built-in shop. done ends the questions and keeps',
    'what was answered; Ctrl-C writes nothing. Before anything is written you see what changes.',
    '',
    '',
  ].join('\n');

async function askAll(session: Session, shop: Shop | undefined, said: Said): Promise<void> {
  await askMachines(session, shop, said);
  await askCutters(session, shop, said);
  const sheets = await session.ask(SHEETS);
  if (sheets !== undefined) said.sheets = sheets;
}

/** The machines that the file has itself, each with its list and place there. */
const ownMachines = (shop: Shop | undefined) =>
  (['folders', 'pressBrakes'] as const).flatMap((list) =>
    shop === undefined || shop.builtIn?.includes(list) === true
      ? []
      : shop.machines
          .filter(({ kind }) => (kind === 'folder') === (list === 'folders'))
          .map((machine, index) => ({ list, index, machine })),
  );

async function askMachines(session: Session, shop: Shop | undefined, said: Said): Promise<void> {
  const own = ownMachines(shop);
  if (own.length > 0)
    session.say(
      `Machines in the file:\n${own.map(({ machine }, i) => `  ${i + 1}  ${machine.id}, ${machine.name}\n`).join('')}`,
    );
  const taken = new Set((own.length > 0 ? own : []).map(({ machine }) => machine.id));
  for (;;) {
    const chosen = await session.ask(whichMachine(own.length, said.machines.length > 0));
    if (chosen === undefined) return;
    const known = typeof chosen === 'number' ? own[chosen - 1] : undefined;
    const kind = typeof chosen === 'number' ? kindOf((known as (typeof own)[0]).machine) : chosen;
    const { list, like } = KINDS[kind];
    const figures: SaidFigure[] = [];
    if (known === undefined) figures.push(...(await askNames(session, kind, taken)));
    const machine = { list, like, index: known?.index, figures };
    said.machines.push(machine);
    await askMachine(session, kind, machine);
  }
}

const whichMachine = (known: number, isMore: boolean) => ({
  ask: `${isMore ? 'What else do' : 'What do'} you fold on: ${Object.keys(KINDS).join(', ')}${known === 0 ? '' : ', or a number to measure that one again'} (empty: ${isMore ? 'no more' : 'as it is'})`,
  help: 'fingers: box-and-pan, its clamp in fingers; straight: its clamp in one piece; brake: a punch over a V.',
  read: (text: string): Answer<Kind | number> => {
    const kind = text.toLowerCase();
    if (Object.hasOwn(KINDS, kind)) return { ok: true, value: kind as Kind };
    const number = Number(text);
    return Number.isInteger(number) && number >= 1 && number <= known
      ? { ok: true, value: number }
      : {
          ok: false,
          why: `allowed: ${Object.keys(KINDS).join(', ')}${known === 0 ? '' : `, or a number from 1 to ${known}`}`,
        };
  },
});

/** Asks what a new machine is called; names of the file that are taken are not taken again. */
async function askNames(
  session: Session,
  kind: Kind,
  taken: Set<string>,
): Promise<readonly SaidFigure[]> {
  const free = [kind, ...Array.from({ length: taken.size + 1 }, (_, i) => `${kind}-${i + 2}`)].find(
    (id) => !taken.has(id),
  ) as string;
  const read = by(ANY_MACHINE.id);
  const asked = await session.ask({
    ask: `A short name for it (empty: ${free})`,
    help: 'Small letters, digits, dots and hyphens; plan --machine takes it.',
    read: (text) =>
      taken.has(text)
        ? { ok: false, why: `allowed: a name other than ${text}, which is taken` }
        : read(text),
  });
  const id = asked ?? free;
  taken.add(id);
  return [
    { path: ['id'], value: id },
    { path: ['name'], value: `${KINDS[kind].called} ${id}` },
  ];
}
