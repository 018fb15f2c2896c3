// What events come to: the same as the computer's own fold, as far as the page shows it.

const millis = (from, to) => Math.max(0, from.boot === to.boot ? to.mono - from.mono : to.wall - from.wall);
const afterwards = ['count', 'setups', 'note', 'void', 'amend', 'change'];

function fold(events) {
  const order = events.map(e => ({...e, wall: Date.parse(e.wall), end: e.end && Date.parse(e.end)}));
  order.sort((a, b) => a.seq - b.seq || a.wall - b.wall || (a.id < b.id ? -1 : 1));
  const s = {order, at: [0], begun: null, ended: false, people: 1, hands: false, readings: [], running: -1, paused: false, pieces: [], refused: {}, undoable: null};
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
      s.hands = true; // a lap begun from now on has these, not those of the reading it carries on
      if (running) running.people = e.people;
      if (running && !s.paused) work(s, e, t);
      return;
    case 'change':
      return e.step || s.readings.length ? undefined : 'there is no step yet';
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
  const like = e.kind === 'lot' ? {...before, setups: 0, ...(s.hands && {people: s.people})} : {...s.begun, people: s.people, setups: null};
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
  s.hands = false;
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
