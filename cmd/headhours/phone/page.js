// The stopwatch's face on a phone. Each press becomes an event, is kept on the
// phone, shown, and sent until the computer says that it stands in the journal.
'use strict';

// ---- Clocks and names ----

const hex = n => Array.from(crypto.getRandomValues(new Uint8Array(n)), b => b.toString(16).padStart(2, '0')).join('');
const pad = (n, width = 2) => String(n).padStart(width, '0');

// A run of the monotonic clock begins with the page, and again after a sleep:
// that clock stands still while a phone sleeps.
let boot = hex(16);
const instant = () => ({wall: Date.now(), boot, mono: Math.floor(performance.now())});

let leadWhenHidden = Infinity;
function wakeOrSleep() {
  const lead = Date.now() - performance.now();
  if (lead - leadWhenHidden > 1000) boot = hex(16);
  leadWhenHidden = document.hidden ? lead : Infinity;
}

// local is the wall clock's time as ISO text: 2026-03-02T08:10:00.000+01:00.
function local(ms) {
  const ahead = -new Date(ms).getTimezoneOffset(), sign = ahead < 0 ? '-' : '+', off = Math.abs(ahead);
  return new Date(ms + ahead * 60000).toISOString().slice(0, -1) + sign + pad(Math.floor(off / 60)) + ':' + pad(off % 60);
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

// ---- What events come to ----
// The same as the computer's own fold, as far as the page shows it.

const millis = (from, to) => Math.max(0, from.boot === to.boot ? to.mono - from.mono : to.wall - from.wall);
const afterwards = ['count', 'setups', 'note', 'void', 'amend'];

function fold(events) {
  const order = events.map(e => ({...e, wall: Date.parse(e.wall), end: e.end && Date.parse(e.end)}));
  order.sort((a, b) => a.seq - b.seq || a.wall - b.wall || (a.id < b.id ? -1 : 1));
  const s = {order, at: [0], begun: null, ended: false, people: 1, readings: [], running: -1, paused: false, pieces: [], refused: {}, undoable: null};
  for (let i = 1; i < order.length; i++) s.at[i] = s.at[i - 1] + millis(order[i - 1], order[i]);
  const undone = takenBack(s);
  order.forEach((e, i) => {
    if (e.kind === 'undo' || undone.has(e.id)) return;
    const why = take(s, e, s.at[i], i);
    if (why) s.refused[e.id] = why;
    else if (e.kind !== 'begin') s.undoable = e;
  });
  addUp(s);
  return s;
}

function addUp(s) {
  for (const r of s.readings) Object.assign(r, {net: 0, handed: 0, changed: false});
  for (const p of s.pieces) {
    const r = s.readings[p.of];
    if (!r) continue;
    r.net += p.to - p.from;
    r.handed += p.people * (p.to - p.from);
    r.changed ||= p.people !== r.people;
  }
  for (const r of s.readings) r.hands = r.average ?? (r.changed && r.net ? r.handed / r.net : r.people);
}

function takenBack(s) {
  const undone = new Set(), known = new Set(), standing = [];
  for (const e of s.order) {
    if (e.kind !== 'undo') {
      known.add(e.id);
      standing.push(e.id);
      continue;
    }
    while (standing.length && undone.has(standing.at(-1))) standing.pop();
    const of = e.of || standing.at(-1);
    if (of && known.has(of) && !undone.has(of)) undone.add(of);
    else s.refused[e.id] = 'there is nothing to undo';
  }
  return undone;
}

// take takes an event in, or says why it does not fit.
function take(s, e, t, i) {
  if (e.kind === 'begin') {
    if (s.begun) return 'the session has begun already';
    s.begun = e;
    s.people = e.people ?? 1;
    s.pieces.push({from: t, to: t, wall: e.wall, what: 'idle'});
    return;
  }
  if (!s.begun) return 'no session has begun';
  if (s.ended && !afterwards.includes(e.kind)) return 'the session has ended';
  if (!s.ended) s.pieces.at(-1).to = t;
  const running = s.readings[s.running];
  switch (e.kind) {
    case 'start': case 'next': case 'lot':
      return begin(s, e, t);
    case 'pause':
      if (!running) return 'nothing runs';
      if (s.paused) return 'it is paused already';
      s.paused = true;
      s.pieces.push({from: t, to: t, wall: e.wall, what: 'pause'});
      return;
    case 'resume':
      if (!s.paused) return 'nothing is paused';
      s.paused = false;
      work(s, e, t);
      return;
    case 'people':
      s.people = e.people;
      if (running) running.people = e.people;
      if (running && !s.paused) work(s, e, t);
      return;
    case 'stop':
      if (!running) return 'nothing runs';
      finish(s, e, t);
      return;
    case 'end':
      if (running) finish(s, e, t);
      s.ended = true;
      return;
  }
  return correct(s, e, i);
}

function begin(s, e, t) {
  const before = s.readings.at(-1);
  if (e.kind === 'lot' && !before) return 'there is no reading to carry on';
  if (s.running >= 0) finish(s, e, t);
  const like = e.kind === 'lot' ? {...before, setups: 0} : {...s.begun, people: s.people, setups: null};
  const r = {
    id: e.id, session: e.session, step: e.step ?? like.step, grow: e.grow ?? like.grow, workflow: e.workflow ?? like.workflow,
    worker: e.worker ?? like.worker, people: e.people ?? like.people, setups: e.setups ?? like.setups, count: e.count ?? null,
    note: e.text || '', void: '', began: e.wall, from: t, ended: null, judged: false, lot: e.kind === 'lot',
  };
  const i = s.readings.length;
  if (e.kind !== 'start' && before) {
    for (let k = s.pieces.length - 1; k >= 0 && s.pieces[k].what === 'idle'; k--) {
      const p = s.pieces[k];
      Object.assign(p, {what: 'work', of: i, people: r.people});
      [r.began, r.from] = [p.wall, p.from];
    }
  }
  s.running = i;
  s.readings.push(r);
  work(s, e, t);
}

const work = (s, e, t) => s.pieces.push({from: t, to: t, wall: e.wall, what: 'work', of: s.running, people: s.readings[s.running].people});

// finish ends the reading that runs: now, or where it was paused if it still is.
function finish(s, e, t) {
  const r = s.readings[s.running], p = s.pieces.at(-1);
  [r.ended, r.to] = s.paused ? [p.wall, p.from] : [e.wall, t];
  s.paused = false;
  s.running = -1;
  s.pieces.push({from: t, to: t, wall: e.wall, what: 'idle'});
}

function correct(s, e, i) {
  const which = e.of ? s.readings.findIndex(r => r.id === e.of) : s.running >= 0 ? s.running : s.readings.length - 1;
  const r = s.readings[which];
  if (!r) return e.kind === 'note' && !e.of ? undefined : 'there is no such reading';
  if (e.end) {
    const why = moveEnd(s, e, i, which);
    if (why) return why;
  }
  for (const name of ['step', 'grow', 'workflow', 'worker', 'count', 'setups']) if (e[name] != null) r[name] = e[name];
  if (e.kind === 'note') r.note = r.note ? r.note + '; ' + e.text : e.text;
  if (e.kind === 'amend' && e.people != null) r.average = e.people;
  if (e.kind === 'void') [r.void, r.voidedBy] = [e.text, e.id];
}

function moveEnd(s, e, i, which) {
  const r = s.readings[which], next = s.readings[which + 1];
  if (e.end <= r.began) return 'that is before it began';
  if (e.end > e.wall) return 'that has not come yet';
  let [wall, at, limit] = [r.began, r.from, Infinity];
  for (let k = 0; k <= i; k++) {
    if (s.at[k] < r.from) continue;
    if (s.order[k].wall > e.end) {
      limit = s.at[k];
      break;
    }
    [wall, at] = [s.order[k].wall, s.at[k]];
  }
  const t = Math.min(at + e.end - wall, limit);
  if (t <= r.from) return 'by the stopwatch that is before it began';
  if (next && t > next.from) return 'the next step had begun by then';
  if (s.ended && t > s.pieces.at(-1).to) return 'work had ended by then';
  if (s.running === which) finish(s, e, s.at[i]);
  s.pieces = s.pieces.flatMap(p => {
    const its = p.what === 'work' && p.of === which;
    if (!its && (p.what !== 'idle' || p.from < r.from)) return [p];
    const parts = p.from < t && t < p.to ? [{...p, to: t}, {...p, from: t, wall: e.end}] : [p];
    return parts.map(q => q.from >= t ? {...q, what: 'idle', of: undefined} : {...q, what: 'work', of: which, people: its ? q.people : r.people});
  });
  Object.assign(r, {ended: e.end, to: t, judged: true});
  if (s.running < 0 && !s.ended) s.pieces.push({from: s.at[i], to: s.at[i], wall: e.wall, what: 'idle'});
}

// elapsed is the net time of the reading that runs.
function elapsed(s, now) {
  const r = s.readings[s.running];
  if (!r) return 0;
  return s.paused ? r.net : r.net + sinceLast(s, now);
}

const sinceLast = (s, now) => s.at.at(-1) + millis(s.order.at(-1), now) - s.pieces.at(-1).to;

// rested is for how long a reading of the session was paused, up to now if it is.
function rested(s, r, now) {
  const to = r.ended ? r.to : Infinity, its = s.pieces.filter(p => p.what === 'pause' && p.from >= r.from && p.from < to);
  const before = its.reduce((sum, p) => sum + Math.min(p.to, to) - p.from, 0);
  return !r.ended && s.paused ? before + sinceLast(s, now) : before;
}

const lacksCount = r => r.ended && !r.void && (r.count == null || (r.count === 0 && !(r.setups > 0)));

// ---- Kept on the phone ----
// Three lots of records by id: events {id, session, seq, sent, why, event},
// sessions {id, seq}, and a few things to remember.

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
  const yesterday = dateOf(Date.now() - 864e5), waits = new Set(waiting().map(r => r.session));
  for (const r of events) if (r.session < yesterday && r.session !== current && !waits.has(r.session)) drop('events', r.id);
});

