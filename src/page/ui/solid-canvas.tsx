import { useEffect, useRef } from 'preact/hooks';
import type { ModelAnswer } from '../core/model-questions.ts';
import { BEGIN, from, nearer, turn, zoom } from './folded-state.ts';
import type { SolidShown, SolidView, solidView } from './solid-view.ts';

/** What draws solids, run when it is first needed. */
const drawsSolids = (): typeof solidView => {
  const scope = globalThis as { blankwrightSolid?: typeof solidView };
  if (scope.blankwrightSolid === undefined) {
    const script = document.createElement('script');
    script.textContent = document.querySelector('#solid')?.textContent ?? '';
    document.head.append(script);
  }
  if (scope.blankwrightSolid === undefined) throw new Error('nothing here draws solids');
  return scope.blankwrightSolid;
};

const DEG_A_PIXEL = 0.5;
const KEY_DEG = 10;
const KEYS: Readonly<Record<string, () => void>> = {
  ArrowLeft: () => turn(-KEY_DEG, 0),
  ArrowRight: () => turn(KEY_DEG, 0),
  ArrowUp: () => turn(0, KEY_DEG),
  ArrowDown: () => turn(0, -KEY_DEG),
  '+': () => nearer(1.25),
  '-': () => nearer(0.8),
};

/** Fingers and mouse buttons that hold it, where each is. */
const grips = new Map<number, readonly [number, number]>();

const gripped = (event: PointerEvent): void => {
  const before = grips.get(event.pointerId);
  if (before === undefined) return;
  const now = [event.clientX, event.clientY] as const;
  const [other] = [...grips].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
  grips.set(event.pointerId, now);
  if (other === undefined)
    turn((before[0] - now[0]) * DEG_A_PIXEL, (now[1] - before[1]) * DEG_A_PIXEL);
  else {
    const apart = ([x, y]: readonly [number, number]): number =>
      Math.max(1, Math.hypot(x - other[0], y - other[1]));
    nearer(apart(now) / apart(before));
  }
};

/**
 * A model on the screen: turned by dragging or by arrow keys, nearer by two fingers, by the wheel with
 * Ctrl, or by + and -. Where solids cannot be drawn, `onNone` is told.
 */
export const SolidCanvas = ({
  model,
  words,
  shown,
  onNone,
}: {
  readonly model: ModelAnswer;
  readonly words: string;
  readonly shown: Omit<SolidShown, 'from' | 'zoom'>;
  readonly onNone: () => void;
}) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const view = useRef<SolidView | undefined>(undefined);
  useEffect(() => {
    const onto = canvas.current;
    if (onto === null) return undefined;
    try {
      view.current = drawsSolids()(onto, model);
    } catch {
      onNone();
    }
    return () => {
      view.current?.close();
      view.current = undefined;
    };
  }, [model]);
  useEffect(() => {
    view.current?.show({ ...shown, from: from.value ?? BEGIN, zoom: zoom.value });
  });
  const letGo = (event: PointerEvent): void => void grips.delete(event.pointerId);
  return (
    <div
      class="paper turned solid"
      role="application"
      aria-label={`${words}. Arrow keys turn it, plus and minus bring it nearer.`}
      tabIndex={0}
      onKeyDown={(event) => {
        const act = KEYS[event.key];
        if (act === undefined || event.ctrlKey || event.metaKey) return;
        event.preventDefault();
        act();
      }}
      onWheel={(event) => {
        if (!event.ctrlKey) return;
        event.preventDefault();
        nearer(Math.exp(-event.deltaY / 300));
      }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        grips.set(event.pointerId, [event.clientX, event.clientY]);
      }}
      onPointerMove={gripped}
      onPointerUp={letGo}
      onPointerCancel={letGo}
    >
      {/* A canvas whose context was let go has none to give again: each model has one of its own. */}
      <canvas key={keyOf(model)} ref={canvas} />
    </div>
  );
};

const keys = new WeakMap<ModelAnswer, number>();
let count = 0;
const keyOf = (model: ModelAnswer): number => {
  if (!keys.has(model)) keys.set(model, ++count);
  return keys.get(model) ?? 0;
};
