/** The editor's four kinds of theme, as its list names them, and what a webview's page calls their kind. */
export const THEMES = [
  { look: 'dark', label: 'Dark Modern', kind: 'vscode-dark' },
  { look: 'light', label: 'Light Modern', kind: 'vscode-light' },
  { look: 'high-contrast', label: 'Dark High Contrast', kind: 'vscode-high-contrast' },
  { look: 'high-contrast-light', label: 'Light High Contrast', kind: 'vscode-high-contrast-light' },
];
