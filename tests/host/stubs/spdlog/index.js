// What VS Code asks of @vscode/spdlog, in plain JavaScript: so that no compiler is needed and the log files exist.
const fs = require('node:fs');
const LEVELS = ['trace', 'debug', 'info', 'warning', 'error', 'critical', 'off'];
class Logger {
  constructor(file) {
    this.file = file;
    this.level = 2;
    this.raw = false;
  }
  write(level, text) {
    if (level < this.level) return;
    const line = this.raw ? text : `${new Date().toISOString()} [${LEVELS[level]}] ${text}\n`;
    try {
      fs.appendFileSync(this.file, line);
    } catch {
      /* the folder went away at shutdown */
    }
  }
  trace(t) {
    this.write(0, t);
  }
  debug(t) {
    this.write(1, t);
  }
  info(t) {
    this.write(2, t);
  }
  warn(t) {
    this.write(3, t);
  }
  error(t) {
    this.write(4, t);
  }
  critical(t) {
    this.write(5, t);
  }
  getLevel() {
    return this.level;
  }
  setLevel(l) {
    this.level = l;
  }
  clearFormatters() {
    this.raw = true;
  }
  setPattern() {
    this.raw = false;
  }
  flush() {}
  drop() {}
}
const create = async (_name, file) => new Logger(file);
// One by one, so that `import()` of this CommonJS file sees each name.
exports.version = 0;
exports.setLevel = exports.setFlushOn = exports.shutdown = () => {};
exports.Logger = Logger;
exports.createRotatingLogger = create;
exports.createAsyncRotatingLogger = create;