// ---- Presses ----

let turn = Promise.resolve();

// press records events of a session, the current one unless another is named, at
// this moment; a start begins a new session where need be. A function gives the
// events when all presses before it are in.
function press(parts, session) {
  const now = instant();
  navigator.vibrate?.(40);
  turn = turn.then(() => record(parts, session, now)).catch(e => trouble('kept', 'This press could not be kept: ' + e.message));
  return turn;
}

async function record(made, session, now) {
  const parts = typeof made === 'function' ? made() : made;
  const runs = state.running >= 0;
  const opens = !session && parts.some(p => ['start', 'next', 'people', 'note'].includes(p.kind)) && needsNew(runs, now, parts);
  const into = opens ? newSession(now, settings.worker) : session || current;
  const list = parts.map(p => [into, p]);
  if (opens) {
    if (runs) list.unshift([current, {kind: 'end'}]);
    const begin = {kind: 'begin'};
    for (const name of ['grow', 'workflow', 'worker']) if (settings[name]) begin[name] = settings[name];
    if (state.people !== 1) begin.people = state.people;
    list.splice(list.length - parts.length, 0, [into, begin]);
  }
  const why = misfit(list, now);
  if (why) return say(why);
  const records = await change(async (get, put) => {
    const fresh = [], seqs = {};
    for (const [name, part] of list) {
      seqs[name] ??= (await get('sessions', name))?.seq || 0;
      const e = stamp(name, ++seqs[name], part, now);
      fresh.push({id: e.id, session: name, seq: e.seq, sent: false, why: '', event: e});
      put('events', fresh.at(-1));
      put('sessions', {id: name, seq: seqs[name]});
    }
    if (opens) put('memory', {id: 'current', value: into});
    return fresh;
  });
  events.push(...records);
  if (opens) current = into;
  others?.postMessage('pressed');
  refresh();
  send();
}

