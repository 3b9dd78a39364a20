// Loaded in the window of `bench-activation.mjs`: opens a file of the plan and writes down how soon its findings were there.
// `HOST_PLAN` names a plan that is copied into the window's folder, and opened, only when the window has come to rest.
const fs = require('node:fs');
const vscode = require('vscode');

const LONGEST_MS = 60_000;
const AT_REST_MS = 8_000;

exports.run = async () => {
  const [{ uri }] = vscode.workspace.workspaceFolders;
  if (process.env.HOST_PLAN) await broughtAtRest(uri.fsPath);
  const began = Date.now();
  const name = fs.readdirSync(uri.fsPath).find((one) => one.endsWith('.lotplan.yaml'));
  const file = vscode.Uri.joinPath(uri, name);
  const { document } = await vscode.window.showTextDocument(file);
  if (document.languageId !== 'lotplan') throw new Error(`the plan is taken for ${document.languageId}`);
  const api = await vscode.extensions.getExtension('lotwright.lotwright').activate();
  let found = [];
  while (found.length === 0) {
    if (Date.now() - began > LONGEST_MS) throw new Error('no findings');
    await new Promise((resolve) => setTimeout(resolve, 20));
    found = Object.values(api.firstFindings());
  }
  const diagnostics = vscode.languages.getDiagnostics().flatMap(([, all]) => all).length;
  fs.writeFileSync(
    process.env.HOST_REPORT,
    JSON.stringify({ milliseconds: found[0], read: api.codeRead(), diagnostics }),
  );
};

/** Nothing of ours may run before a plan is there. */
async function broughtAtRest(folder) {
  await new Promise((resolve) => setTimeout(resolve, AT_REST_MS));
  if (vscode.extensions.getExtension('lotwright.lotwright').isActive)
    throw new Error('active without a plan');
  fs.cpSync(process.env.HOST_PLAN, folder, { recursive: true });
}
