// Bundled by run-host.mjs, which puts the server's place in YAML_SERVER.
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/node';

/* global YAML_SERVER */

/** Schemas that the manifests of other extensions assign to files, by their address. */
function contributedSchemas() {
  const schemas = {};
  for (const { extensionUri, packageJSON } of vscode.extensions.all)
    for (const { fileMatch, url } of packageJSON.contributes?.yamlValidation ?? [])
      schemas[url.startsWith('.') ? vscode.Uri.joinPath(extensionUri, url).toString() : url] = fileMatch;
  return schemas;
}

export async function activate() {
  const run = { command: process.execPath, args: [YAML_SERVER, '--stdio'] };
  const client = new LanguageClient(
    'general-yaml',
    'General YAML',
    { run, debug: run },
    {
      documentSelector: [{ language: 'yaml' }],
      middleware: {
        workspace: {
          configuration: ({ items }) =>
            items.map(({ section }) =>
              section === 'yaml'
                ? {
                    validate: true,
                    hover: true,
                    completion: true,
                    schemas: contributedSchemas(),
                    schemaStore: { enable: false },
                  }
                : section === 'yaml.schemaStore'
                  ? { enable: false }
                  : null,
            ),
        },
      },
    },
  );
  await client.start();
  return { schemas: contributedSchemas() };
}