function stamp(session, seq, part, now) {
  return {session, seq, id: hex(16), wall: local(now.wall), boot: now.boot, mono: now.mono, ...part};
}

// needsNew says whether the session that goes on is not the one meant: there is
// none, it has ended, it is of another day, or of another grow, workflow or worker.
function needsNew(runs, now, parts) {
  const b = state.begun;
  if (!b || state.ended) return true;
  if (!parts.some(p => p.kind === 'start' || p.kind === 'next')) return false;
  return (!runs && current.slice(0, 10) !== dateOf(now.wall)) || ['grow', 'workflow', 'worker'].some(n => (b[n] || '') !== (settings[n] || ''));
}

// misfit says why presses would not fit, such as a resume where nothing is paused.
function misfit(list, now) {
  for (const name of new Set(list.map(([n]) => n))) {
    const held = eventsOf(name).map(r => r.event);
    const last = held.reduce((m, e) => Math.max(m, e.seq), 0);
    const more = list.filter(([n]) => n === name).map(([, part], i) => stamp(name, last + 1 + i, part, now));
    const {refused} = fold([...held, ...more]);
    const why = more.map(e => refused[e.id]).find(Boolean);
    if (why) return why;
  }
}

// ---- Sent to the computer ----

const wait = {least: 1000, most: 15000};
let sending = false, delay = wait.least, timer = 0, key = '', link = 'new', heard = [], dayOfOthers = [];

async function ask(path, options = {}) {
  const stop = new AbortController(), t = setTimeout(() => stop.abort(), 10000);
  try {
    const answer = await fetch(path, {cache: 'no-store', credentials: 'same-origin', signal: stop.signal, ...options});
    const text = await answer.text();
    return {status: answer.status, ok: answer.ok, text, value: answer.ok && text ? JSON.parse(text) : null};
  } finally {
    clearTimeout(t);
  }
}

// send sends what waits, a session at a time, and asks for what others have
// timed. It tries again later, ever more seldom, until the computer answers.
async function send() {
  if (sending) return;
  sending = true;
  clearTimeout(timer);
  showSaved();
  try {
    await unlock();
    if (!study || link !== 'here') await learn();
    while (waiting().length) await sendBatch();
    const day = await expect(ask('/days/' + dateOf(Date.now())));
    dayOfOthers = day.readings.filter(r => !events.some(e => e.session === r.session));
    [link, delay] = ['here', wait.least];
    trouble('link', '');
  } catch (e) {
    link = e.link || 'away';
    trouble('link', e.link ? e.message : '');
    delay = Math.min(2 * delay, wait.most);
  }
  sending = false;
  timer = setTimeout(send, link !== 'here' ? delay : waiting().length ? 0 : 2 * wait.most);
  refresh();
}

// unlock gives the key in the page's address for a cookie; then the address need
// not show it any more.
async function unlock() {
  if (location.hash.length > 1) key = location.hash.slice(1);
  if (!key) return;
  const answer = await ask('/key', {method: 'POST', body: key});
  if (!answer.ok) throw wrong(answer);
  key = '';
  history.replaceState(null, '', location.pathname);
}

async function learn() {
  const answer = await ask('/study');
  if (answer.status === 409) return trouble('study', answer.text);
  trouble('study', '');
  study = await expect(answer);
  await remember('study', study);
}

// settle leaves no setting open, and none that the study does not know any more.
function settle() {
  settings ??= {workflow: study.workflows[0]?.name || '', grow: study.grows.at(-1) || '', worker: '', told: false};
  if (!study.workflows.some(w => w.name === settings.workflow)) settings.workflow = '';
}

async function expect(answering) {
  const answer = await answering;
  if (!answer.ok) throw wrong(answer);
  return answer.value;
}

// wrong is the error of an answer that is none. It says what stands in the way,
// unless that is only the network.
function wrong(answer) {
  const link = answer.status === 401 ? 'locked' : 'refused';
  const text = link === 'locked' ? 'The key has changed or is missing. Open the address that headhours phone shows on the computer, once more.'
    : 'The computer says: ' + answer.text.trim();
  return Object.assign(new Error(text), {link});
}

async function sendBatch() {
  const session = waiting()[0].session;
  const batch = waiting().filter(r => r.session === session).slice(0, 200);
  const body = batch.map(r => JSON.stringify(r.event)).join('\n');
  const value = await expect(ask('/sessions/' + session, {method: 'POST', body}));
  for (const {event, why} of value.refused) batch[event - 1].why = why;
  batch.forEach(r => { r.sent = !r.why; });
  heard = value.warnings;
  const mine = events.filter(r => r.session === session && r.sent);
  const lost = value.refused.length < batch.length && value.held < mine.length; // the journal was put back to an older one
  if (lost) mine.forEach(r => { r.sent = false; });
  await change(async (get, put) => [...batch, ...lost ? mine : []].forEach(r => put('events', r)));
  others?.postMessage('sent');
}

// ---- Shown ----

