import type { SketchAnswer } from '../core/drawn-questions.ts';
import { focused, focusInput } from './focus.ts';
import { wordsOf } from '../model/words-of.ts';
import { Pictured } from './pictured.tsx';

/** Every letter of a picture with what it is, for who cannot see it. */
const labelOf = ({ piece, letters }: SketchAnswer): string => {
  const told = Object.entries(letters).map(([name, letter]) => `${letter} is ${wordsOf(name)}`);
  return `Picture${piece === null ? '' : ` of the ${piece}`} with letters: ${told.join(', ')}`;
};

/** The part with a letter at each measure. A press on a letter goes to its field. */
export const Sketches = ({
  sketches,
  isZoomed = false,
}: {
  readonly sketches: readonly SketchAnswer[];
  readonly isZoomed?: boolean;
}) => {
  const marked = focused.value;
  const of = sketches.filter(({ letters }) => marked !== undefined && marked in letters);
  // On a small screen only the picture that shows the measure that is typed.
  const shown = isZoomed && of.length > 0 ? of : sketches;
  return (
    <div class="sketches">
      {shown.map((sketch) => (
        <Pictured
          key={sketch.piece ?? ''}
          picture={sketch}
          label={labelOf(sketch)}
          inputOf={(spot) => spot}
          marked={marked}
          isZoomed={isZoomed}
          onPress={focusInput}
        />
      ))}
    </div>
  );
};
