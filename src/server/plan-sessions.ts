import type { SeverityChoice } from '../findings/find';
import type { Plan } from '../plan/model';
import { shortened } from '../plan/shortened';
import { pathInPlan } from './plan-roots';
import { type Delays, PlanSession, type Snapshot } from './plan-session';
import { isSameMap } from './same-map';
import type { Workspace } from './workspace';

/** A plan of the workspace, and how its paths and the editor's addresses go together. */
export interface OpenPlan {
  /** The address of the plan's folder. */
  readonly root: string;
  readonly session: PlanSession;
  uriOf(file: string): string | undefined;
  /** Path and address of every file. */
  files(): Iterable<readonly [string, string]>;
  fileOf(uri: string): string;
}

export interface SessionsHost {
  readonly delays: Delays;
  severities(): ReadonlyMap<string, SeverityChoice>;
  later(milliseconds: number, work: () => void): () => void;
  now(): number;
  computed(plan: OpenPlan, snapshot: Snapshot): void;
  /** Addresses that belong to a plan; everything else has no findings. */
  belonging(uris: ReadonlySet<string>): void;
}

/** The plans of a workspace, one session each, created and dropped as files come and go. */
export class PlanSessions {
  private readonly open = new Map<string, OpenPlan & { uris: ReadonlyMap<string, string> }>();
  private last: string | undefined;

  constructor(
    private readonly workspace: Workspace,
    private readonly host: SessionsHost,
  ) {}

  /** Files have come or gone: brings the plans in line, and computes those that changed. */
  regroup(): void {
    const plans = this.workspace.plans();
    for (const [root, { session }] of [...this.open]) {
      if (plans.has(root)) continue;
      session.dispose();
      this.open.delete(root);
    }
    for (const [root, uris] of plans) {
      const byPath = new Map(uris.map((uri) => [pathInPlan(root, uri), uri]));
      const known = this.open.get(root);
      if (known && isSameMap(known.uris, byPath)) continue;
      if (known) known.uris = byPath;
      else this.open.set(root, this.create(root, byPath));
      this.open.get(root)?.session.edited();
    }
    this.host.belonging(new Set([...plans.values()].flat()));
  }

  /** The text of a file has changed. */
  edited(uri: string): void {
    this.planOf(uri)?.session.edited();
  }

  /** A document of a file says what the file did: what is known of it is told with the document's version. */
  retold(uri: string): void {
    this.planOf(uri)?.session.retold();
  }

  /** What is known of all plans is told again. */
  retoldAll(): void {
    for (const { session } of this.open.values()) session.retold();
  }

  /** All plans are to be computed anew: the settings have changed. */
  editedAll(): void {
    for (const { session } of this.open.values()) session.edited();
  }

  planOf(uri: string): OpenPlan | undefined {
    for (const [root, uris] of this.workspace.plans()) if (uris.includes(uri)) return this.open.get(root);
    return undefined;
  }

  /** The plan of a document; without one, the plan that was computed last, else any. */
  planOrLatest(uri: string | undefined): OpenPlan | undefined {
    const own = uri === undefined ? undefined : this.planOf(uri);
    return own ?? this.open.get(this.last ?? '') ?? this.open.values().next().value;
  }

  /** Every plan of the workspace. */
  all(): OpenPlan[] {
    return [...this.open.values()];
  }

  withRoot(root: string): OpenPlan | undefined {
    return this.open.get(root);
  }

  dispose(): void {
    for (const { session } of this.open.values()) session.dispose();
  }

  private create(
    root: string,
    uris: ReadonlyMap<string, string>,
  ): OpenPlan & { uris: ReadonlyMap<string, string> } {
    const session = new PlanSession(
      {
        files: () =>
          [...plan.uris].flatMap(([path, uri]) => {
            const text = this.workspace.text(uri);
            return text === undefined ? [] : [{ path, text }];
          }),
        severities: () => this.host.severities(),
        later: (milliseconds, work) => this.host.later(milliseconds, work),
        now: () => this.host.now(),
        computed: (snapshot) => {
          this.last = root;
          this.host.computed(plan, snapshot);
        },
      },
      this.host.delays,
    );
    const plan = {
      root,
      session,
      uris,
      files: () => plan.uris,
      uriOf: (file: string) => plan.uris.get(file),
      fileOf: (uri: string) => pathInPlan(root, uri),
    };
    return plan;
  }
}

/** The plan's name for people, short enough for a title: what its season is called, else its folder's name. */
export function planName(plan: Plan, root: string): string {
  const folder = root.slice(Math.max(root.lastIndexOf('/'), root.indexOf(':')) + 1);
  return shortened(plan.season?.name?.value ?? pathInPlan('', `/${folder}`));
}
