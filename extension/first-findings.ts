import type * as vscode from 'vscode';
import type { PlanComputed } from '../src/server/protocol';

/** How soon each plan's findings were there: told in the log, for whoever finds that it takes long. */
export class FirstFindings implements vscode.Disposable {
  private readonly milliseconds = new Map<string, number>();
  private readonly listening: vscode.Disposable;

  /** `began`: when activation did, as `performance.now()` tells it. */
  constructor(
    computed: vscode.Event<PlanComputed>,
    private readonly began: number,
    private readonly log: Pick<vscode.LogOutputChannel, 'info'>,
  ) {
    // The findings themselves have been sent before.
    this.listening = computed((plan) => this.hear(plan));
  }

  /** Milliseconds from the beginning of activation to the first findings of a plan, by the plan's root. */
  get found(): Readonly<Record<string, number>> {
    return Object.fromEntries(this.milliseconds);
  }

  dispose(): void {
    this.listening.dispose();
  }

  private hear({ root, name }: PlanComputed): void {
    if (this.milliseconds.has(root)) return;
    const after = performance.now() - this.began;
    this.milliseconds.set(root, after);
    this.log.info(`${name}: findings ${after.toFixed(0)} ms after activation began`);
  }
}
