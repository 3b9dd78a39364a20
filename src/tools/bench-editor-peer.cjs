// Loaded before the general YAML language server: takes away its fixed delay before it validates, so that what is
// compared is work and not waiting.
const { SettingsState } = require('yaml-language-server/out/server/src/yamlSettings');

Object.defineProperty(SettingsState.prototype, 'validationDelayMs', { get: () => 0, set() {} });
