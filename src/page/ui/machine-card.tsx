import { useState } from 'preact/hooks';
import type { FigureAnswer, MachineAnswer } from '../core/shop-questions.ts';
import { changeShop } from './shop-state.ts';
import { Svg } from './svg.tsx';

const FigureField = ({
  machine,
  figure,
}: {
  readonly machine: MachineAnswer;
  readonly figure: FigureAnswer;
}) => {
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const [why, setWhy] = useState<string | undefined>(undefined);
  const { path, ask, help, given, used } = figure;
  const id = `figure-${machine.id}-${path.join('-')}`;
  const { index, list } = machine;
  return (
    <div class="field">
      <label for={id}>{ask}</label>
      <input
        id={id}
        value={typed ?? given}
        placeholder={used === '' ? '' : `${used}, assumed`}
        autoComplete="off"
        aria-describedby={`${id}-said`}
        aria-invalid={why === undefined ? undefined : 'true'}
        onInput={(e) => {
          const answer = e.currentTarget.value;
          setTyped(answer);
          if (index === null || answer.trim() === '') return;
          void changeShop(
            { kind: 'figure', list, index, path, answer },
            `${machine.name}, ${ask} ${answer}`,
            id,
          ).then(setWhy);
        }}
        onBlur={() => {
          if (why === undefined) setTyped(undefined);
        }}
      />
      <p id={`${id}-said`} class={why === undefined ? 'means' : 'wrong'}>
        {why ?? (given === '' ? 'assumed' : 'as you measured it')}
      </p>
      {help !== undefined && (
        <details class="about">
          <summary aria-label={`How to measure: ${ask}`}>?</summary>
          <p>{help}</p>
        </details>
      )}
    </div>
  );
};

/** A machine: its section, which follows the figures as they are typed, and its figures. */
export const MachineCard = ({ machine }: { readonly machine: MachineAnswer }) => (
  <section class="machine">
    <h3>
      {machine.name} {machine.name !== machine.called && <small>{machine.called}</small>}
    </h3>
    <div class="machine-box">
      <Svg
        picture={machine.picture}
        label={`Section of ${machine.name}: ${machine.figures.map((f) => `${f.ask} ${f.given === '' ? f.used : f.given}`).join('; ')}`}
      />
      {machine.index === null ? (
        <p class="means">
          One of the machines that are assumed. Answer the questions above to have your own.
        </p>
      ) : (
        <div>
          {machine.figures.map((figure) => (
            <FigureField key={figure.path.join('.')} machine={machine} figure={figure} />
          ))}
        </div>
      )}
    </div>
  </section>
);
