// The plan of the day: what comes next, what is due of it, what is done.

const planNow = () => study.workflows.find(w => w.name === settings.workflow)?.tasks || [];

// ofPlan are today's readings of a task that count, of all phones, in the grow in hand.
function ofPlan(step) {
  const today = dateOf(wallNow()), its = r => r.step === step && !r.void && dateOf(r.began) === today && (r.grow || '') === settings.grow;
  const theirs = dayOfOthers.map(o => ({...o, began: Date.parse(o.began), ended: o.running ? null : 1}));
  return [...heldReadings(), ...theirs].filter(its);
}

// doneOf says whether a task is done today: it was timed, and not less of it than is due,
// as far as that is counted.
function doneOf(task) {
  const its = ofPlan(task.step);
  if (!its.length || its.some(r => !r.ended)) return false;
  return !(task.due > 0) || lacksOf(task) || covered(its) > 0.995 * task.due;
}
// lacksOf says whether it cannot be told how much of a task is done: a count is lacking.
const lacksOf = task => task.fixed == null && ofPlan(task.step).some(r => r.ended && r.count == null);
const covered = list => list.reduce((sum, r) => sum + (r.count || 0), 0);

// nextTask is the first task that is not done, from the one in hand or timed last
// onwards, and then from the first on.
function nextTask() {
  const tasks = planNow(), r = running();
  const last = r || heldReadings().filter(o => o.workflow === settings.workflow && (o.grow || '') === settings.grow && !o.void).sort((a, b) => a.began - b.began).at(-1);
  const from = tasks.findIndex(t => t.step === last?.step) + 1;
  return [...tasks.slice(from), ...tasks.slice(0, from)].find(t => t.step !== r?.step && !doneOf(t)) || null;
}

// shortly is a count as a plan has it: whole, or of few litres with a decimal.
const shortly = (n, step) => (n < 10 && !study?.steps.find(s => s.name === step)?.whole ? Math.round(10 * n) / 10 : Math.round(n));
const amount = (n, step) => shortly(n, step) + ' ' + unitsOf(step, shortly(n, step));

// dueText is what a line of the bench list says of a task: the day, and what is due.
function dueText(task) {
  const its = ofPlan(task.step), known = covered(its.filter(r => r.ended));
  if (task.fixed == null && task.due > 0 && known > 0 && (lacksOf(task) || !doneOf(task))) return `${shortly(known, task.step)} of ${amount(task.due, task.step)}`;
  const days = (task.doings || []).map(d => [d.day, d.count]);
  if (!days.length) return '';
  const alike = days.every(([, n]) => n === days[0][1]);
  const text = (day, n) => dots(day, n > 0 && amount(n, task.step));
  if (alike) return text((days.length > 1 ? 'days ' : 'day ') + days.map(([d]) => d).join(', '), days[0][1]);
  return days.map(([d, n]) => `day ${d}: ${n > 0 ? amount(n, task.step) : '?'}`).join(', ');
}

// byPlan is the count that the plan gives the reading that runs, where that is wanted,
// there is none yet, and it is known.
function byPlan(r) {
  if (!settings.byPlan || !r || r.count != null) return 0;
  const all = stateOf(r.session).readings, [n] = planned(r, all, all.findIndex(o => o.id === r.id));
  return n > 0 ? n : 0;
}
const planNote = 'counted by plan';

function tapNext() {
  const task = nextTask(), r = running(), n = byPlan(r);
  if (!task) return;
  say(dots(n && `${r.step}: ${n} by plan`, task.step + ' started'));
  const counts = n ? [{kind: 'count', of: r.id, count: n}, {kind: 'note', of: r.id, text: planNote}] : [];
  press([...counts, withFixed({kind: r ? 'next' : 'start', step: task.step}, settings.workflow)]);
}

function showNext() {
  const task = nextTask(), r = running(), n = byPlan(r);
  at('next').hidden = !task;
  if (!task) return;
  at('next').firstChild.textContent = 'Next: ' + task.step;
  at('next').lastChild.textContent = n ? `${r.step}: ${amount(n, r.step)} by plan` : '';
}

// farOff says what is odd about a count: ten times what is due, or a tenth of it.
function farOff(r, n) {
  const due = taskOf(r.step, r.workflow)?.due || 0;
  if (!(due > 0) || n === 0) return '';
  const [more, less] = [n >= 10 * due, n <= due / 10 && !r.lot && due >= 10];
  return more || less ? `${amount(n, r.step)}, where ${amount(due, r.step)} ${shortly(due, r.step) === 1 ? 'is' : 'are'} due? Press Done again if that is right.` : '';
}

// tooMany bars more than one visit of what is counted by visits.
function tooMany(r, n) {
  const most = Math.max(1, fixedOf(r.step, r.workflow) ?? 1);
  return unitOf(r.step) === 'visit' && n > most ? `One reading is of ${most} ${unitsOf(r.step, most)} at most: stop it and tap its task again for another.` : '';
}
