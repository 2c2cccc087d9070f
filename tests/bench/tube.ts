import { wholeWay } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';
import { bendSheetOf, copeCurve, copePattern, hoop } from './tube-work.ts';

/** What a bent hoop and a cope take, against the angle bracket. */
export default (): Answer[] => {
  const bracket = timed(wholeWay);
  const question = (name: string, work: () => unknown): Answer => ({
    question: name,
    ...compare(
      timed(() => void work()),
      bracket,
      21,
    ),
    against: 'inputs to DXF and SVG, angle bracket',
  });
  const bent = hoop();
  return [
    question('hoop, bend sheet and its proof alone', () => bendSheetOf(bent)),
    question('hoop, inputs to bend sheet and its proof', hoop),
    question('cope, its curve alone at each degree', copeCurve),
    question('cope, inputs to its pattern', copePattern),
  ];
};
