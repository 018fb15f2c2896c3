// The page begins.

function wire() {
  at('sheet').addEventListener('keydown', ev => {
    if (ev.key !== 'Enter' || ev.target.tagName !== 'INPUT') return;
    ev.preventDefault(); // else what has the focus once the sheet is closed is pressed too
    at('sheet-body').querySelector('.main')?.click();
  });
  const step = by => () => [{kind: 'count', of: target().id, count: Math.max(1, (target().count ?? 0) + by)}];
  on(at('less'), () => press(step(-1)), 0);
  on(at('more'), () => press(step(1)), 0);
  on(at('count'), () => askCount(target()));
  on(at('lot'), () => { say('next lap of ' + running().step); press([{kind: 'lot'}]); });
  on(at('pause'), () => { if (state.paused) return resume(); say('paused'); press([{kind: 'pause'}]); });
  on(at('stop'), stop);
  on(at('next'), tapNext);
  on(at('undo'), () => { say('took back ' + told(state.undoable)); press([{kind: 'undo', of: state.undoable.id}]); });
  on(at('people'), askPeople);
  on(at('note'), () => askNote(target()));
  on(at('change'), askChange);
  on(at('end'), endWork);
  on(at('copy'), copyOut);
  on(at('kept'), tellKept);
  on(at('who'), askWho);
  addEventListener('beforeunload', ev => { if (waiting().length) ev.preventDefault(); });
  addEventListener('online', () => { delay = wait.least; send(); });
  addEventListener('hashchange', send);
  document.addEventListener('visibilitychange', () => { wakeOrSleep(); tick(); if (!document.hidden) send(); });
  others?.addEventListener('message', async () => { await load(); refresh(); });
  setInterval(tick, 200);
}

async function open() {
  try {
    disk = await openDisk();
    await load();
  } catch {
    disk = inMemory({});
  }
  await prune().catch(() => {}); // what is left lies until the next time
  wire();
  refresh();
  send();
}
open();
