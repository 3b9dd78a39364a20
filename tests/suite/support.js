// What the suites share. Plain JavaScript without Node's modules: the same files run in a browser's extension host.
const vscode = require('vscode');

/** Asks again until the answer is truthy, and gives it; says what it last saw when it waited in vain. */
const until = async (what, ask, milliseconds = 20_000) => {
  const end = Date.now() + milliseconds;
  let last;
  while (Date.now() < end) {
    last = await ask();
    if (last) return last;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  throw new Error(`waited ${milliseconds} ms for ${what}; last saw ${JSON.stringify(last)}`);
};

const equal = (actual, expected, why = '') => {
  const [a, b] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (a !== b) throw new Error(`${why} expected ${b}, got ${a}`);
};

const holds = (condition, why) => {
  if (!condition) throw new Error(why);
};

/** A file of a sample plan: the workspace is a copy of the sample plans. */
const sample = (plan, file) => {
  const [folder] = vscode.workspace.workspaceFolders;
  return vscode.Uri.joinPath(folder.uri, plan, file);
};

const open = async (plan, file) => {
  const document = await vscode.workspace.openTextDocument(sample(plan, file));
  return vscode.window.showTextDocument(document);
};

/** The position of the first such text in the document, `inside` characters into it. */
const positionOf = (document, text, inside = 0) => {
  const at = document.getText().indexOf(text);
  holds(at >= 0, `no such text in ${document.uri.path}: ${text}`);
  return document.positionAt(at + inside);
};

/** Replaces the first such text, without saving. */
const replace = async (editor, text, by) => {
  const start = positionOf(editor.document, text);
  const end = positionOf(editor.document, text, text.length);
  holds(await editor.edit((edit) => edit.replace(new vscode.Range(start, end), by)), 'the edit was refused');
};

const codes = (uri) =>
  vscode.languages
    .getDiagnostics(uri)
    .filter(({ source }) => source === 'Lotwright')
    .map(({ code }) => (typeof code === 'object' ? code.value : code));

/** Leaves the files as they were. */
const revertAll = async () => {
  await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
};

const extension = () => vscode.extensions.getExtension('lotwright.lotwright');

module.exports = { until, equal, holds, sample, open, positionOf, replace, codes, revertAll, extension };
