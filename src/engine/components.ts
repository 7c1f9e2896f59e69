/**
 * Strongly connected components, each given out after all that it depends on: Tarjan, "Depth-first search and linear
 * graph algorithms", SIAM J. Comput. 1 (1972). Without recursion, since a note may be one chain of ten thousand lines.
 *
 * @param roots where to begin
 * @param next what a vertex depends on; vertices left out of it are not visited
 * @param emit is called with every component reached, dependencies first
 */
export function forEachComponent<T>(
  roots: Iterable<T>,
  next: (vertex: T) => readonly T[],
  emit: (component: readonly T[]) => void,
): void {
  const states = new Map<T, State<T>>();
  const path: State<T>[] = [];
  const open: State<T>[] = [];
  let counter = 0;
  const enter = (vertex: T): void => {
    const state: State<T> = { vertex, index: counter, low: counter, onStack: true, edges: next(vertex), edge: 0 };
    counter++;
    states.set(vertex, state);
    path.push(state);
    open.push(state);
  };
  for (const root of roots) {
    if (states.has(root)) continue;
    enter(root);
    while (path.length > 0) {
      const state = path[path.length - 1];
      if (state.edge < state.edges.length) {
        const target = states.get(state.edges[state.edge++]);
        if (target === undefined) enter(state.edges[state.edge - 1]);
        else if (target.onStack) state.low = Math.min(state.low, target.index);
        continue;
      }
      path.pop();
      if (path.length > 0) path[path.length - 1].low = Math.min(path[path.length - 1].low, state.low);
      if (state.low !== state.index) continue;
      const component: T[] = [];
      for (let member = open.pop()!; ; member = open.pop()!) {
        member.onStack = false;
        component.push(member.vertex);
        if (member === state) break;
      }
      emit(component);
    }
  }
}

interface State<T> {
  readonly vertex: T;
  readonly index: number;
  low: number;
  onStack: boolean;
  readonly edges: readonly T[];
  edge: number;
}
