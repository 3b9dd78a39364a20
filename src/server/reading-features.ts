import {
  type CodeLens,
  type Connection,
  DocumentHighlightKind,
  FoldingRangeKind,
  type SelectionRange,
  SemanticTokensBuilder,
  SymbolKind,
} from 'vscode-languageserver';
import type { Span } from '../plan/span';
import { cautionInShort, cautionInTitle } from '../room/caution';
import { type Asked, asked } from './asked';
import { addressOf } from './kept-readings';
import { lessonCodeLenses } from './learn-features';
import { toOffset, toPosition, toRange } from './lsp';
import { clientCommands } from './protocol';
import type { ServerState } from './server-state';
import { referencesAt } from './services/definition';
import { foldingOf } from './services/folding';
import { hintsOf } from './services/hints';
import { type Lens, lensesOf } from './services/lenses';
import { fileLinksOf, pageLinksOf } from './services/links';
import { type PaintedName, paintedNamesOf } from './services/names-painted';
import { quantityHelpAt } from './services/quantity-help';
import { selectionAt } from './services/selection';
import { symbolsMatching } from './services/symbols';

const MODIFIER_BITS: Readonly<Record<PaintedName['kind'], number>> = { defined: 1, own: 0, 'built-in': 2 };

/** Registers what shows more of a plan's text than stands in it, and changes nothing. */
export function addReadingFeatures(connection: Connection, state: ServerState): void {
  addStructure(connection, state);
  addNames(connection, state);
  addFigures(connection, state);
}

function addStructure(connection: Connection, state: ServerState): void {
  connection.onFoldingRanges(async ({ textDocument }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    return foldingOf(found.text).map(({ first, last, kind }) => ({
      startLine: first,
      endLine: last,
      ...(kind === 'comment' && { kind: FoldingRangeKind.Comment }),
    }));
  });

  connection.onSelectionRanges(async ({ textDocument, positions }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    return positions.map((position) =>
      chained(found, selectionAt(found.plan.session.plan(), found.point(position))),
    );
  });

  connection.onDocumentLinks(async ({ textDocument }) => {
    const found = await asked(state, textDocument.uri);
    const { pagesUri } = state.options();
    if (!found) return null;
    const plan = found.plan.session.plan();
    const files = fileLinksOf(plan, found.text.path).flatMap(({ at, file }) => {
      const target = addressOf(file, textDocument.uri);
      return target === undefined ? [] : [{ range: toRange(plan, at), target }];
    });
    if (pagesUri === undefined) return files;
    const pages = pageLinksOf(plan, found.text.path).map(({ at, code }) => ({
      range: toRange(plan, at),
      target: `${pagesUri}/${code}.md`,
      tooltip: `What ${code} means`,
    }));
    return [...pages, ...files];
  });
}

function addNames(connection: Connection, state: ServerState): void {
  connection.onDocumentHighlight(async ({ textDocument, position }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const plan = found.plan.session.plan();
    return referencesAt(plan, found.point(position), true)
      .filter(({ file }) => file === found.text.path)
      .map((at) => ({ range: toRange(plan, at), kind: DocumentHighlightKind.Text }));
  });

  connection.onWorkspaceSymbol(async ({ query }) => {
    await state.ready();
    return state.plans.all().flatMap((open) => {
      const plan = open.session.plan();
      return symbolsMatching(plan, query).flatMap(({ name, kind, at }) => {
        const uri = open.uriOf(at.file);
        const location = uri === undefined ? undefined : { uri, range: toRange(plan, at) };
        return location ? [{ name, kind: SymbolKind.Object, containerName: kind, location }] : [];
      });
    });
  });

  connection.languages.semanticTokens.on(async ({ textDocument }) => {
    const found = await asked(state, textDocument.uri);
    const builder = new SemanticTokensBuilder();
    if (found)
      for (const { at, kind } of paintedNamesOf(found.plan.session.plan(), found.text.path)) {
        const { line, character } = toPosition(found.text, at.start);
        builder.push(line, character, at.end - at.start, 0, MODIFIER_BITS[kind]);
      }
    return builder.build();
  });
}

function addFigures(connection: Connection, state: ServerState): void {
  connection.onCodeLens(async ({ textDocument }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const { season, isSettled } = await found.plan.session.soon();
    return [
      ...lensesOf(season, found.text.path, !isSettled).map((lens) =>
        toCodeLens(state, found, textDocument.uri, lens),
      ),
      ...lessonCodeLenses(state, found, textDocument.uri),
    ];
  });

  connection.languages.inlayHint.on(async ({ textDocument, range }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const [start, end] = [toOffset(found.text, range.start), toOffset(found.text, range.end)];
    return hintsOf(found.plan.session.plan(), found.text.path, start, end).map(
      ({ offset, text, opening }) => ({
        position: toPosition(found.text, offset),
        label: text,
        paddingLeft: true,
        ...(opening && { tooltip: cautionInShort }),
      }),
    );
  });

  connection.onSignatureHelp(async ({ textDocument, position }) => {
    const found = await asked(state, textDocument.uri);
    const help = found && quantityHelpAt(found.plan.session.plan(), found.point(position));
    if (!help) return null;
    const { label, parts, active, description } = help;
    const parameters = parts.map(([start, end]): { label: [number, number] } => ({ label: [start, end] }));
    return {
      signatures: [{ label, documentation: description, parameters }],
      activeSignature: 0,
      activeParameter: active,
    };
  });
}

function chained(found: Asked, spans: readonly Span[]): SelectionRange {
  const plan = found.plan.session.plan();
  const whole: Span = { file: found.text.path, start: 0, end: found.text.text.length };
  const [outermost = whole, ...inner] = [...spans].reverse();
  return inner.reduce<SelectionRange>((parent, span) => ({ range: toRange(plan, span), parent }), {
    range: toRange(plan, outermost),
  });
}

/**
 * The caution goes with every week of opening: behind the mouse in our own client, which shows it there, and in the title itself
 * elsewhere, for other clients need not show what lies behind. A click shows more, the room's card or how the figures came
 * about, and changes nothing. Where the client has no command for it, the command is empty: the protocol asks for one, and
 * several editors show the title of an empty one and run nothing.
 */
function toCodeLens(
  state: ServerState,
  found: Asked,
  uri: string,
  { at, title, opening, card }: Lens,
): CodeLens {
  const range = toRange(found.plan.session.plan(), at);
  const hasCommands = state.options().clientCommands;
  const [command, argument] =
    card === undefined
      ? [clientCommands.explainAt, { uri, position: range.start }]
      : [clientCommands.showRoomCard, { fill: card }];
  return {
    range,
    command: {
      title: opening && !hasCommands ? `${title} · ${cautionInTitle}` : title,
      ...(opening && { tooltip: cautionInShort }),
      command: hasCommands ? command : '',
      ...(hasCommands && { arguments: [argument] }),
    },
  };
}
