import type { Template } from '../../src/forms/template.ts';
import { type BentTube, bentTube } from '../../src/tube/bent-tube.ts';
import type { CopedTube } from '../../src/tube/cope/coped-part.ts';
import { copeOn, curveOf } from '../../src/tube/cope/cope.ts';
import type { HeaderSeat } from '../../src/tube/cope/seat.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import tubeBent from '../../templates/tube-bent/index.ts';
import tubeCope from '../../templates/tube-cope/index.ts';

/** What is asked of tubes: a little different each time, as brackets are. */
let counter = 0;

const next = (): number => {
  counter = (counter + 1) % 1000;
  return counter / 100;
};

const tubesOf = (family: Template, more: Record<string, unknown>) => {
  const made = makeParts(family, { ...family.examples[0]?.inputs, ...more });
  const tubes = made.ok ? made.tubes.map(({ tube }) => tube) : [];
  if (tubes.length === 0) throw new Error(`${family.family} was not made`);
  return tubes;
};

const PROVED_MM = 1e-6;

const proved = (tube: BentTube): BentTube => {
  if (!(tube.proofMm < PROVED_MM)) throw new Error('the hoop is not proved');
  return tube;
};

/** From inputs to the bend sheet of a hoop with four bends, walked back. */
export const hoop = (): BentTube => {
  const [tube] = tubesOf(tubeBent, { height: 700 + next() });
  if (tube?.kind !== 'bent') throw new Error('the hoop is not bent');
  return proved(tube);
};

/** The sheet of such a hoop again, without reading inputs and without findings. */
export const bendSheetOf = ({ asked }: BentTube): void => {
  proved(bentTube({ ...asked, diameterMm: asked.diameterMm + next() / 100 }));
};

/** From inputs to the pattern that is wrapped round the end. */
export const copePattern = (): CopedTube => {
  const [tube] = tubesOf(tubeCope, { angle: 60 + next() });
  if (tube?.kind !== 'coped' || !(tube.patterns('cope').widthMm > 0))
    throw new Error('the cope has no pattern');
  return tube;
};

const SEAT: HeaderSeat = { kind: 'header', diameterMm: 38, angleDeg: 60, offsetMm: 3 };

/** The curve alone, a place at each degree, of a tube that sits askew beside the middle. */
export const copeCurve = (): void => {
  const made = copeOn({ diameterMm: 30, wallMm: 2 }, { ...SEAT, angleDeg: 60 + next() });
  if (!made.ok || curveOf(made.cope.fitMm, 1).length !== 361)
    throw new Error('the cope has no curve');
};
