import type { Connection } from 'vscode-languageserver';
import type { SeverityChoice } from '../findings/find';
import { isSameMap } from './same-map';
import { sectionIn, severitiesIn, wrongIn } from './settings';

type Choices = ReadonlyMap<string, SeverityChoice>;

/** The editor's settings as they were told last. What is wrong with them goes to `complain`, once. */
export class KeptSettings {
  severities: Choices = new Map();
  private wrong: ReadonlySet<string> = new Set();

  constructor(private readonly complain: (wrong: string) => void) {}

  /** Takes the section `lotwright`. Gives true when it is another than before: clients tell of it when they begin, too. */
  take(settings: unknown): boolean {
    const [before, known] = [this.severities, this.wrong];
    this.severities = severitiesIn(settings);
    this.wrong = new Set(wrongIn(settings));
    for (const wrong of this.wrong) if (!known.has(wrong)) this.complain(wrong);
    return !isSameMap(before, this.severities);
  }

  /** Takes the section before the first request: nobody can be told yet what is wrong with it. */
  takeAhead(settings: unknown): void {
    this.severities = severitiesIn(settings);
  }

  /** Takes what a client says with its notice that settings have changed; one that does not name ours leaves them. */
  takeSaid(params: unknown): boolean {
    const settings = sectionIn(params);
    return settings !== undefined && this.take(settings);
  }

  /** Asks the client. */
  async read(connection: Connection): Promise<boolean> {
    return this.take((await connection.workspace.getConfiguration('lotwright')) ?? null);
  }
}
