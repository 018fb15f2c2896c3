// What waits is sent to the computer.

const wait = {least: 1000, most: 15000};
let sending = false, delay = wait.least, timer = 0, code = '', link = 'new', heard = [], dayOfOthers = [], dayProblems = [];

async function ask(path, options = {}) {
  const stop = new AbortController(), t = setTimeout(() => stop.abort(), 10000);
  try {
    const asked = Date.now();
    const answer = await fetch(path, {cache: 'no-store', credentials: 'same-origin', signal: stop.signal, ...options});
    const text = await answer.text();
    setClock(Number(answer.headers.get('Headhours-Now')), asked, Date.now());
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
    if (!study || study.reading || link !== 'here') await learn();
    while (waiting().length) await sendBatch();
    const day = await expect(ask('/days/' + dateOf(wallNow())));
    dayProblems = day.problems;
    dayOfOthers = day.readings.filter(r => !events.some(e => e.session === r.session));
    [link, delay] = ['here', wait.least];
    trouble('link', '');
    await renew();
  } catch (e) {
    link = e.link || 'away';
    trouble('link', e.link ? e.message : '');
    delay = Math.min(2 * delay, wait.most);
  }
  sending = false;
  timer = setTimeout(send, link !== 'here' ? delay : waiting().length ? 0 : 2 * wait.most);
  refresh();
}

// unlock gives the code in the page's address for a cookie. The address keeps it only
// until the computer has answered: it lets nobody in again.
async function unlock() {
  if (location.hash.length > 1) code = location.hash.slice(1);
  if (!code) return;
  const answer = await ask('/key', {method: 'POST', body: code});
  if (answer.status !== 429) { // else it is looked at later
    code = '';
    history.replaceState(null, '', location.pathname);
  }
  if (!answer.ok) throw wrong(answer);
}

async function learn() {
  const answer = await ask('/study');
  if (answer.status === 409) return trouble('study', answer.text);
  trouble('study', '');
  study = await expect(answer);
  await remember('study', study);
}

// wayOf is the way that a grow is of, where the study or its readings say so.
const wayOf = grow => study.ways?.[grow] || '';

// settle leaves no setting open, and none that the study does not know any more.
function settle() {
  const grow = study.grows.at(-1) || '';
  settings ??= {workflow: wayOf(grow) || study.workflows[0]?.name || '', grow, worker: '', told: false};
  if (!study.workflows.some(w => w.name === settings.workflow)) settings.workflow = '';
}

// setClock takes the computer's time where this phone's clock is off, and says so: at
// once where nothing runs, or else when it has ended. What follows is a session of its own.
function setClock(theirs, asked, answered) {
  if (!theirs || answered - asked > 5000 || running()) return;
  const off = Math.round(theirs - (asked + answered) / 2), wanted = Math.abs(off) > maxAhead ? off : 0;
  if (Math.abs(wanted - ahead) <= maxAhead / 2) return;
  [ahead, clockMoved] = [wanted, true];
  remember('ahead', ahead);
}
let clockMoved = false;

// clockText says that the phone's clock is off.
function clockText() {
  if (!ahead) return '';
  const min = Math.round(Math.abs(ahead) / 60000), h = Math.round(min / 60), d = Math.round(h / 24);
  const by = min < 120 ? min + ' minutes' : h < 48 ? h + ' hours' : d + ' days';
  return `This phone’s clock is ${by} ${ahead > 0 ? 'slow' : 'fast'}: the computer’s time is taken for every press from now on. Set the clock right.`;
}

// renew takes the page that the computer has now, where it is another than this: it is
// kept by the phone, and opened while nothing waits.
let renewed = '';
async function renew() {
  const own = document.documentElement.dataset.version;
  if (!study?.page || study.page === own || renewed === study.page) return;
  renewed = study.page;
  const fresh = await fetch('/', {cache: 'reload', credentials: 'same-origin'});
  if ((await fresh.text()).includes(`data-version="${study.page}"`) && !waiting().length && !at('sheet').open) location.reload();
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
  const text = link === 'locked' ? 'The key has changed or is missing. Open the address that headhours phone shows on the computer.'
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
