// What is asked in a sheet over the page.

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
    const thousands = /^0*[1-9]\d*(,\d{3}|\.000)$/.test(text.trim());
    const problem = thousands ? `This may be ${typed.replace('.', '')} or ${n}: type one of these.` : good ? take(n) : 'Type a number, such as 24 or 7.5.';
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
  const hint = `Counted in ${unitsOf(r.step)}.` + (fixed == null ? ' 0 means setup alone.' : '');
  let asked = null; // a number that was asked about
  const take = n => {
    const odd = asked === n ? '' : farOff(r, n);
    asked = n;
    if (tooMany(r, n) || odd) return tooMany(r, n) || odd;
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
    const day = dateOf(r.began), facts = dots(day === dateOf(wallNow()) ? '' : day, 'needs a count', unitsOf(r.step), r.grow);
    return make('li', {}, on(make('button', {type: 'button', className: 'reading'}, ...inRow({...r, foreign: true}, facts).filter(Boolean)), () => askCount(r, () => turn.then(tellUncounted))));
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

// askChange marks that a step is done otherwise from now on, and shows what to write into
// the study.
function askChange() {
  const input = make('input', {type: 'text', maxLength: 60, autocomplete: 'off'});
  const names = study.steps.map(s => s.name), at = target()?.step;
  const steps = make('select', {}, ...names.map(value => make('option', {value, textContent: value, selected: value === at})));
  const wrongLine = alertLine();
  const take = () => {
    const text = clean(input.value);
    wrongLine.textContent = text ? '' : 'Name it: a tool, a layout, a habit.';
    if (!text) return;
    const now = wallNow();
    close();
    press([{kind: 'change', text, step: steps.value}]).then(() => tellChange(text, steps.value, now));
  };
  sheet('Work done otherwise from now on', field('What is new', input, 'A tool, a layout, a habit: such as dibber board.'), field('Step', steps),
    wrongLine, rowOf(back(), done(take)));
}

// inTOML is a text as a study file has it; what JSON writes otherwise is not in a name.
const inTOML = text => JSON.stringify(text);

function tellChange(name, step, at) {
  const table = ['[[change]]', 'name = ' + inTOML(name), 'step = ' + inTOML(step), `since = "${dateOf(at)}"`, '# outlay = 0.00    # what it cost, if anything'];
  const how = 'It is marked. To have answers tell before from after, write this into study.toml on the computer; headhours check says it there too.';
  showText('Work done otherwise', how, 'For study.toml', table.join('\n') + '\n', 6);
}

// askWhen asks for the time of day at which a reading ended.
function askWhen(r) {
  const input = make('input', {type: 'time', step: 1, value: timeOf(r.ended || wallNow())});
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

// pairUp has a grow that is of one way go with that way: either brings the other.
function pairUp(workflows, grow) {
  grow.addEventListener('input', () => {
    const way = wayOf(clean(grow.value)), mark = [...workflows.querySelectorAll('input')].find(m => m.value === way);
    if (way && mark) mark.checked = true;
  });
  workflows.addEventListener('change', ev => {
    const own = wayOf(clean(grow.value));
    if (own && ev.target.value && own !== ev.target.value) grow.value = [...study.grows].reverse().find(g => wayOf(g) === ev.target.value) || '';
  });
}

const nextLot = 'Press “Next lap” where one tray or bucket of a step is done and the next follows without setting up anew.';
function askWho() {
  const mark = value => make('input', {type: 'radio', name: 'workflow', value, checked: value === settings.workflow});
  const choice = (value, text) => make('label', {className: 'choice'}, mark(value), text);
  const workflows = make('fieldset', {}, make('legend', {textContent: 'Way of working'}),
    ...study.workflows.map(w => choice(w.name, w.name)), choice('', 'none of these: all steps'));
  const known = make('datalist', {id: 'grows'}, ...study.grows.map(value => make('option', {value})));
  const grow = make('input', {type: 'text', maxLength: 60, autocomplete: 'off', value: settings.grow});
  grow.setAttribute('list', 'grows');
  pairUp(workflows, grow);
  const worker = make('input', {type: 'text', maxLength: 20, autocomplete: 'off', autocapitalize: 'off', value: settings.worker});
  const byPlanMark = make('input', {type: 'checkbox', checked: Boolean(settings.byPlan)});
  const take = () => inTurn(async () => { // kept before it is gone from sight
    settings = {byPlan: byPlanMark.checked, workflow: workflows.querySelector(':checked')?.value || '', grow: clean(grow.value), worker: clean(worker.value), told: true};
    await remember('settings', settings);
    close();
    others?.postMessage('settings');
    refresh();
  });
  sheet(study.name || 'Who and what', study.workflows.length ? workflows : null,
    make('label', {className: 'choice'}, byPlanMark, 'Count by plan: “Next” gives the step that ends the count that is due, with a note'),
    field('Grow', grow), known, field('Who', worker, 'A code such as w1, not a name.'),
    rowOf(settings.told ? back() : null, done(take)),
    ...settings.told ? [] : [make('p', {textContent: nextLot}), make('h3', {textContent: 'What is kept about whom'}), ...keptLines()]);
}
