import {
  Box3,
  DirectionalLight,
  HemisphereLight,
  OrthographicCamera,
  Plane,
  Scene,
  Sprite,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { ModelAnswer } from '../core/model-questions.ts';
import { type PieceNode, pieceNode, type SolidShown } from './solid-piece.ts';

export type { SolidShown } from './solid-piece.ts';

export interface SolidView {
  readonly show: (shown: SolidShown) => void;
  /** Lets go of all that it holds of the screen. */
  readonly close: () => void;
}

const RAD = Math.PI / 180;

/**
 * Draws a model on a canvas, and again whenever something else is to be shown. Throws where the browser
 * has no WebGL.
 */
export const solidView = (canvas: HTMLCanvasElement, model: ModelAnswer): SolidView => {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.localClippingEnabled = true;
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  const pieces = model.pieces.map((piece, i) => pieceNode(piece, model, i));
  const scene = new Scene();
  const camera = new OrthographicCamera();
  const light = new DirectionalLight(0xffffff, 2.2);
  scene.add(new HemisphereLight(0xffffff, 0xb5b1a6, 2.6), light, ...pieces.map((p) => p.node));
  const middle = roomOf(pieces, 0).getCenter(new Vector3());
  let last: SolidShown | undefined;
  const draw = (): void => {
    if (last === undefined || canvas.clientWidth === 0) return;
    const { clientWidth: wide, clientHeight: high } = canvas;
    renderer.setSize(wide, high, false);
    const room = roomOf(pieces, last.apart);
    aim(camera, last, { room, ratio: wide / high });
    light.position
      .copy(camera.position)
      .sub(middle)
      .applyAxisAngle(new Vector3(0, 0, 1), 0.6);
    cutOpen(pieces, last.cut, room);
    const tall = camera.top - camera.bottom;
    scene.traverse((node) => {
      if (node instanceof Sprite)
        node.scale.set(
          Number(node.userData['wide']) * tall,
          Number(node.userData['high']) * tall,
          1,
        );
    });
    renderer.render(scene, camera);
  };
  const sized = new ResizeObserver(draw);
  sized.observe(canvas);
  return {
    show: (shown) => {
      last = shown;
      for (const [i, piece] of pieces.entries()) piece.stand(shown, model.pieces[i]?.order ?? []);
      for (const piece of pieces)
        piece.node.position.add(awayFrom(middle, piece.room, shown.apart));
      draw();
    },
    close: () => {
      sized.disconnect();
      renderer.dispose();
      renderer.forceContextLoss();
    },
  };
};

/** How many times farther from the middle of the whole the pieces are when they are apart. */
const APART = 0.9;

/** The room that the pieces take, flat or folded; where they are taken apart, where they then stand. */
const roomOf = (pieces: readonly PieceNode[], apart: number): Box3 => {
  const joined = new Box3();
  for (const { room } of pieces) joined.union(room);
  const middle = joined.getCenter(new Vector3());
  const all = new Box3();
  for (const { room } of pieces) all.union(room.clone().translate(awayFrom(middle, room, apart)));
  return all;
};

/** How far a piece is moved from the middle of the whole, which it was that far away from. */
const awayFrom = (middle: Vector3, room: Box3, apart: number): Vector3 =>
  room
    .getCenter(new Vector3())
    .sub(middle)
    .multiplyScalar(apart * APART);

/** Looks at everything, as near as it fits into the picture. */
const aim = (
  camera: OrthographicCamera,
  { from: [sideDeg, riseDeg], zoom }: SolidShown,
  { room, ratio }: { readonly room: Box3; readonly ratio: number },
): void => {
  const [side, rise] = [sideDeg * RAD, riseDeg * RAD];
  const toward = new Vector3(
    Math.cos(rise) * Math.cos(side),
    Math.cos(rise) * Math.sin(side),
    Math.sin(rise),
  );
  const right = new Vector3(-Math.sin(side), Math.cos(side), 0);
  const up = toward.clone().cross(right);
  const half = room.getSize(new Vector3()).divideScalar(2);
  const reach = (way: Vector3): number =>
    Math.abs(way.x) * half.x + Math.abs(way.y) * half.y + Math.abs(way.z) * half.z;
  const tall = (Math.max(reach(up), reach(right) / ratio, 1) * AROUND) / zoom;
  const far = half.length() + 1;
  Object.assign(camera, {
    left: -tall * ratio,
    right: tall * ratio,
    top: tall,
    bottom: -tall,
    near: 0,
    far: 4 * far,
  });
  const middle = room.getCenter(new Vector3());
  camera.up.set(0, 0, 1);
  camera.position.copy(middle).addScaledVector(toward, 2 * far);
  camera.lookAt(middle);
  camera.updateProjectionMatrix();
};

/** Room for letters round everything. */
const AROUND = 1.12;

const AXES = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;

const cutOpen = (
  pieces: readonly PieceNode[],
  cut: SolidShown['cut'],
  { min, max }: Box3,
): void => {
  const axis = cut?.axis ?? 0;
  const [low, high] = [min.getComponent(axis), max.getComponent(axis)];
  const planes =
    cut === undefined
      ? null
      : [new Plane(new Vector3(...AXES[cut.axis]).negate(), low + cut.at * (high - low))];
  for (const { materials, insides } of pieces) {
    for (const material of materials) material.clippingPlanes = planes;
    for (const inside of insides) inside.visible = cut !== undefined;
  }
};
