// What the computer has not taken yet, copied out of the phone.

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
  const how = 'What the computer has not taken yet, as text: send it there, keep it as a file that ends in .vtt and run ' +
    'headhours film on it. Do so only if the presses cannot be sent: readings taken both ways count twice.';
  showText('Copy out', how, 'Readings', asCues(), 8);
}

// showText shows a text that can be copied.
function showText(title, how, label, value, rows) {
  const text = make('textarea', {rows, readOnly: true, value, spellcheck: false});
  const copied = make('p', {role: 'status'});
  const copy = () => {
    text.select();
    copied.textContent = document.execCommand('copy') ? 'Copied.' : 'Mark the text and copy it by hand.';
  };
  sheet(title, make('p', {textContent: how}), field(label, text), copied, rowOf(back(), done(copy, 'Copy')));
}
