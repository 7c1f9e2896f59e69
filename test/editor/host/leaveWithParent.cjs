// Preloaded into the server and, through it, into its extension host: both leave when their parent is gone, even if it was killed outright.
const parent = process.ppid;
const EVERY_SECOND = 1000;
setInterval(() => {
  if (process.ppid !== parent) process.kill(process.pid, "SIGKILL");
}, EVERY_SECOND).unref();
