import { type Signal, signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { BegunCutter, BegunMachine } from '../core/shop-questions.ts';
import { capital } from '../../text/capital.ts';
import { changeShop } from './shop-state.ts';

const MACHINES = [
  ['fingers', 'finger folder (box and pan)'],
  ['straight', 'straight folder'],
  ['brake', 'press brake'],
] as const;
const PROCESSES = [
  ['plasma', 'plasma table'],
  ['laser', 'laser, own or sent out'],
  ['waterjet', 'waterjet'],
] as const;

const FIRST_MACHINE: BegunMachine = { kind: 'fingers', name: '', length: '', thickest: '' };
const FIRST_CUTTER: BegunCutter = { process: 'plasma', name: '', thickest: '', bed: '' };

const machines = signal<readonly BegunMachine[]>([FIRST_MACHINE]);
const cutters = signal<readonly BegunCutter[]>([FIRST_CUTTER]);
const sheets = signal('');
const wrong = signal<string | undefined>(undefined);

const put = <T,>(list: readonly T[], at: number, change: Partial<T>): readonly T[] =>
  list.map((one, i) => (i === at ? { ...one, ...change } : one));

const Text = ({
  label,
  value,
  example = '',
  onText,
}: {
  readonly label: string;
  readonly value: string;
  readonly example?: string;
  readonly onText: (text: string) => void;
}) => (
  <label>
    {label}
    <input
      value={value}
      placeholder={example}
      autoComplete="off"
      onInput={(e) => onText(e.currentTarget.value)}
    />
  </label>
);

/** One of several machines of a shop: its kind, what is asked of it, and a button to take it out. */
const AskedRow = <K extends string>({
  what,
  at,
  kind,
  kinds,
  onKind,
  onOut,
  children,
}: {
  readonly what: string;
  readonly at: number;
  readonly kind: K;
  readonly kinds: readonly (readonly [K, string])[];
  readonly onKind: (kind: K) => void;
  /** Nothing where it is the only one. */
  readonly onOut: (() => void) | undefined;
  readonly children: ComponentChildren;
}) => (
  <div class="row asked">
    <label>
      {capital(what)} {at + 1}
      <select value={kind} onChange={(e) => onKind(e.currentTarget.value as K)}>
        {kinds.map(([one, words]) => (
          <option key={one} value={one}>
            {words}
          </option>
        ))}
      </select>
    </label>
    {children}
    {onOut !== undefined && (
      <button type="button" onClick={onOut}>
        Take out {what} {at + 1}
      </button>
    )}
  </div>
);

/** How one of a list is changed, and taken out unless it is the only one. */
const rowOf = <T,>(list: Signal<readonly T[]>, at: number) => ({
  set: (change: Partial<T>): void => {
    list.value = put(list.value, at, change);
  },
  onOut:
    list.value.length > 1
      ? (): void => {
          list.value = list.value.filter((_, i) => i !== at);
        }
      : undefined,
});

const MachineRow = ({ one, at }: { readonly one: BegunMachine; readonly at: number }) => {
  const { set, onOut } = rowOf(machines, at);
  return (
    <AskedRow
      what="machine"
      at={at}
      kind={one.kind}
      kinds={MACHINES}
      onKind={(kind) => set({ kind })}
      onOut={onOut}
    >
      <Text
        label="Called"
        value={one.name}
        example="folder by the door"
        onText={(name) => set({ name })}
      />
      <Text
        label="Longest fold, mm"
        value={one.length}
        example="1250"
        onText={(length) => set({ length })}
      />
      <Text
        label="Thickest mild steel by its plate, mm"
        value={one.thickest}
        example="2"
        onText={(thickest) => set({ thickest })}
      />
    </AskedRow>
  );
};

const CutterRow = ({ one, at }: { readonly one: BegunCutter; readonly at: number }) => {
  const { set, onOut } = rowOf(cutters, at);
  return (
    <AskedRow
      what="cutter"
      at={at}
      kind={one.process}
      kinds={PROCESSES}
      onKind={(process) => set({ process })}
      onOut={onOut}
    >
      <Text
        label="Called"
        value={one.name}
        example="plasma table"
        onText={(name) => set({ name })}
      />
      <Text
        label="Thickest sheet, mm"
        value={one.thickest}
        example="8"
        onText={(thickest) => set({ thickest })}
      />
      <Text label="Bed, mm" value={one.bed} example="2500 x 1250" onText={(bed) => set({ bed })} />
    </AskedRow>
  );
};

/** The four questions that a shop begins with. What is left empty is assumed, and said to be. */
export const ShopQuestions = ({ onDone }: { readonly onDone: () => void }) => (
  <form
    class="shop-questions"
    onSubmit={(e) => {
      e.preventDefault();
      const said = { machines: machines.value, cutters: cutters.value, sheets: sheets.value };
      void changeShop({ kind: 'begin', ...said }, 'what the shop has').then((why) => {
        wrong.value = why;
        if (why === undefined) onDone();
      });
    }}
  >
    <p>Four questions to begin with. What you leave empty is assumed, and said to be.</p>
    <fieldset>
      <legend>1 and 2. What do you fold on, and how long?</legend>
      {machines.value.map((one, i) => (
        <MachineRow key={i} one={one} at={i} />
      ))}
      <button
        type="button"
        onClick={() => {
          machines.value = [...machines.value, { ...FIRST_MACHINE, kind: 'straight' }];
        }}
      >
        Another machine
      </button>
    </fieldset>
    <fieldset>
      <legend>3. What do you cut with?</legend>
      {cutters.value.map((one, i) => (
        <CutterRow key={i} one={one} at={i} />
      ))}
      <button
        type="button"
        onClick={() => {
          cutters.value = [...cutters.value, { ...FIRST_CUTTER, process: 'laser' }];
        }}
      >
        Another cutter
      </button>
    </fieldset>
    <fieldset>
      <legend>4. What is in the rack?</legend>
      <div class="row asked wide">
        <Text
          label="Sheets: length x width, with thickness and metal where it has one"
          value={sheets.value}
          example="2500 x 1250, 2000 x 1000 x 2 steel"
          onText={(text) => {
            sheets.value = text;
          }}
        />
      </div>
    </fieldset>
    {wrong.value !== undefined && (
      <p class="wrong" role="alert">
        {wrong.value}
      </p>
    )}
    <button type="submit" class="main">
      That is my shop
    </button>
  </form>
);
