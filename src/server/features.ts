import type { Connection } from 'vscode-languageserver';
import { addAroundFeatures } from './around-features';
import { addAssistantFeatures } from './assistant-features';
import { addCardFeatures } from './card-features';
import { addDrawFeatures } from './draw-features';
import { addEditingFeatures } from './editing-features';
import { addExpectFeatures } from './expect-features';
import { addFillFeatures } from './fill-features';
import { addLanguageFeatures } from './language-features';
import { addLearnFeatures } from './learn-features';
import { addPaperFeatures } from './paper-features';
import { addPlanFeatures } from './plan-features';
import { addReadingFeatures } from './reading-features';
import type { ServerState } from './server-state';
import { addTakeInFeatures } from './take-in-features';

/** Everything that a client may ask for. */
export function addFeatures(connection: Connection, state: ServerState): void {
  addAroundFeatures(connection, state);
  addAssistantFeatures(connection, state);
  addCardFeatures(connection, state);
  addDrawFeatures(connection, state);
  addEditingFeatures(connection, state);
  addExpectFeatures(connection, state);
  addFillFeatures(connection, state);
  addLanguageFeatures(connection, state);
  addLearnFeatures(connection, state);
  addPaperFeatures(connection, state);
  addPlanFeatures(connection, state);
  addReadingFeatures(connection, state);
  addTakeInFeatures(connection, state);
}
