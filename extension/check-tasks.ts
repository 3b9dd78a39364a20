import * as vscode from 'vscode';

/** What a task of this kind says: the plan's folder below the workspace's. */
interface CheckTask extends vscode.TaskDefinition {
  readonly type: 'lotwright';
  readonly plan?: string;
}

const MATCHER = '$lotwright';

/**
 * Tasks that check each plan of the workspace with the command line, for "Run Task" and for keys bound to a build. Only
 * where there are processes: the desktop, and a server that an editor in a browser is connected to.
 */
export function provideCheckTasks(dist: vscode.Uri): vscode.Disposable {
  return vscode.tasks.registerTaskProvider('lotwright', {
    provideTasks: async () => {
      const tasks: vscode.Task[] = [];
      for (const folder of vscode.workspace.workspaceFolders ?? [])
        for (const plan of await plansIn(folder))
          tasks.push(checkTask(dist, folder, { type: 'lotwright', plan }));
      return tasks;
    },
    resolveTask: (task) => {
      const [first] = vscode.workspace.workspaceFolders ?? [];
      const folder = typeof task.scope === 'object' ? task.scope : first;
      return folder && checkTask(dist, folder, { ...task.definition, type: 'lotwright' });
    },
  });
}

function checkTask(dist: vscode.Uri, folder: vscode.WorkspaceFolder, definition: CheckTask): vscode.Task {
  const plan = definition.plan ?? '.';
  const command = vscode.Uri.joinPath(dist, 'cli.cjs').fsPath;
  const execution = new vscode.ProcessExecution(
    process.execPath,
    [command, 'check', plan, '--format', 'lines'],
    {
      cwd: folder.uri.fsPath,
      // The editor's own program runs as Node: the planner needs none.
      env: { ELECTRON_RUN_AS_NODE: '1', NO_COLOR: '1' },
    },
  );
  const name = plan === '.' ? vscode.l10n.t('check the plan') : vscode.l10n.t('check {0}', plan);
  const task = new vscode.Task(definition, folder, name, 'lotwright', execution, MATCHER);
  task.group = vscode.TaskGroup.Build;
  task.detail = vscode.l10n.t('Checks the plan and lists its findings');
  return task;
}

/** Folders with plan files at their top, as paths below the workspace folder. */
async function plansIn(folder: vscode.WorkspaceFolder): Promise<string[]> {
  const found = await vscode.workspace.findFiles(
    new vscode.RelativePattern(folder, '**/*.lotplan.yaml'),
    '**/node_modules/**',
  );
  const folders = new Set(found.map(({ path }) => path.slice(0, path.lastIndexOf('/'))));
  const top = [...folders].filter((one) => ![...folders].some((other) => one.startsWith(`${other}/`)));
  return top.map((path) => path.slice(folder.uri.path.length + 1) || '.').sort();
}
