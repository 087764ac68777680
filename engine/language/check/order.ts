// The order in which statements are checked and worked: what a value needs comes first. Found with Tarjan's
// strongly connected components (SIAM J. Comput. 1 (1972) 146-160), without recursion, because a book may
// chain 50,000 figures. A component of more than one statement, or one that needs itself, is a loop.

export interface Order {
  /** Every node once; what it needs comes before it, unless both are in one loop. */
  readonly order: readonly number[];
  readonly loops: readonly (readonly number[])[];
}

/** `needs[i]` are the nodes that node i needs. */
export function orderOf(needs: readonly (readonly number[])[]): Order {
  const count = needs.length;
  const index = new Int32Array(count).fill(-1);
  const low = new Int32Array(count);
  const onStack = new Uint8Array(count);
  const stack: number[] = [];
  const order: number[] = [];
  const loops: number[][] = [];
  let next = 0;
  for (let root = 0; root < count; root++) {
    if (index[root] !== -1) continue;
    const work: { node: number; child: number }[] = [{ node: root, child: 0 }];
    while (work.length > 0) {
      const top = work[work.length - 1]!;
      const { node } = top;
      if (top.child === 0) {
        index[node] = low[node] = next++;
        stack.push(node);
        onStack[node] = 1;
      }
      const child = needs[node]![top.child++];
      if (child !== undefined) {
        if (index[child] === -1) work.push({ node: child, child: 0 });
        else if (onStack[child]) low[node] = Math.min(low[node]!, index[child]!);
        continue;
      }
      work.pop();
      const parent = work[work.length - 1];
      if (parent !== undefined) low[parent.node] = Math.min(low[parent.node]!, low[node]!);
      if (low[node] !== index[node]) continue;
      const component: number[] = [];
      for (let member = -1; member !== node; ) {
        member = stack.pop()!;
        onStack[member] = 0;
        component.push(member);
      }
      component.reverse();
      order.push(...component);
      if (component.length > 1 || needs[node]!.includes(node)) loops.push(component);
    }
  }
  return { order, loops };
}
