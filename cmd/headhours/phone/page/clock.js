// Clocks, lengths of time and names of sessions.

const hex = n => Array.from(crypto.getRandomValues(new Uint8Array(n)), b => b.toString(16).padStart(2, '0')).join('');
const pad = (n, width = 2) => String(n).padStart(width, '0');

// A run of the monotonic clock begins with the page, and again after a sleep:
// that clock stands still while a phone sleeps.
let boot = hex(16);
// ahead is by how much the computer's clock is ahead of this phone's, where that is
// off by more than a little: the computer's time is taken then.
let ahead = 0;
const wallNow = () => Date.now() + ahead;
const maxAhead = 120000; // milliseconds that are let be
const instant = () => ({wall: wallNow(), boot, mono: Math.floor(performance.now())});

let leadWhenHidden = Infinity;
function wakeOrSleep() {
  const lead = Date.now() - performance.now();
  if (lead - leadWhenHidden > 1000) boot = hex(16);
  leadWhenHidden = document.hidden ? lead : Infinity;
}

// local is the wall clock's time as ISO text: 2026-03-02T08:10:00.000+01:00.
function local(ms) {
  const east = -new Date(ms).getTimezoneOffset(), sign = east < 0 ? '-' : '+', off = Math.abs(east);
  return new Date(ms + east * 60000).toISOString().slice(0, -1) + sign + pad(Math.floor(off / 60)) + ':' + pad(off % 60);
}
const dateOf = ms => local(ms).slice(0, 10);
const timeOf = ms => local(ms).slice(11, 19);

// spell is a length of time as the clock shows it: 3:07 or 1:03:07.
function spell(ms) {
  const s = Math.floor(ms / 1000), h = Math.floor(s / 3600), m = Math.floor(s / 60) % 60;
  return (h ? h + ':' + pad(m) : m) + ':' + pad(s % 60);
}

function newSession(now, worker) {
  const code = worker.toLowerCase().replace(/[^a-z0-9]/g, '').slice(0, 20);
  return local(now.wall).slice(0, 16).replace(/:/g, '') + (code && '-' + code) + '-' + hex(4);
}
