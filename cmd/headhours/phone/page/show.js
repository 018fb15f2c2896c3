// What the page shows.

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
// unitsOf is the unit of a step for so many: 1 tray, 3 trays.
function unitsOf(step, n) {
  const of = study?.steps.find(s => s.name === step);
  return n === 1 ? unitOf(step) : of?.pers || 'units';
}
const unitOf = step => study?.steps.find(s => s.name === step)?.per || 'unit';
// fixedOf is the count that a step has each time, where the study says so: nobody is asked for it.
const taskOf = (step, workflow) => study.workflows.find(w => w.name === workflow)?.tasks.find(t => t.step === step);
const fixedOf = (step, workflow) => (taskOf(step, workflow) || study.steps.find(s => s.name === step))?.fixed ?? null;
const isFixed = r => r.count != null && r.count === fixedOf(r.step, r.workflow);
const withFixed = (part, workflow) => { const count = fixedOf(part.step, workflow); return count == null ? part : {...part, count}; };
const counted = r => (r.count === 0 && r.setups > 0 ? 'setup' : `${r.count} ${unitsOf(r.step, r.count)}`);
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
  showNext();
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
  const away = kind === 'waiting' && link !== 'new';
  trouble('waiting', away ? 'Presses wait on this phone until the computer can be reached. Go on timing; keep this page open. Do not reload it: only the computer can give it anew.'
    : kind === 'away' && link === 'away' ? 'The computer is away. Go on timing; do not reload this page: only the computer can give it anew.' : '');
  at('waits').textContent = away ? (n === 1 ? '1 press waits here' : n + ' presses wait here') : '';
  at('waits').hidden = !away;
  trouble('clock', clockText());
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
  const about = () => dots(state.paused ? 'paused' : 'since ' + timeOf(r.began), r.setups === 0 && 'next lap', r.people !== 1 && r.people + ' people');
  at('about').textContent = r ? about() : 'Tap a task to start it.';
  const unit = t ? unitsOf(t.step, t.count) + (live ? '' : ', ' + t.step) : 'count';
  at('count').replaceChildren(make('b', {textContent: t?.count ?? (t ? '?' : '–')}), ' ', make('small', {textContent: unit}));
  at('count').setAttribute('aria-label', at('count').textContent + (t ? `: count of ${t.step}, type another` : ''));
  const fixed = Boolean(t && isFixed(t));
  at('less').disabled = fixed || !(t?.count > 1);
  at('count').disabled = fixed || !t;
  at('more').disabled = fixed || !t || tooMany(t, (t.count ?? 0) + 1) !== '';
  at('pause').disabled = at('stop').disabled = !live;
  at('lot').disabled = fixed || !live || unitOf(r.step) === 'visit'; // it would count as one more
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
    const task = planNow().find(t => t.step === b.dataset.step), lacks = Boolean(task && !its && lacksOf(task));
    const done = Boolean(task && !its && !lacks && doneOf(task));
    b.firstChild.firstChild.textContent = done ? '✓ ' : '';
    b.classList.toggle('done', done);
    b.lastChild.textContent = its ? (state.paused ? 'paused: tap to go on' : 'running: tap to stop') : dots(lacks ? 'needs a count' : done && 'done', task && dueText(task));
  }
}

// hueOf is the colour and letter that a step has in figures; its name says the same.
function hueOf(step) {
  const mark = make('b', {className: 'hue', ariaHidden: 'true'}), look = study.steps.find(s => s.name === step)?.look;
  mark.dataset.letter = look?.letter || '';
  mark.hidden = !look?.fill;
  mark.style.backgroundColor = look?.fill || '';
  mark.style.color = look?.ink || '';
  return mark;
}

function taskButton(step) {
  const b = make('button', {type: 'button', className: 'task'}, make('span', {}, make('i'), hueOf(step), step), make('small'));
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
    text = `${lacking.step}${another ? ' from ' + timeOf(lacking.began) : ''}, ${spell(lacking.net)}: how many ${unitsOf(lacking.step)}?`;
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
  const due = shortly(taskOf(r.step, r.workflow)?.due || 0, r.step);
  let [from, to] = [at, at];
  while (all[from].lot && all[from - 1]?.step === r.step) from--;
  while (all[to + 1]?.lot && all[to + 1].step === r.step) to++;
  const others = all.slice(from, to + 1).filter(o => o.id !== r.id);
  if (others.some(o => o.void || o.count == null)) return [0];
  const covered = others.reduce((sum, o) => sum + o.count, 0);
  return covered ? [shortly(due - covered, r.step), ' left of the plan'] : [due, ' as planned'];
}

const rows = new Map();
function showToday() {
  const today = dateOf(wallNow());
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
  at('odd').replaceChildren(...[...new Set([...heard, ...dayProblems, ...study.problems || []])].map(w => make('li', {textContent: w})));
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
  li.firstChild.replaceChildren(...inRow(r, facts).filter(Boolean));
}

// goingOn says how a reading that has not ended goes on.
const goingOn = r => ((r.foreign ? r.paused : stateOf(r.session).paused) ? 'paused' : 'running');

const inRow = (r, facts) => [
  make('span', {className: 'when', textContent: timeOf(r.began).slice(0, 5)}), make('b', {textContent: r.step}),
  make('span', {className: 'length', textContent: r.ended ? spell(r.net) : ''}), make('small', {textContent: facts}),
  r.foreign ? null : make('span', {className: 'right-it', textContent: 'Put right'}),
];