const at = id => document.getElementById(id);
let state = fold([]), troubles = {}, snoozed = {};

// make makes an element; what comes from people only ever becomes text.
function make(tag, props = {}, ...inside) {
  const el = Object.assign(document.createElement(tag), props);
  el.append(...inside.filter(i => i != null));
  return el;
}

// on runs act on a press, but not again for one that bounces: wet fingers and
// plastic bags press twice. A key held down is one press too.
function on(el, act, bounce = 350) {
  let before = -Infinity;
  el.addEventListener('click', ev => {
    const gap = ev.timeStamp - before;
    before = ev.timeStamp;
    if (gap >= bounce) act(ev);
  });
  return el;
}
const button = (text, act, props = {}) => on(make('button', {type: 'button', textContent: text, ...props}), act);

const say = text => { at('say').textContent = text; };
const dots = (...parts) => parts.filter(Boolean).join(' · ');
const unitOf = step => study?.steps.find(s => s.name === step)?.per || 'unit';
// fixedOf is the count that a step has each time, where the study says so: nobody is asked for it.
const taskOf = (step, workflow) => study.workflows.find(w => w.name === workflow)?.tasks.find(t => t.step === step);
const fixedOf = (step, workflow) => (taskOf(step, workflow) || study.steps.find(s => s.name === step))?.fixed ?? null;
const isFixed = r => r.count != null && r.count === fixedOf(r.step, r.workflow);
const withFixed = (part, workflow) => { const count = fixedOf(part.step, workflow); return count == null ? part : {...part, count}; };
const counted = r => (r.count === 0 && r.setups > 0 ? 'getting ready' : `${r.count} × ${unitOf(r.step)}`);
const running = () => state.readings[state.running];
const ended = () => state.readings.filter(r => r.ended);
// target is the reading that the count is of: the one that runs, or else the last.
const target = () => running() || state.readings.at(-1);

function trouble(kind, text) {
  troubles[kind] = text;
  const all = Object.values(troubles).filter(Boolean).join('\n');
  if (at('trouble').textContent !== all) at('trouble').textContent = all;
  at('trouble').hidden = !all;
}

function refresh() {
  state = stateOf(current);
  showSaved();
  if (!study) return;
  settle();
  if (at('bench').hidden) at('today').before(at('trouble')); // below what is pressed, which must not move under the finger
  at('bench').hidden = false;
  showHand();
  showTasks();
  showLast();
  showToday();
  tick();
  if (!settings.told && !at('sheet').open) askWho();
}

let savedKind = '';
function showSaved() {
  const n = waiting().length;
  const kind = n ? (link === 'here' ? 'sending' : 'waiting') : link === 'here' ? 'saved' : 'away';
  at('saved').textContent = {
    saved: 'All saved',
    sending: 'Saving ' + n,
    waiting: (troubles.link ? 'See below: ' : 'Waiting: ') + n,
    away: link === 'new' ? 'Opening …' : troubles.link ? 'See below' : 'All saved, computer away',
  }[kind];
  at('saved').dataset.kind = kind;
  trouble('waiting', kind === 'waiting' && link !== 'new'
    ? 'Presses wait on this phone until the computer can be reached. Go on timing; keep this page open.' : '');
  if (kind !== savedKind && kind !== 'sending') say(at('saved').textContent);
  if (kind !== 'sending') savedKind = kind;
  trouble('lasting', disk.lasts ? '' : 'This phone keeps nothing for this page: presses that wait are lost if it is closed.');
  const why = events.find(r => r.why)?.why;
  trouble('refused', why ? 'The computer could not take some presses: ' + why : '');
}

function tick() {
  const now = instant(), r = running(), ms = elapsed(state, now);
  const shown = spell(ms);
  if (at('clock').textContent !== shown) at('clock').textContent = shown;
  at('clock').classList.toggle('long', ms >= 36e5);
  document.title = r ? `${shown} ${r.step}` : 'headhours';
  if (r && overdue(r, ms) && at('last').dataset.of !== 'overdue') showLast();
}

// overdue says whether to ask if a reading was forgotten: at three times what is
// usual for its step, or after twenty minutes where nothing is known.
function overdue(r, ms) {
  const usual = study?.steps.find(s => s.name === r.step)?.usual_s;
  return !state.paused && ms >= (snoozed[r.id] || (usual > 0 ? 3000 * usual : 12e5));
}

function showHand() {
  const r = running(), t = target(), live = Boolean(r);
  at('step').textContent = r ? r.step : 'Nothing runs';
  at('now').dataset.kind = !r ? 'idle' : state.paused ? 'paused' : 'runs';
  const about = () => dots(state.paused ? 'paused' : 'since ' + timeOf(r.began), r.setups === 0 && 'next lot', r.people !== 1 && r.people + ' people');
  at('about').textContent = r ? about() : 'Tap a task to start it.';
  const unit = t ? '× ' + unitOf(t.step) + (live ? '' : ', ' + t.step) : 'count';
  at('count').replaceChildren(make('b', {textContent: t?.count ?? '–'}), ' ', make('small', {textContent: unit}));
  at('count').setAttribute('aria-label', at('count').textContent + (t ? `: count of ${t.step}, type another` : ''));
  const fixed = Boolean(t && isFixed(t));
  at('less').disabled = fixed || !(t?.count > 1);
  at('more').disabled = at('count').disabled = fixed || !t;
  at('pause').disabled = at('stop').disabled = !live;
  at('lot').disabled = fixed || !live;
  at('pause').textContent = state.paused ? 'Go on' : 'Pause';
  at('undo').disabled = !state.undoable;
  at('undo').setAttribute('aria-label', state.undoable ? 'Undo ' + told(state.undoable) : 'Undo');
  at('who').textContent = dots(settings.workflow, settings.grow, settings.worker) || 'Who and what';
  at('who').hidden = false;
  at('end').disabled = !state.begun || state.ended;
  at('report').hidden = !study.report;
}

