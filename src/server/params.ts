import { requests } from './protocol';
import { askRequest } from './protocol-ask';
import { expectationsRequest } from './protocol-expect';
import { learnRequest, roomLessonsRequest, takeLessonsRequest } from './protocol-learn';
import { papersRequest } from './protocol-papers';
import { tablesRequest, takeInRequest } from './protocol-take-in';

/** What is wrong with a value, in words that end a sentence and begin with its name; undefined where it is as it should be. */
type Shape = (value: unknown, name: string) => string | undefined;

const text: Shape = (value, name) => (typeof value === 'string' ? undefined : not(value, name, 'a text'));
const flag: Shape = (value, name) =>
  typeof value === 'boolean' ? undefined : not(value, name, 'true or false');
const whole: Shape = (value, name) =>
  Number.isSafeInteger(value) ? undefined : not(value, name, 'a whole number');
const anything: Shape = () => undefined;

function not(value: unknown, name: string, expected: string): string {
  return value === undefined ? `${name} is missing: expected ${expected}` : `${name} must be ${expected}`;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function fields(shapes: Readonly<Record<string, Shape>>): Shape {
  const known = Object.entries(shapes);
  const expected =
    known.length === 0 ? 'an object' : `an object with ${known.map(([key]) => key).join(', ')}`;
  return (value, name) => {
    if (!isObject(value)) return not(value, name, expected);
    for (const [key, shape] of known) {
      const wrong = shape(value[key], `${name}.${key}`);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  };
}

function maybe(shape: Shape): Shape {
  return (value, name) => (value === undefined ? undefined : shape(value, name));
}

function list(shape: Shape): Shape {
  return (value, name) => {
    if (!Array.isArray(value)) return not(value, name, 'a list');
    for (const [index, one] of value.entries()) {
      const wrong = shape(one, `${name}[${index}]`);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  };
}

function oneOf(...words: readonly string[]): Shape {
  return (value, name) =>
    words.some((word) => word === value) ? undefined : not(value, name, `one of ${words.join(', ')}`);
}

const byName: Shape = (value, name) => {
  if (!isObject(value)) return not(value, name, 'an object of texts');
  const other = Object.entries(value).find(([, one]) => typeof one !== 'string');
  return other && `${name}.${other[0]} must be a text`;
};

const against: Shape = (value, name) =>
  isObject(value) && 'scenario' in value
    ? fields({ scenario: text })(value, name)
    : fields({ label: text, files: list(fields({ path: text, text })) })(value, name);

const position = fields({ line: whole, character: whole });
const range = fields({ start: position, end: position });
const document = { textDocument: fields({ uri: text }) };
const place = { ...document, position };
const object = fields({});
const ofPlan = { uri: maybe(text) };

/** What each request's parameters must be. Whatever the server answers to stands here. */
const SHAPES: ReadonlyMap<string, Shape> = new Map(
  Object.entries<Readonly<Record<string, Shape>>>({
    'textDocument/hover': place,
    'textDocument/completion': place,
    'textDocument/definition': place,
    'textDocument/documentHighlight': place,
    'textDocument/signatureHelp': place,
    'textDocument/prepareRename': place,
    'textDocument/references': { ...place, context: fields({ includeDeclaration: flag }) },
    'textDocument/rename': { ...place, newName: text },
    'textDocument/selectionRange': { ...document, positions: list(position) },
    'textDocument/codeAction': { ...document, range, context: fields({ only: maybe(list(text)) }) },
    'textDocument/inlayHint': { ...document, range },
    'textDocument/documentSymbol': document,
    'textDocument/foldingRange': document,
    'textDocument/documentLink': document,
    'textDocument/codeLens': document,
    'textDocument/semanticTokens/full': document,
    'textDocument/formatting': document,
    'workspace/symbol': { query: text },
    [requests.timeline]: ofPlan,
    [requests.releaseProblem]: ofPlan,
    [requests.releaseResult]: { root: text, problem: object, result: object },
    [requests.explain]: { uri: text, position },
    [requests.allow]: { uri: text, position, code: text, reason: text },
    [requests.pins]: { ...ofPlan, fill: maybe(text), week: maybe(text), position: maybe(position) },
    [requests.drawsJob]: ofPlan,
    [requests.drawsResult]: { root: text, job: whole, span: object, tally: object, across: maybe(object) },
    [requests.drawnSeasons]: ofPlan,
    [requests.fillProblem]: { ...ofPlan, topUp: maybe(flag) },
    [requests.fillResult]: { root: text, topUp: maybe(flag), problem: object, result: object },
    [requests.fillPage]: { root: text },
    [requests.acceptFills]: { ...ofPlan, room: maybe(text), position: maybe(position) },
    [requests.otherWeek]: { ...ofPlan, fill: text, week: maybe(text) },
    [requests.aroundWeek]: { ...ofPlan, fill: text, week: maybe(text) },
    [requests.pinAround]: { ...ofPlan, fill: text, week: maybe(text) },
    [requests.roomCard]: { ...ofPlan, key: maybe(text), position: maybe(position) },
    [requests.rowAt]: { uri: text, position },
    [requests.seasonCard]: ofPlan,
    [requests.explainFigure]: { ...ofPlan, figure: text },
    [requests.planTexts]: ofPlan,
    [requests.compare]: { ...ofPlan, against: maybe(against) },
    [requests.newPlan]: { name: text, units: oneOf('metric', 'us'), harvest: text },
    [askRequest]: { ...ofPlan, name: text, input: anything, page: maybe(text), solved: maybe(object) },
    [expectationsRequest]: { root: text, judge: maybe(flag) },
    [learnRequest]: { ...ofPlan, of: maybe(list(text)), ask: whole },
    [roomLessonsRequest]: { ...ofPlan, key: text },
    [takeLessonsRequest]: { ...ofPlan, lessons: list(fields({ id: text, value: text })) },
    [papersRequest]: {
      ...ofPlan,
      reader: oneOf('packhouse', 'sales', 'cold-store', 'lab', 'growers', 'everyone'),
      form: oneOf('markdown', 'html', 'csv', 'workbook', 'calendar', 'json'),
      previous: maybe(byName),
    },
    [tablesRequest]: ofPlan,
    [takeInRequest]: { ...ofPlan, table: text, source: text, text },
  }).map(([method, shapes]) => [method, fields(shapes)]),
);

/** Whether the server answers to a request of this name, besides those that begin and end the conversation. */
export function hasParams(method: string): boolean {
  return SHAPES.has(method);
}

/** What is missing or wrong in a request's parameters, in a sentence; undefined where nothing is. */
export function wrongParams(method: string, params: unknown): string | undefined {
  const wrong = SHAPES.get(method)?.(params, 'params');
  return wrong === undefined ? undefined : `${method}: ${wrong}.`;
}
