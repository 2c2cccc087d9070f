/** An edge of a graph, between two of its nodes by their numbers. */
export interface Edge {
  readonly a: number;
  readonly b: number;
}

/**
 * Tells which edges lie on a closed way: those without which the graph would still be connected (R.
 * E. Tarjan, "A note on finding the bridges of a graph", 1974, from memory). Two edges between the
 * same nodes are a way there and back. There is no recursion, because a contour of a hundred
 * thousand lines is a single way.
 */
export const onCycles = (edges: readonly Edge[], nodes: number): boolean[] => {
  const at: number[][] = Array.from({ length: nodes }, () => []);
  edges.forEach(({ a, b }, i) => {
    at[a]?.push(i);
    at[b]?.push(i);
  });
  const [entered, lowest, next] = [
    new Int32Array(nodes).fill(-1),
    new Int32Array(nodes),
    new Int32Array(nodes),
  ];
  const cyclic = edges.map(() => true);
  let time = 0;
  for (let root = 0; root < nodes; root++) {
    if (entered[root] !== -1) continue;
    const way: { readonly node: number; readonly by: number }[] = [{ node: root, by: -1 }];
    entered[root] = lowest[root] = time++;
    for (let top = way.at(-1); top !== undefined; top = way.at(-1)) {
      const { node, by } = top;
      const edge = at[node]?.[(next[node] as number)++];
      if (edge === undefined) {
        way.pop();
        const before = way.at(-1)?.node;
        if (before === undefined) continue;
        lowest[before] = Math.min(lowest[before] as number, lowest[node] as number);
        if ((lowest[node] as number) > (entered[before] as number)) cyclic[by] = false;
      } else if (edge !== by) {
        const { a, b } = edges[edge] as Edge;
        const other = a === node ? b : a;
        if (entered[other] === -1) {
          entered[other] = lowest[other] = time++;
          way.push({ node: other, by: edge });
        } else lowest[node] = Math.min(lowest[node] as number, entered[other] as number);
      }
    }
  }
  return cyclic;
};