const told = e => [e.kind, e.step || (e.count ?? e.people ?? ''), e.text || ''].filter(t => t !== '').join(' ');

let laid = '';
function showTasks() {
  const workflow = study.workflows.find(w => w.name === settings.workflow);
  const tasks = workflow ? workflow.tasks.map(t => t.step) : study.steps.map(s => s.name);
  const rest = study.steps.map(s => s.name).filter(n => !tasks.includes(n));
  const layout = JSON.stringify([tasks, rest]);
  if (layout !== laid) {
    at('tasks').replaceChildren(...tasks.map(taskButton));
    at('steps').replaceChildren(...rest.map(taskButton));
    at('others').hidden = !rest.length;
    laid = layout;
  }
  const r = running();
  for (const b of document.querySelectorAll('.task')) {
    const its = r?.step === b.dataset.step;
    b.setAttribute('aria-pressed', its);
    b.lastChild.textContent = its ? (state.paused ? 'paused: tap to go on' : 'running: tap to stop') : '';
  }
}

function taskButton(step) {
  const b = make('button', {type: 'button', className: 'task'}, make('span', {textContent: step}), make('small'));
  b.dataset.step = step;
  return on(b, () => tapTask(step));
}

function tapTask(step) {
  const r = running();
  if (r?.step === step && state.paused) return resume();
  if (r?.step === step) return stop();
  say(step + ' started');
  press([withFixed({kind: r ? 'next' : 'start', step}, settings.workflow)]);
}

function stop() {
  say(`${running().step} stopped after ${spell(elapsed(state, instant()))}`);
  press([{kind: 'stop'}]);
}

function resume() {
  say('going on');
  press([{kind: 'resume'}]);
}

// showLast asks what there is to ask of readings, one thing at a time and of the newest
// first: that is the one that is counted above when nothing runs.
function showLast() {
  const r = running(), lacking = ended().filter(lacksCount).at(-1), last = ended().at(-1);
  let of = 'nothing', text = '', ask = [];
  if (r && overdue(r, elapsed(state, instant()))) {
    of = 'overdue';
    text = `Still at “${r.step}”? When did you stop?`;
    const goOn = () => { snoozed[r.id] = 2 * elapsed(state, instant()); showLast(); };
    ask = [button('Stopped at …', () => askWhen(r)), button('Still at it', goOn)];
  } else if (lacking) {
    const t = target(), another = lacking !== t && lacking.step === t.step;
    of = 'count ' + lacking.id;
    text = `${lacking.step}${another ? ' from ' + timeOf(lacking.began) : ''}, ${spell(lacking.net)}: how many? (× ${unitOf(lacking.step)})`;
    ask = [...firstGuess(lacking), button('Count …', () => askCount(lacking))];
    if (lacking === t) ask.push(button('Put right', () => askReading(lacking)));
  } else if (last) {
    of = 'last ' + last.id;
    text = `Last: ${last.step}, ${spell(last.net)}, ${last.void ? 'void' : counted(last)}`;
    ask = [button('Put right', () => askReading(last))];
  }
  at('before').textContent = text;
  const signature = of + text + ask.length;
  if (at('last').dataset.shown !== signature) at('ask').replaceChildren(...ask);
  at('last').dataset.shown = signature;
  at('last').dataset.of = of;
  at('last').hidden = of === 'nothing';
}

// firstGuess offers the likeliest count of a reading, one tap away.
const firstGuess = r => guesses(r).slice(0, 1).map(([guess, n]) => button(guess, () => setCount(r, n)));

// guesses are counts that a reading may well have: that of the step's reading
// before it, and what the plan leaves to it.
function guesses(r) {
  const all = stateOf(r.session).readings, at = all.findIndex(o => o.id === r.id);
  const before = all.slice(0, at).filter(o => o.step === r.step && o.count > 0);
  return [[before.at(-1)?.count, ' again'], planned(r, all, at)].filter(([n]) => n > 0).map(([n, why]) => [n + why, n]);
}

// planned is what the plan foresees of a reading: of a visit taken in lots what the
// others leave, which nobody knows while one of them has no count or is void.
function planned(r, all, at) {
  const rounded = n => (n < 10 ? Math.round(10 * n) / 10 : Math.round(n));
  const due = rounded(taskOf(r.step, r.workflow)?.due || 0);
  let [from, to] = [at, at];
  while (all[from].lot && all[from - 1]?.step === r.step) from--;
  while (all[to + 1]?.lot && all[to + 1].step === r.step) to++;
  const others = all.slice(from, to + 1).filter(o => o.id !== r.id);
  if (others.some(o => o.void || o.count == null)) return [0];
  const covered = others.reduce((sum, o) => sum + o.count, 0);
  return covered ? [rounded(due - covered), ' left of the plan'] : [due, ' as planned'];
}

const rows = new Map();
function showToday() {
  const today = dateOf(Date.now());
  const own = heldReadings().filter(r => dateOf(r.began) === today);
  const theirs = dayOfOthers.map(o => ({...o, began: Date.parse(o.began), ended: o.running ? null : 1, net: 1000 * o.seconds, foreign: true}));
  const all = [...own, ...theirs].sort((a, b) => b.began - a.began);
  const done = all.filter(r => r.ended && !r.void);
  const work = spell(done.reduce((sum, r) => sum + r.net, 0));
  at('sum').textContent = all.length ? `${done.length} ${done.length === 1 ? 'reading' : 'readings'}, ${work} of work` : 'Nothing timed yet.';
  const list = all.map(r => {
    const key = r.session + r.id;
    if (!rows.has(key)) rows.set(key, row(r));
    fillRow(rows.get(key), r);
    return rows.get(key);
  });
  const there = at('readings').children;
  if (list.length !== there.length || list.some((li, i) => there[i] !== li)) at('readings').replaceChildren(...list);
  at('odd').replaceChildren(...heard.map(w => make('li', {textContent: w})));
}

