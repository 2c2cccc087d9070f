import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { StripsAnswer } from '../core/shop-questions.ts';
import { changeShop, shop } from './shop-state.ts';
import { ProblemLine } from './said.tsx';
import { quick } from './cores.ts';
import { lengthText } from './units.ts';

/** What is read on a strip, and of the sheet and tool that all of them share. */
const COLUMNS = [
  ['flat', 'Flat length, mm'],
  ['legA', 'Leg A outside, mm'],
  ['legB', 'Leg B outside, mm'],
  ['angle', 'Turned, degrees'],
  ['radius', 'Inside radius, mm'],
] as const;
const SHARED = [
  ['material', 'Material', 'dc01'],
  ['thickness', 'Thickness, mm', '1.5'],
  ['machine', 'Machine', 'folder'],
  ['tool', 'Tool', 'nose'],
] as const;

type Strip = Readonly<Partial<Record<(typeof COLUMNS)[number][0], string>>>;

const shared = signal<Readonly<Record<string, string>>>({});
const strips = signal<readonly Strip[]>([{ angle: '90' }, { angle: '90' }, { angle: '60' }]);
const found = signal<StripsAnswer | undefined>(undefined);
const told = signal('');

const cell = (text: string): string => `"${text.replace(/"/g, '""')}"`;

/** The strips in the form that `calibrate` reads; those that are not measured yet are left out. */
const csvOf = (): string | undefined => {
  const rows = strips.value.filter(
    ({ flat = '', legA = '', legB = '' }) => flat !== '' && legA !== '' && legB !== '',
  );
  if (rows.length === 0) return undefined;
  const names = [...SHARED.map(([name]) => name), ...COLUMNS.map(([name]) => name)];
  const lines = rows.map((row) =>
    [
      ...SHARED.map(([name]) => shared.value[name] ?? ''),
      ...COLUMNS.map(([name]) => row[name] ?? ''),
    ]
      .map(cell)
      .join(','),
  );
  return [names.join(','), ...lines].join('\n');
};

const look = async (): Promise<void> => {
  const csv = csvOf();
  const answer = csv === undefined ? undefined : await quick.ask('strips', csv);
  found.value = answer;
};

const take = async (): Promise<void> => {
  const csv = csvOf();
  if (csv === undefined) return;
  const why = await changeShop({ kind: 'strips', csv }, 'bends by measured strips');
  told.value =
    why ?? 'Put into the shop: blanks are reckoned with it where sheet and tool are these.';
};

/** The shop's own bends, and strips by which they are measured. */
export const Strips = () => {
  useEffect(() => {
    void look();
  }, [strips.value, shared.value]);
  const bends = shop.value?.bends ?? [];
  return (
    <section>
      <h2>Your own bends</h2>
      {bends.length === 0 ? (
        <p>None is measured: bends are reckoned by rule.</p>
      ) : (
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">Sheet and tool</th>
              <th scope="col">Inside radius</th>
              <th scope="col">K</th>
              <th scope="col">Strips</th>
            </tr>
          </thead>
          <tbody>
            {bends.map((bend, i) => (
              <tr key={`${bend.name}${i}`}>
                <th scope="row">{bend.name}</th>
                <td>{lengthText(bend.radius, 2)}</td>
                <td>
                  {bend.k.toFixed(3)} ±{(2 * bend.kError).toFixed(3)}
                </td>
                <td>{bend.strips}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <details class="group">
        <summary>Measure strips</summary>
        <p>
          Cut strips a hand wide, measure each flat, fold it about the middle, and measure both legs
          on the outside. Three or more, at two angles or more, tell K and radius apart.
        </p>
        <div class="row asked">
          {SHARED.map(([name, words, example]) => (
            <label key={name}>
              {words}
              <input
                value={shared.value[name] ?? ''}
                placeholder={example}
                onInput={(e) => {
                  shared.value = { ...shared.value, [name]: e.currentTarget.value };
                }}
              />
            </label>
          ))}
        </div>
        <ol class="strips">
          {strips.value.map((strip, i) => (
            <li key={i} class="row asked">
              {COLUMNS.map(([name, words]) => (
                <label key={name}>
                  {words}
                  <input
                    value={strip[name] ?? ''}
                    onInput={(e) => {
                      const text = e.currentTarget.value;
                      strips.value = strips.value.map((old, at) =>
                        at === i ? { ...old, [name]: text } : old,
                      );
                    }}
                  />
                </label>
              ))}
              <button
                type="button"
                aria-label={`Take out strip ${i + 1}`}
                onClick={() => {
                  strips.value = strips.value.filter((_, at) => at !== i);
                }}
              >
                ×
              </button>
            </li>
          ))}
        </ol>
        <div class="row">
          <button
            type="button"
            onClick={() => {
              strips.value = [...strips.value, { angle: strips.value.at(-1)?.angle ?? '90' }];
            }}
          >
            Another strip
          </button>
          <button
            type="button"
            class="main"
            disabled={found.value?.isEnough !== true}
            onClick={() => void take()}
          >
            Put these bends into the shop
          </button>
        </div>
        <div role="status">
          {found.value?.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <ul>
            {found.value?.problems.map((p) => (
              <ProblemLine key={p.input} problem={p} />
            ))}
            {found.value?.findings.map(({ message }) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
          <p>{told.value}</p>
        </div>
      </details>
    </section>
  );
};
