import type { Connection } from 'vscode-languageserver';
import type { SeverityChoice } from '../findings/find';
import { isSameMap } from './same-map';
import { severitiesIn } from './settings';

type Choices = ReadonlyMap<string, SeverityChoice>;

/** The editor's settings as they were told last. */
export class KeptSettings {
  severities: Choices = new Map();

  /** Takes what a client has handed over; false where it has handed over none. */
  take(settings: unknown): boolean {
    if (settings === undefined) return false;
    this.severities = severitiesIn(settings);
    return true;
  }

  /** Asks the client. Gives true when they are others than before: clients tell of them when they begin, too. */
  async read(connection: Connection): Promise<boolean> {
    const before = this.severities;
    this.take((await connection.workspace.getConfiguration('lotwright')) ?? null);
    return !isSameMap(before, this.severities);
  }
}
