import { english } from './words-english';

export interface PanelPageOptions {
  /** Where the view's own files come from, as the editor names it in a content security policy. */
  readonly cspSource: string;
  /** An unguessable word that marks the page's own script; new for each page. */
  readonly nonce: string;
  readonly scriptUri: string;
  readonly styleUri: string;
  /** The editor's language, as BCP 47 has it. */
  readonly language?: string;
  /** The page's texts in that language; those that are left out stay English. */
  readonly words?: Readonly<Record<string, string>>;
}

/** The timeline's page: a strict policy, one style sheet, one script. Everything on it is made by the script. */
export function panelPage({
  cspSource,
  nonce,
  scriptUri,
  styleUri,
  language = 'en',
  words = {},
}: PanelPageOptions): string {
  const told = (key: keyof typeof english) => escaped(words[key] ?? english[key]);
  const policy = `default-src 'none'; style-src ${cspSource}; img-src data:; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${escaped(policy)}">
<link rel="stylesheet" href="${escaped(styleUri)}">
<title>${told('roomTimeline')}</title>
</head>
<body>
<main id="panel" data-words="${escaped(JSON.stringify(words))}">${told('reading')}</main>
<script nonce="${escaped(nonce)}" src="${escaped(scriptUri)}"></script>
</body>
</html>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
}