function row(r) {
  if (r.foreign) return make('li', {className: 'foreign'}, make('div', {className: 'reading'}));
  const b = button('', () => askReading(stateOf(r.session).readings.find(o => o.id === r.id)), {className: 'reading'});
  return make('li', {}, b);
}

function fillRow(li, r) {
  const count = !r.ended ? goingOn(r) : lacksCount(r) ? 'needs a count' : r.count == null ? '' : counted(r);
  const facts = dots(count, r.worker, r.foreign && 'another recorder', r.note, r.void && 'void: ' + r.void);
  const signature = [r.began, r.step, r.net, facts, r.void].join();
  if (li.dataset.shown === signature) return;
  li.dataset.shown = signature;
  li.classList.toggle('void', Boolean(r.void));
  li.firstChild.replaceChildren(...inRow(r, facts));
}

// goingOn says how a reading that has not ended goes on.
const goingOn = r => ((r.foreign ? r.paused : stateOf(r.session).paused) ? 'paused' : 'running');

const inRow = (r, facts) => [
  make('span', {className: 'when', textContent: timeOf(r.began).slice(0, 5)}), make('b', {textContent: r.step}),
  make('span', {className: 'length', textContent: r.ended ? spell(r.net) : ''}), make('small', {textContent: facts}),
];

// ---- Asked ----

// sheet shows a question over the page; Esc and Back close it.
function sheet(title, ...inside) {
  at('sheet-title').textContent = title;
  at('sheet-body').replaceChildren(...inside.filter(Boolean));
  if (!at('sheet').open) at('sheet').showModal();
  at('sheet').scrollTop = 0;
  (at('sheet-body').querySelector('[autofocus]') || at('sheet-title')).focus();
}
const close = () => at('sheet').close();
const back = () => button('Back', close);
const closing = (text, act, props) => button(text, () => { close(); act(); }, props);
const rowOf = (...inside) => make('div', {className: 'row'}, ...inside);
const done = (act, text = 'Done') => button(text, act, {className: 'main'});
const alertLine = () => make('p', {className: 'wrong', role: 'alert'});

let fields = 0;
function field(text, input, hint) {
  input.id = 'field' + ++fields;
  const help = hint ? make('small', {id: input.id + 'hint', textContent: hint}) : null;
  if (help) input.setAttribute('aria-describedby', help.id);
  return make('div', {className: 'field'}, make('label', {htmlFor: input.id, textContent: text}), input, help);
}

// clean keeps of a text what a journal takes.
const clean = (text, blanks = '') => text.replace(/\p{Cc}/gu, c => (blanks.includes(c) ? c : ' ')).trim();

// askNumber shows a keypad. take takes the number, or says what is wrong with it;
// then comes what is shown afterwards, taken or not.
function askNumber(title, hint, suggestions, take, then = () => {}) {
  const input = make('input', {type: 'text', inputMode: 'none', autocomplete: 'off', className: 'number', autofocus: true});
  const wrongLine = alertLine();
  const use = text => {
    const typed = text.trim().replace(',', '.');
    const n = Number(typed), good = /^(\d+\.?\d*|\.\d+)$/.test(typed) && n <= 1e9 && (n === 0 || n >= 1e-6);
    const problem = good ? take(n) : 'Type a number, such as 24 or 7.5.';
    wrongLine.textContent = problem || '';
    if (!problem) leave();
  };
  const leave = () => { close(); then(); };
  const type = k => { input.value = k === '⌫' ? input.value.slice(0, -1) : input.value + k; };
  const key = k => on(make('button', {type: 'button', textContent: k}), () => type(k), 0);
  const keys = ['1', '2', '3', '⌫', '4', '5', '6', '.', '7', '8', '9', '0'].map(key);
  keys[3].setAttribute('aria-label', 'Delete');
  keys[7].setAttribute('aria-label', 'Decimal point');
  const suggested = suggestions.map(([text, n]) => button(text, () => use(String(n))));
  sheet(title, field(hint, input), suggested.length ? rowOf(...suggested) : null,
    make('div', {className: 'keys'}, ...keys), wrongLine, rowOf(button('Back', leave), done(() => use(input.value))));
}

function setCount(r, n) {
  press([n === 0 ? {kind: 'amend', of: r.id, count: 0, setups: 1} : {kind: 'count', of: r.id, count: n}], r.session);
  say(`${r.step}: ${n}`);
}

function askCount(r, then) {
  const fixed = fixedOf(r.step, r.workflow);
  const hint = `Counted per ${unitOf(r.step)}.` + (fixed == null ? ' 0 means getting ready alone.' : '');
  const take = n => {
    if (n === 0 && fixed != null) return `It is ${fixed} each time. If nothing was done, void the reading.`;
    setCount(r, n);
  };
  askNumber(`${r.step}: how many?`, hint, guesses(r), take, then);
}

// endWork ends the session, and then names what still lacks a count: its clock
// does not wait for that.
function endWork() {
  say('work ended');
  press([{kind: 'end'}]).then(tellUncounted);
}

