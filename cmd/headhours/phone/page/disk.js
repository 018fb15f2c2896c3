// What is kept on the phone: three lots of records by id, events {id, session, seq,
// sent, why, event}, sessions {id, seq}, and a few things to remember.

const lots = ['events', 'sessions', 'memory'];
const asked = r => new Promise((yes, no) => { r.onsuccess = () => yes(r.result); r.onerror = () => no(r.error); });

async function openDisk() {
  const opening = indexedDB.open('headhours', 1);
  opening.onupgradeneeded = () => lots.forEach(l => opening.result.createObjectStore(l, {keyPath: 'id'}));
  const db = await asked(opening);
  return {
    lasts: true,
    all: lot => asked(db.transaction(lot).objectStore(lot).getAll()),
    // change runs work in one go: all of it is kept, or none.
    change: work => new Promise((yes, no) => {
      const t = db.transaction(lots, 'readwrite', {durability: 'strict'});
      let result;
      t.oncomplete = () => yes(result);
      t.onabort = () => no(t.error);
      work((lot, id) => asked(t.objectStore(lot).get(id)), (lot, v) => t.objectStore(lot).put(v), (lot, id) => t.objectStore(lot).delete(id))
        .then(r => { result = r; }, e => { no(e); t.abort(); });
    }),
  };
}

// inMemory stands in where the phone keeps nothing for pages.
function inMemory(lists) {
  const held = Object.fromEntries(lots.map(l => [l, new Map((lists[l] || []).map(v => [v.id, v]))]));
  return {
    lasts: false,
    all: async lot => [...held[lot].values()],
    change: work => work(async (lot, id) => held[lot].get(id), (lot, v) => held[lot].set(v.id, v), (lot, id) => held[lot].delete(id)),
  };
}

let disk, events = [], current = '', settings = null, study = null;
const others = 'BroadcastChannel' in self ? new BroadcastChannel('headhours') : null; // tabs of this page on this phone

async function load() {
  events = await disk.all('events');
  const memory = Object.fromEntries((await disk.all('memory')).map(m => [m.id, m.value]));
  current = memory.current || '';
  settings = memory.settings || settings;
  study = memory.study || study;
  ahead = memory.ahead ?? ahead;
}

async function change(work) {
  try {
    return await disk.change(work);
  } catch (e) {
    if (!disk.lasts) throw e;
    disk = inMemory({events, sessions: await disk.all('sessions').catch(() => []), memory: [{id: 'current', value: current}]});
    return disk.change(work);
  }
}

const remember = (id, value) => change(async (get, put) => put('memory', {id, value}));

const eventsOf = session => events.filter(r => r.session === session && !r.why);
const folded = new Map();
function stateOf(session) {
  const held = eventsOf(session), of = folded.get(session);
  if (of?.n !== held.length) folded.set(session, {n: held.length, state: fold(held.map(r => r.event))});
  return folded.get(session).state;
}
// heldReadings are those of all sessions that are on this phone, in the order of the sessions.
const heldReadings = () => [...new Set(events.map(e => e.session))].flatMap(session => stateOf(session).readings);
const waiting = () => events.filter(r => !r.sent && !r.why);

// prune drops what was sent and is older than yesterday.
const prune = () => disk.change(async (get, put, drop) => {
  const yesterday = dateOf(wallNow() - 864e5), waits = new Set(waiting().map(r => r.session));
  for (const r of events) if (r.session < yesterday && r.session !== current && !waits.has(r.session)) drop('events', r.id);
});
