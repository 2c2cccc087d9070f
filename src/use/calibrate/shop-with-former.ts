import { Document, parseDocument } from 'yaml';
import type { TubeCalibration } from '../../contract/tube-calibration.ts';
import { formerPlace } from '../../shop/bender.ts';
import { layOut } from '../../shop/write.ts';
import type { KnownShop } from './shop-with-bends.ts';

/**
 * The text of a shop file with the springback of a former in it, everything else unchanged, comments
 * too. A bender or a former that it does not have yet is added; where there is no file yet, it has the
 * bender alone.
 */
export function shopWithFormer(
  known: KnownShop | undefined,
  { bender, tubeMm, radiusMm, springback, effectiveRadius }: TubeCalibration,
): string {
  const document: Document = known === undefined ? new Document({}) : parseDocument(known.text);
  const measured = {
    fixed: rounded(springback.fixedDeg),
    share: rounded(springback.share),
    ...(effectiveRadius !== null && { effectiveRadius: rounded(effectiveRadius.mm) }),
  };
  const former = { tube: tubeMm, radius: radiusMm, springback: measured };
  const benders = known?.shop.benders ?? [];
  const { at, of } = formerPlace(benders, bender, { tube: tubeMm, radius: radiusMm });
  const formers = benders[at]?.formers ?? [];
  const put = (path: readonly (string | number)[], value: unknown): void => {
    const node = document.createNode(value) as { flow?: boolean };
    node.flow = true;
    document.setIn(path, node);
  };
  if (at >= 0 && of >= 0) put(['benders', at, 'formers', of, 'springback'], measured);
  else if (at >= 0) put(['benders', at, 'formers', formers.length], former);
  else {
    const entry = document.createNode({ name: bender, formers: [former] });
    layOut(entry);
    if (benders.length === 0) document.set('benders', document.createNode([]));
    document.setIn(['benders', benders.length], entry);
  }
  if (known === undefined) document.commentBefore = HEADING;
  return document.toString({ lineWidth: 0 });
}

const HEADING = ' Your own bender. All else is as in the built-in shop.';

/** As much as anybody measures. */
const rounded = (value: number): number => Math.round(value * 1e4) / 1e4;
