import { signal } from '@preact/signals';
import type { BegunCutter, BegunMachine } from '../core/shop-questions.ts';
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

const MachineRow = ({ one, at }: { readonly one: BegunMachine; readonly at: number }) => {
  const set = (change: Partial<BegunMachine>): void => {
    machines.value = put(machines.value, at, change);
  };
  return (
    <div class="row asked">
      <label>
        Machine {at + 1}
        <select
          value={one.kind}
          onChange={(e) => set({ kind: e.currentTarget.value as BegunMachine['kind'] })}
        >
          {MACHINES.map(([kind, words]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </select>
      </label>
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
      {machines.value.length > 1 && (
        <button
          type="button"
          onClick={() => {
            machines.value = machines.value.filter((_, i) => i !== at);
          }}
        >
          Take out machine {at + 1}
        </button>
      )}
    </div>
  );
};

const CutterRow = ({ one, at }: { readonly one: BegunCutter; readonly at: number }) => {
  const set = (change: Partial<BegunCutter>): void => {
    cutters.value = put(cutters.value, at, change);
  };
  return (
    <div class="row asked">
      <label>
        Cutter {at + 1}
        <select
          value={one.process}
          onChange={(e) => set({ process: e.currentTarget.value as BegunCutter['process'] })}
        >
          {PROCESSES.map(([process, words]) => (
            <option key={process} value={process}>
              {words}
            </option>
          ))}
        </select>
      </label>
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
      {cutters.value.length > 1 && (
        <button
          type="button"
          onClick={() => {
            cutters.value = cutters.value.filter((_, i) => i !== at);
          }}
        >
          Take out cutter {at + 1}
        </button>
      )}
    </div>
  );
};

/** The four questions that a shop begins with. What is left empty is assumed, and said to be. */
export const ShopQuestions = ({ onDone }: { readonly onDone: () => void }) => (
  <form
    class="shop-questions"
    onSubmit={(e) => {
      e.preventDefault();
      void changeShop({
        kind: 'begin',
        machines: machines.value,
        cutters: cutters.value,
        sheets: sheets.value,
      }).then((why) => {
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