function tellUncounted() {
  const lacking = heldReadings().filter(lacksCount).sort((a, b) => a.began - b.began);
  if (!lacking.length) return;
  const text = lacking.length === 1 ? '1 reading still needs a count: it is' : lacking.length + ' readings still need a count: they are';
  const list = lacking.map(r => {
    const day = dateOf(r.began), facts = dots(day === dateOf(Date.now()) ? '' : day, 'needs a count', '× ' + unitOf(r.step), r.grow);
    return make('li', {}, on(make('button', {type: 'button', className: 'reading'}, ...inRow(r, facts)), () => askCount(r, () => turn.then(tellUncounted))));
  });
  sheet('Work has ended', make('p', {textContent: text + ' in no answer until then. Tap to give it.'}), make('ul', {}, ...list), rowOf(button('Later', close)));
}

const askPeople = () => askNumber('How many people are at work?', 'From this moment on.', [], n => {
  if (n < 0.001 || n > 1e6) return 'At least one person is at work.';
  press([{kind: 'people', people: n}]);
});

// askText asks for words, for which there may be some to choose from.
function askText(title, label, choices, use) {
  const input = make('textarea', {rows: 3, maxLength: 1000});
  const wrongLine = alertLine();
  const take = () => {
    const text = clean(input.value, '\n\t');
    wrongLine.textContent = text ? '' : 'Say it in a word or two.';
    if (text) { close(); use(text); }
  };
  sheet(title, choices.length ? make('div', {className: 'tasks'}, ...choices.map(c => closing(c, () => use(c)))) : null,
    field(label, input), wrongLine, rowOf(back(), done(take)));
}

const askNote = r => askText('Note', r ? 'On ' + r.step : 'On the whole session', [],
  text => press([{kind: 'note', text, ...r ? {of: r.id} : {}}], r?.session));
const reasons = ['interrupted', 'miscounted', 'wrong step', 'tried out', 'something dropped'];
const askVoid = r => askText(`Void: why does ${r.step} not count?`, 'Another reason', reasons,
  text => press([{kind: 'void', of: r.id, text}], r.session));

// askWhen asks for the time of day at which a reading ended.
function askWhen(r) {
  const input = make('input', {type: 'time', step: 1, value: timeOf(r.ended || Date.now())});
  const wrongLine = alertLine();
  const move = min => button((min < 0 ? '−' : '+') + Math.abs(min) + ' min', () => { input.value = timeOf(chosen() + 60000 * min); });
  const chosen = () => { // the first moment of that time of day from the beginning on
    const day = Date.parse(dateOf(r.began) + 'T' + (input.value.length === 5 ? input.value + ':00' : input.value));
    return day > r.began - 1000 ? day : day + 864e5;
  };
  const take = () => {
    const end = chosen();
    const part = {kind: 'amend', of: r.id, end: Number.isNaN(end) ? '' : local(end)};
    const why = Number.isNaN(end) ? 'Give a time of day.' : misfit([[r.session, part]], instant());
    wrongLine.textContent = why ? `${timeOf(end)}: ${why}.` : '';
    if (!why) { close(); press([part], r.session); }
  };
  sheet(`When did you stop ${r.step}?`, make('p', {textContent: `It began at ${timeOf(r.began)}. An end put right is marked as from memory.`}),
    field('Time of day', input), make('div', {className: 'row three'}, move(-5), move(-1), move(1)), wrongLine, rowOf(back(), done(take)));
}

function askStep(r) {
  const choices = study.steps.filter(s => s.name !== r.step)
    .map(s => closing(s.name, () => amendStep(r, s.name)));
  sheet(`Not ${r.step} but …`, make('div', {className: 'tasks'}, ...choices), rowOf(back()));
}

// amendStep puts another step in place of a reading's. A count that was the old
// step's each time was never counted, so the new one's is asked for.
function amendStep(r, step) {
  const asked = isFixed(r) && fixedOf(step, r.workflow) == null;
  const amended = press([withFixed({kind: 'amend', of: r.id, step}, r.workflow)], r.session);
  if (asked) amended.then(() => askCount(stateOf(r.session).readings.find(o => o.id === r.id)));
}

function askReading(r) {
  const s = stateOf(r.session), now = instant(), rest = rested(s, r, now);
  const when = timeOf(r.began) + (r.ended ? ' to ' + timeOf(r.ended) : ', ' + goingOn(r));
  const took = spell(r.ended ? r.net : elapsed(s, now));
  const facts = dots(when, took, rest > 0 && 'paused for ' + spell(rest), r.count == null ? 'no count' : counted(r), r.note, r.void && 'void: ' + r.void);
  const asks = [['Count', askCount], ['When it ended', askWhen], ['Another step', askStep], ['Note', askNote]];
  const choices = asks.map(([text, ask]) => button(text, () => ask(r)));
  const countAgain = () => press([{kind: 'undo', of: r.voidedBy}], r.session);
  choices.push(r.void ? closing('Count it again', countAgain) : button('Void', () => askVoid(r)));
  sheet(r.step, make('p', {textContent: facts}), make('div', {className: 'tasks'}, ...choices), rowOf(back()));
}

const keptText = [
  'For each press: the step, the count, the time of day, the grow, the worker’s code if one is given, and what is ' +
    'written in notes. Nothing else: no place, no picture, nothing of the phone.',
  'It is kept in the study folder on the computer, for as long as its owner keeps it, and on this phone ' +
    'until it is sent and two days are over. Nothing goes anywhere else.',
  'Whoever has this page’s address can see today’s readings. Use codes, not names; agree who sees what; ' +
    'ask for anything of yours to be erased.',
  'Times are for comparing ways of working, not people, and no reason to hurry. Leave your rests in.',
];
const keptLines = () => keptText.map(textContent => make('p', {textContent}));
const tellKept = () => sheet('What is kept about whom', ...keptLines(), rowOf(back()));

