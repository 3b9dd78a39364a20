/** A network through which as much as possible is sent (Dinic 1970: shortest paths by layers). */
export class FlowNetwork {
  private readonly to: number[] = [];
  private readonly free: number[] = [];
  private readonly edges: number[][] = [];

  node(): number {
    return this.edges.push([]) - 1;
  }

  /** Each edge is followed by the one that takes flow back. */
  edge(from: number, to: number, capacity: number): void {
    for (const [start, end, free] of [
      [from, to, capacity],
      [to, from, 0],
    ] as const) {
      this.edges[start]?.push(this.to.length);
      this.to.push(end);
      this.free.push(free);
    }
  }

  mostFlow(source: number, sink: number): number {
    let flow = 0;
    for (let level = this.levels(source); (level[sink] ?? -1) >= 0; level = this.levels(source)) {
      const next = this.edges.map(() => 0);
      for (let sent = -1; sent !== 0; flow += sent)
        sent = this.send(source, sink, Number.POSITIVE_INFINITY, level, next);
    }
    return flow;
  }

  private levels(source: number): number[] {
    const level = this.edges.map(() => -1);
    level[source] = 0;
    const queue = [source];
    for (let index = 0; index < queue.length; index++) {
      const node = queue[index] as number;
      for (const edge of this.edges[node] ?? []) {
        const end = this.to[edge] as number;
        if ((this.free[edge] ?? 0) <= 0 || level[end] !== -1) continue;
        level[end] = (level[node] as number) + 1;
        queue.push(end);
      }
    }
    return level;
  }

  private send(node: number, sink: number, most: number, level: readonly number[], next: number[]): number {
    if (node === sink) return most;
    const edges = this.edges[node] ?? [];
    for (; (next[node] ?? 0) < edges.length; next[node] = (next[node] ?? 0) + 1) {
      const edge = edges[next[node] ?? 0] as number;
      const [end, free] = [this.to[edge] as number, this.free[edge] as number];
      if (free <= 0 || level[end] !== (level[node] as number) + 1) continue;
      const sent = this.send(end, sink, Math.min(most, free), level, next);
      if (sent === 0) continue;
      this.free[edge] = free - sent;
      this.free[edge ^ 1] = (this.free[edge ^ 1] as number) + sent;
      return sent;
    }
    return 0;
  }
}
