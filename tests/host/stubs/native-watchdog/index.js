exports.start = (parent) => {
  setInterval(() => {
    try {
      process.kill(parent, 0);
    } catch {
      process.exit(87);
    }
  }, 2000).unref();
};