const nextLot = 'Press “Next lot” where one tray or bucket of a step is done and the next follows without setting up anew.';
function askWho() {
  const mark = value => make('input', {type: 'radio', name: 'workflow', value, checked: value === settings.workflow});
  const choice = (value, text) => make('label', {className: 'choice'}, mark(value), text);
  const workflows = make('fieldset', {}, make('legend', {textContent: 'Way of working'}),
    ...study.workflows.map(w => choice(w.name, w.name)), choice('', 'none of these: all steps'));
  const known = make('datalist', {id: 'grows'}, ...study.grows.map(value => make('option', {value})));
  const grow = make('input', {type: 'text', maxLength: 60, autocomplete: 'off', value: settings.grow});
  grow.setAttribute('list', 'grows');
  const worker = make('input', {type: 'text', maxLength: 20, autocomplete: 'off', autocapitalize: 'off', value: settings.worker});
  const take = async () => {
    settings = {workflow: workflows.querySelector(':checked')?.value || '', grow: clean(grow.value), worker: clean(worker.value), told: true};
    close();
    await remember('settings', settings);
    others?.postMessage('settings');
    refresh();
  };
  sheet(study.name || 'Who and what', study.workflows.length ? workflows : null,
    field('Grow', grow), known, field('Who', worker, 'A code such as w1, not a name.'),
    rowOf(settings.told ? back() : null, done(take)),
    ...settings.told ? [] : [make('p', {textContent: nextLot}), make('h3', {textContent: 'What is kept about whom'}), ...keptLines()]);
}

// ---- Copied out ----

// asCues is what the computer has not taken yet, as cues that headhours film
// reads: one for each stretch of work, by the time of day.
function asCues() {
  const cues = [], open = [];
  for (const session of new Set(waiting().map(r => r.session))) {
    const sent = fold(eventsOf(session).filter(r => r.sent).map(r => r.event));
    const known = new Set(sent.readings.map(r => JSON.stringify(r)));
    const s = stateOf(session);
    s.readings.forEach((r, i) => {
      if (known.has(JSON.stringify(r))) return;
      const lacks = !r.ended ? 'has not ended' : lacksCount(r) ? 'needs a count' : r.net === 0 ? 'took no time' : '';
      if (lacks) open.push(`${r.step} from ${timeOf(r.began)}, ${spell(r.net)}: ${lacks}`);
      else cues.push(...cuesOf(s, r, i));
    });
  }
  return ['WEBVTT', ...open.map(t => 'NOTE ' + inCue(t)), ...cues].join('\n\n') + '\n';
}

const inCue = text => text.replace(/\s+/g, ' ').replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');

function cuesOf(s, r, i) {
  const midnight = Date.parse(dateOf(s.begun.wall) + 'T00:00:00'), zero = s.begun.wall - midnight;
  const stamped = ms => `${pad(Math.floor(ms / 36e5))}:${pad(Math.floor(ms / 6e4) % 60)}:${pad(Math.floor(ms / 1000) % 60)}.${pad(ms % 1000, 3)}`;
  const facts = {
    count: r.count, setups: r.setups, people: r.hands === 1 ? null : r.hands, worker: r.worker, grow: r.grow, workflow: r.workflow,
    date: dateOf(r.began), void: r.void, note: [r.note, r.judged && 'its end is from memory'].filter(Boolean).join('; '),
    reading: r.session + '-' + (i + 1),
  };
  const lines = Object.entries(facts).filter(([, v]) => v != null && v !== '').map(([k, v]) => inCue(`${k}: ${v}`));
  return s.pieces.filter(p => p.of === i && p.to > p.from)
    .map(p => [`${stamped(zero + p.from)} --> ${stamped(zero + p.to)}`, inCue(r.step), ...lines].join('\n'));
}

function copyOut() {
  if (!waiting().length) return sheet('Copy out', make('p', {textContent: 'Nothing waits: the computer has every press.'}), rowOf(back()));
  const text = make('textarea', {rows: 8, readOnly: true, value: asCues(), spellcheck: false});
  const copied = make('p', {role: 'status'});
  const copy = () => {
    text.select();
    copied.textContent = document.execCommand('copy') ? 'Copied.' : 'Mark the text and copy it by hand.';
  };
  const how = 'What the computer has not taken yet, as text: send it there, keep it as a file that ends in .vtt and run ' +
    'headhours film on it. Do so only if the presses cannot be sent: readings taken both ways count twice.';
  sheet('Copy out', make('p', {textContent: how}), field('Readings', text), copied, rowOf(back(), done(copy, 'Copy')));
}

// ---- Begin ----

function wire() {
  at('sheet').addEventListener('keydown', ev => {
    if (ev.key === 'Enter' && ev.target.tagName === 'INPUT') at('sheet-body').querySelector('.main')?.click();
  });
  const step = by => () => [{kind: 'count', of: target().id, count: Math.max(1, (target().count ?? 0) + by)}];
  on(at('less'), () => press(step(-1)), 0);
  on(at('more'), () => press(step(1)), 0);
  on(at('count'), () => askCount(target()));
  on(at('lot'), () => { say('next lot of ' + running().step); press([{kind: 'lot'}]); });
  on(at('pause'), () => { if (state.paused) return resume(); say('paused'); press([{kind: 'pause'}]); });
  on(at('stop'), stop);
  on(at('undo'), () => { say('took back ' + told(state.undoable)); press([{kind: 'undo', of: state.undoable.id}]); });
  on(at('people'), askPeople);
  on(at('note'), () => askNote(target()));
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
