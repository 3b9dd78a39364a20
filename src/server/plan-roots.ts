/**
 * Which files are one plan. A plan's folder is the topmost folder, within the workspace folder, that directly holds a
 * plan file; every plan file in it and below it belongs to that plan. So a workspace folder may hold several plans
 * side by side, but not one inside another. The command line is told the folder instead, and takes the same files.
 */

export const PLAN_FILE_ENDING = '.lotplan.yaml';

export function isPlanFile(address: string): boolean {
  return address.endsWith(PLAN_FILE_ENDING);
}

/** The addresses of plan files by the address of their plan's folder, without a slash at its end. */
export function plansOf(files: Iterable<string>, workspaceFolders: readonly string[]): Map<string, string[]> {
  const all = [...new Set(files)].sort();
  const holding = new Set(all.map(folderOf));
  const plans = new Map<string, string[]>();
  for (const file of all) {
    const root = rootOf(file, holding, workspaceFolders);
    plans.set(root, [...(plans.get(root) ?? []), file]);
  }
  return plans;
}

function rootOf(file: string, holding: ReadonlySet<string>, workspaceFolders: readonly string[]): string {
  const own = folderOf(file);
  // A document that has not been saved anywhere is a plan by itself.
  if (own === '') return file;
  const workspace = workspaceFolders
    .map(withoutSlash)
    .filter((folder) => own === folder || own.startsWith(`${folder}/`))
    // Of workspace folders inside one another, the innermost is the one the planner opened for this plan.
    .sort((a, b) => b.length - a.length)[0];
  if (workspace === undefined) return own;
  let root = own;
  for (let folder = own; folder.length > workspace.length; folder = folderOf(folder))
    if (holding.has(folderOf(folder))) root = folderOf(folder);
  return root;
}

/** A file's path below its plan's folder, as people read it. */
export function pathInPlan(root: string, file: string): string {
  const path = root === file ? file.slice(file.indexOf(':') + 1) : file.slice(root.length + 1);
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

export function folderOf(address: string): string {
  return address.slice(0, Math.max(0, address.lastIndexOf('/')));
}

function withoutSlash(address: string): string {
  return address.endsWith('/') ? address.slice(0, -1) : address;
}
