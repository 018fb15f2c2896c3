// Presses become events of a session.

let turn = Promise.resolve();

// inTurn does something when all that was pressed before is kept.
const inTurn = work => turn = turn.then(work).catch(e => trouble('kept', 'This press could not be kept: ' + e.message));

// press records events of a session, the current one unless another is named, at
// this moment; a start begins a new session where need be. A function gives the
// events when all presses before it are in.
function press(parts, session) {
  const now = instant();
  navigator.vibrate?.(40);
  return inTurn(() => record(parts, session, now));
}

async function record(made, session, now) {
  const parts = typeof made === 'function' ? made() : made;
  const runs = state.running >= 0;
  const opens = !session && parts.some(p => ['start', 'next', 'people', 'note', 'change'].includes(p.kind)) && needsNew(runs, now, parts);
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
  if (opens) [current, clockMoved] = [into, false];
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
  if (clockMoved && !runs) return true;
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
