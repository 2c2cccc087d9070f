import { type Printed, printedIn } from '../text/printed.ts';
import { calledOf, holeCalled } from '../model/hole-names.ts';
import type { BoltFit, FitMeasure, FitResult } from '../contract/fit.ts';

/** The most lines of a short form. */
const MOST_LINES = 6;

/** A difference from what was asked that is worth a word, mm or degrees. */
const TELLING = 0.05;

/**
 * The fit in a few lines, for papers: `leg A 60 ±0.6, mostly from where the fold lands`. It has
 * the measures that depend on more than the cutting, in the order of the part, then the largest of
 * the others in one line, then the bolts.
 */
export const fitShort = ({ measures, bolts }: FitResult, print = printedIn()): string[] => {
  const lengths = measures.filter((m) => m.unit === 'mm' && m.causes.length > 0);
  const folded = lengths.filter((m) => !isCutting(m));
  const cut = Math.max(0, ...lengths.filter(isCutting).map((m) => m.likely));
  const told =
    folded.length <= MOST_LINES
      ? folded
      : folded
          .toSorted((a, b) => b.likely - a.likely)
          .slice(0, MOST_LINES)
          .sort((a, b) => folded.indexOf(a) - folded.indexOf(b));
  return [
    ...told.map((m) => shortMeasure(m, print)),
    ...(cut === 0 ? [] : [`what is only cut ±${rough(cut, print)}`]),
    ...bolts.filter((b) => b.mend !== null).map((b) => shortBolts(b, print)),
  ];
};

const isCutting = ({ causes: [first] }: FitMeasure): boolean =>
  first?.cause === 'cutting' || first?.cause === 'the width of the cut';

/** A limit to one decimal, at least 0.1. */
const rough = (value: number, { machine }: Printed): string => machine(Math.max(0.1, value), 1);

const shortMeasure = (measure: FitMeasure, print: Printed): string => {
  const { asked, expected, likely, causes } = measure;
  const comes = Math.abs(expected - asked) < TELLING ? '' : `, comes to ${print.tape(expected, 1)}`;
  return `${calledOf(measure)} ${print.tape(asked)}${comes} ±${rough(likely, print)}, mostly from ${causes[0]?.cause}`;
};

/** A chance in whole percent; one that is nearly certain is not shown as certain. */
export const percent = (chance: number): string =>
  chance >= 0.995 ? 'over 99 %' : `${Math.round(100 * chance)} %`;

const shortBolts = (fit: BoltFit, print: Printed): string =>
  `bolts through ${holesText(fit)} go in with a chance of ${percent(fit.chance)}: ${mendText(fit, print)}`;

/** All holes of a set: `h1 (holesA 1), h2 (holesA 2)`. */
export const holesText = ({ holes, names }: BoltFit): string =>
  holes.map((from, i) => holeCalled({ name: names[i], from })).join(', ');

/** What makes it likely that the bolts go in, in words. */
export const mendText = ({ mend }: BoltFit, { machine } = printedIn()): string => {
  if (mend === null) return 'good as it is';
  if (mend.openTo.length > 0)
    return `open ${mend.openTo.map((o) => `${holeCalled({ name: o.name, from: o.hole })} to ${machine(o.diameterMm)}`).join(', ')} (${percent(mend.chance)})`;
  if (mend.slots.length > 0)
    return `slot ${mend.slots.map((s) => `${holeCalled({ name: s.name, from: s.hole })} ${machine(s.widthMm)} x ${machine(s.lengthMm)} ${s.runs}`).join(', ')} (${percent(mend.chance)})`;
  return 'drill them when the part is in its place';
};
