import type { Vec3 } from '../../src/geometry/vec3.ts';

/**
 * A reader of binary glTF by the specification alone (Khronos Group, glTF 2.0 Specification: 3.5
 * nodes, 3.7.2.2 morph targets, 3.11 animations, 4 GLB), as far as models that fold need it.
 */

interface Json {
  readonly accessors: readonly {
    readonly bufferView: number;
    readonly byteOffset?: number;
    readonly componentType: number;
    readonly count: number;
    readonly type: 'SCALAR' | 'VEC3' | 'VEC4';
  }[];
  readonly bufferViews: readonly { readonly byteOffset?: number }[];
  readonly meshes: readonly {
    readonly name: string;
    readonly weights?: readonly number[];
    readonly primitives: readonly {
      readonly indices: number;
      readonly attributes: { readonly POSITION: number; readonly NORMAL: number };
      readonly targets?: readonly { readonly POSITION: number }[];
    }[];
  }[];
  readonly nodes: readonly GltfNode[];
  readonly scenes: readonly { readonly nodes: readonly number[] }[];
  readonly animations?: readonly {
    readonly channels: readonly {
      readonly sampler: number;
      readonly target: { readonly node: number; readonly path: string };
    }[];
    readonly samplers: readonly {
      readonly input: number;
      readonly output: number;
      readonly interpolation: string;
    }[];
  }[];
}

export interface GltfNode {
  readonly name: string;
  readonly mesh?: number;
  readonly children?: readonly number[];
  readonly translation?: readonly number[];
  readonly rotation?: readonly number[];
}

/** The surface of a node where it stands at some time: places in metres, y up. */
export interface Shown {
  /** Names of the nodes from the scene down to it. */
  readonly path: readonly string[];
  readonly places: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

export class GltfScene {
  readonly json: Json;
  private readonly binary: Buffer;

  constructor(bytes: Uint8Array) {
    const data = Buffer.from(bytes);
    const long = data.readUInt32LE(12);
    this.json = JSON.parse(data.toString('utf8', 20, 20 + long)) as Json;
    this.binary = data.subarray(28 + long);
  }

  /** The last second of its animation; 0 without one. */
  get lastSecond(): number {
    const [animation] = this.json.animations ?? [];
    return Math.max(
      0,
      ...(animation?.samplers ?? []).flatMap(({ input }) => this.read(input).map(([t]) => t ?? 0)),
    );
  }

  /** All surfaces at a time of the animation; without a time as the file stands. */
  at(time?: number): Shown[] {
    const shown: Shown[] = [];
    const walk = (index: number, path: readonly string[], outer: (p: Vec3) => Vec3): void => {
      const node = this.json.nodes[index] as GltfNode;
      const shift = this.value(index, 'translation', time) ?? node.translation ?? [0, 0, 0];
      const turn = this.value(index, 'rotation', time) ?? node.rotation ?? [0, 0, 0, 1];
      const place = (p: Vec3): Vec3 => {
        const [x, y, z] = turned(turn, p);
        return outer([
          x + (shift[0] as number),
          y + (shift[1] as number),
          z + (shift[2] as number),
        ]);
      };
      const own = [...path, node.name];
      if (node.mesh !== undefined) shown.push({ path: own, ...this.surface(index, place, time) });
      for (const child of node.children ?? []) walk(child, own, place);
    };
    for (const root of this.json.scenes[0]?.nodes ?? []) walk(root, [], (p) => p);
    return shown;
  }

  private surface(
    index: number,
    place: (p: Vec3) => Vec3,
    time: number | undefined,
  ): Omit<Shown, 'path'> {
    const mesh = this.json.meshes[this.json.nodes[index]?.mesh ?? NaN];
    const [primitive] = mesh?.primitives ?? [];
    if (primitive === undefined) throw new Error('no surface');
    const weights = this.value(index, 'weights', time) ?? mesh?.weights ?? [];
    const base = this.read(primitive.attributes.POSITION);
    const targets = (primitive.targets ?? []).map(({ POSITION }) => this.read(POSITION));
    const places = base.map((p, i) =>
      place(
        p.map(
          (v, axis) =>
            v +
            targets.reduce(
              (sum, target, k) => sum + (weights[k] ?? 0) * (target[i]?.[axis] as number),
              0,
            ),
        ) as unknown as Vec3,
      ),
    );
    const indices = this.read(primitive.indices).flat();
    const triangles = Array.from(
      { length: indices.length / 3 },
      (_, t) => indices.slice(3 * t, 3 * t + 3) as unknown as readonly [number, number, number],
    );
    return { places, triangles };
  }

  /** A channel's value at a time: before its first key the first, after its last the last. */
  private value(node: number, path: string, time: number | undefined): number[] | undefined {
    const [animation] = this.json.animations ?? [];
    const channel = animation?.channels.find(
      (c) => c.target.node === node && c.target.path === path,
    );
    if (time === undefined || animation === undefined || channel === undefined) return undefined;
    const sampler = animation.samplers[channel.sampler];
    if (sampler === undefined || sampler.interpolation !== 'LINEAR') throw new Error('not linear');
    const times = this.read(sampler.input).map(([t]) => t as number);
    const all = this.read(sampler.output);
    const size = all.length / times.length;
    const keys = times.map((_, i) => all.slice(i * size, (i + 1) * size).flat());
    const after = times.findIndex((t) => t >= time);
    if (after === 0) return keys[0];
    if (after < 0) return keys.at(-1);
    const [t0, t1] = [times[after - 1] as number, times[after] as number];
    const share = (time - t0) / (t1 - t0);
    const [a, b] = [keys[after - 1] as number[], keys[after] as number[]];
    return path === 'rotation'
      ? slerp(a, b, share)
      : a.map((v, i) => v + share * ((b[i] as number) - v));
  }

  private read(id: number): number[][] {
    const accessor = this.json.accessors[id] as Json['accessors'][number];
    const size = { SCALAR: 1, VEC3: 3, VEC4: 4 }[accessor.type];
    const view = this.json.bufferViews[accessor.bufferView];
    const start = (view?.byteOffset ?? 0) + (accessor.byteOffset ?? 0);
    return Array.from({ length: accessor.count }, (_, i) =>
      Array.from({ length: size }, (__, k) => {
        const at = start + 4 * (i * size + k);
        return accessor.componentType === 5125
          ? this.binary.readUInt32LE(at)
          : this.binary.readFloatLE(at);
      }),
    );
  }
}

/** q p q*, written out. */
const turned = (q: readonly number[], [x, y, z]: Vec3): Vec3 => {
  const [i, j, k, w] = q as [number, number, number, number];
  const [u, v, n] = [2 * (j * z - k * y), 2 * (k * x - i * z), 2 * (i * y - j * x)];
  return [x + w * u + j * n - k * v, y + w * v + k * u - i * n, z + w * n + i * v - j * u];
};

/** Shoemake's interpolation of rotations, as appendix C of the specification asks. */
const slerp = (a: readonly number[], b: readonly number[], share: number): number[] => {
  const dot = a.reduce((sum, v, i) => sum + v * (b[i] as number), 0);
  const sign = dot < 0 ? -1 : 1;
  const angle = Math.acos(Math.min(1, Math.abs(dot)));
  if (angle < 1e-9) return [...a];
  const [p, q] = [
    Math.sin((1 - share) * angle) / Math.sin(angle),
    (sign * Math.sin(share * angle)) / Math.sin(angle),
  ];
  return a.map((v, i) => p * v + q * (b[i] as number));
};
