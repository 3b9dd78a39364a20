// Loaded before a program under measurement: on exit writes what the whole process has used, from its start.
const fs = require('node:fs');
process.on('exit', () => fs.writeFileSync(process.env.BENCH_USAGE, JSON.stringify(process.resourceUsage())));
