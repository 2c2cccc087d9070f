import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { TakenBack, TakenStock } from '../../contract/stock.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import type { PartOutlines } from '../../stock/left.ts';
import type { KeepOptions } from '../../stock/remnants.ts';
import { recordName } from '../../use/stock/record.ts';
import { takeBack } from '../../use/stock/take-back.ts';
import { takeStock } from '../../use/stock/take-stock.ts';
import type { UseCase } from '../../use/use-case.ts';
import { removeLeftBehind } from '../disk.ts';
import { WrongInput } from '../failure.ts';
import { LOCK_NAME, withLock } from '../job/lock.ts';
import { LARGEST_BYTES, readTextFile } from '../read-text-file.ts';
import { saveAll } from '../save.ts';
import { readShopText } from '../shop-file.ts';
import { readDrawings } from './read-stock.ts';

/** A layout that is to be booked. */
export interface LaidToTake {
  /** The shop file that it was laid out with; `undefined` for the built-in shop. */
  readonly shopFile: string | undefined;
  readonly sheets: readonly LaidSheet[];
  readonly outlines: PartOutlines;
  readonly keep?: KeepOptions | undefined;
  /** The same parts are cut once more. */
  readonly again?: boolean | undefined;
}

/**
 * Books a layout in its shop file and in the record beside it. Both are written in full beside
 * their places first; whoever is killed between the two renames leaves a record of what never came
 * into the shop file, which the next booking passes over. One run at a time books in a folder.
 * Throws `WrongInput` for what cannot be booked and `DiskRefused` where the disk fails; in both
 * cases nothing has changed.
 */
export const takeLaid = ({ shopFile, ...laid }: LaidToTake): Promise<TakenStock> =>
  booked(shopFile, async (path) => {
    const { text, shop } = await readShopText(path);
    return takeStock({
      shopFile: basename(path),
      shopText: text,
      recordText: await recordOf(path),
      drawings: readDrawings(path, shop),
      ...laid,
    });
  });

/** Takes the last booking in a shop file back, as `takeLaid` books one. */
export const takeBackLaid = (shopFile: string | undefined): Promise<TakenBack> =>
  booked(shopFile, async (path) =>
    takeBack({
      shopFile: basename(path),
      shopText: await textOf(path),
      recordText: await recordOf(path),
    }),
  );

/** Books under the folder's lock, and writes what that gives. */
const booked = async <T extends { readonly shop: string; readonly record: string }>(
  shopFile: string | undefined,
  book: (path: string) => Promise<UseCase<T>>,
): Promise<T> => {
  const path = bookedIn(shopFile);
  const folder = dirname(path);
  return withLock(folder, async (assertHeld) => {
    const own = [basename(path), recordName(basename(path)), LOCK_NAME];
    removeLeftBehind(folder, (name) => own.includes(name));
    const done = await book(path);
    if (!done.ok) throw new WrongInput(done.problems);
    assertReadable(done.files, path);
    assertHeld();
    // The shop file is the user's own and meant to be written.
    saveAll(folder, done.files, true);
    return { ...done.result, shop: path, record: join(folder, done.result.record) };
  });
};

const bookedIn = (shopFile: string | undefined): string => {
  if (shopFile !== undefined && existsSync(shopFile)) return shopFile;
  throw new WrongInput([
    {
      input: 'shop',
      given: shopFile ?? 'the built-in shop, which has no file',
      allowed: 'a shop file, in which stock can be booked',
      mend: 'blankwright shop --ask writes one',
    },
  ]);
};

/** A shop file that no command could read again must not be written. */
const assertReadable = (files: readonly MarkedFile[], path: string): void => {
  const shop = files.find(({ name }) => name === basename(path));
  if (shop === undefined || new Blob([shop.contents as string]).size <= LARGEST_BYTES) return;
  throw new WrongInput([
    {
      input: 'shop',
      given: `${path}, which would be larger than ${LARGEST_BYTES} bytes with the new remnants`,
      allowed: `a shop file of at most ${LARGEST_BYTES} bytes`,
      mend: 'keep rectangles, not outlines, and take remnants out that are scrap',
    },
  ]);
};

const WORDS = {
  input: 'shop',
  allowed: 'a YAML or JSON file that describes a shop',
  tooLarge: 'describe one shop only',
} as const;

const textOf = (path: string): Promise<string> => readTextFile(path, WORDS);

/** Far more than the texts of the bookings that are kept in full. */
const MOST_RECORD_BYTES = 20_000_000;

const recordOf = async (path: string): Promise<string | undefined> => {
  const record = join(dirname(path), recordName(basename(path)));
  if (!existsSync(record)) return undefined;
  return readTextFile(record, {
    input: 'record',
    allowed: 'the record of what was taken',
    tooLarge: 'move it away',
    mostBytes: MOST_RECORD_BYTES,
  });
};
