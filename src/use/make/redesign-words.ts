import type { Redesign } from '../../contract/redesign.ts';
import { flagOf } from '../../forms/input-name.ts';
import { figure } from '../../text/figures.ts';

/** What a redesign changes and what that costs, in words that continue a sentence. */
export const redesignWords = ({
  inputs,
  seams,
  seamMm,
  slits,
  slitMm,
  laps,
  lapMm,
  tabs,
  tabMm,
  pieces,
  changes,
}: Redesign): string => {
  const seam = seams === 1 ? 'a weld seam' : `${seams} weld seams`;
  const slit = slits === 1 ? 'a row of slots' : `${slits} rows of slots`;
  return [
    ...changes.map(({ input, from, to }) => `${input} ${told(to)} in place of ${told(from)}`),
    ...(seams === 0 ? [] : [`${seam} of ${seamMm} mm in all ${seamPlaces(inputs)}`]),
    ...(slits === 0
      ? []
      : [
          `${slit} of ${slitMm} mm in all along fold ${String(inputs['slitAt'])}, bent by hand and welded up`,
        ]),
    ...(tabs === 0
      ? []
      : [
          `${tabs === 1 ? 'a weld seam' : `${tabs} weld seams`} of ${tabMm} mm in all, held square by tabs in slots, in place of fold ${String(inputs['tabAt'])}`,
        ]),
    ...(laps === 0
      ? []
      : [
          `${laps === 1 ? 'a flange that laps' : `${laps} flanges that lap`} inside over ${lapMm} mm in all, to be welded or riveted, in place of fold ${String(inputs['lapAt'])}`,
        ]),
    ...(pieces.now === pieces.before
      ? []
      : [
          `${pieces.now} pieces in place of ${pieces.before}, to be ${seams + slits + tabs > 0 || laps === 0 ? 'welded' : 'joined'} together`,
        ]),
  ].join('; ');
};

/** Where the seams are: in place of folds, and along the edge of a hem. */
const seamPlaces = ({ weldAt, hemAt }: Redesign['inputs']): string =>
  [
    ...(weldAt === undefined ? [] : [`in place of fold ${String(weldAt)}`]),
    ...(hemAt === undefined
      ? []
      : [
          `along the edge of a hem, which fold ${String(hemAt)} is in place of sheet folded double`,
        ]),
  ].join(' and ');

const told = (value: string | number): string =>
  typeof value === 'number' ? figure(value) : value;

/** Inputs as flags of the command, as they are pasted into a shell. */
export const flagsOf = (inputs: Redesign['inputs']): string =>
  Object.entries(inputs)
    .map(([name, value]) => `--${flagOf(name)} ${quoted(String(value))}`)
    .join(' ');

const quoted = (text: string): string =>
  /^[\w.,:/+-]+$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`;
