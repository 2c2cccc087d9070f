import type { Region } from '../../geometry/region.ts';
import { circle } from '../../geometry/shapes.ts';
import type { Drawing } from '../../model/drawing.ts';

/** What is cut of a drawing, as it is drawn: its outline and the holes in it. */
export const drawnRegion = ({ items }: Drawing): Region => {
  const outline = items.find((item) => item.kind === 'loop' && item.role === 'outline');
  if (outline?.kind !== 'loop') throw new Error('a drawing without an outline');
  const holes = items.flatMap((item) => {
    if (item.role !== 'hole') return [];
    if (item.kind === 'circle') return [circle(item.centre, item.radius)];
    return item.kind === 'loop' ? [item.loop] : [];
  });
  return { outline: outline.loop, holes };
};

/** Whether something is scribed on the face that lies up. */
export const hasMarks = ({ items }: Drawing): boolean =>
  items.some(({ role }) => role === 'mark' || role === 'fold-up' || role === 'fold-down');

/** The drawing of a part that is cut to an outline and nothing else. */
export const drawingOf = (title: string, { outline, holes }: Region): Drawing => ({
  title,
  items: [
    { kind: 'loop', role: 'outline', loop: outline },
    ...holes.map((loop) => ({ kind: 'loop', role: 'hole', loop }) as const),
  ],
});
