export interface PanelPageOptions {
  /** Where the view's own files come from, as the editor names it in a content security policy. */
  readonly cspSource: string;
  /** An unguessable word that marks the page's own script; new for each page. */
  readonly nonce: string;
  readonly scriptUri: string;
  readonly styleUri: string;
}

/** The timeline's page: a strict policy, one style sheet, one script. Everything on it is made by the script. */
export function panelPage({ cspSource, nonce, scriptUri, styleUri }: PanelPageOptions): string {
  const policy = `default-src 'none'; style-src ${cspSource}; img-src data:; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${escaped(policy)}">
<link rel="stylesheet" href="${escaped(styleUri)}">
<title>Room timeline</title>
</head>
<body>
<main id="panel">The plan is being read…</main>
<script nonce="${escaped(nonce)}" src="${escaped(scriptUri)}"></script>
</body>
</html>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
}
