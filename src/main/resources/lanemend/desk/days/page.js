// Crew days: the calendar of the plan, the chosen day, and changes by hand.
import { county, get, post } from '../shared/api.js';
import { $, el, say, number, showError } from '../shared/page.js';
import { confirmDialog, openDialog } from '../shared/dialog.js';
import { since } from '../shared/both.js';
import { Calendar, shortDate } from './calendar.js';
import { DayPanel } from './day.js';
import { Table } from '../shared/table.js';
import { severity } from '../shared/defect.js';
import { figure } from '../shared/trace.js';
import { planning, openPlanning } from './run.js';
import { openMove, openUrgent, openClose, openLeaveOut, showChanges, ask } from './change.js';

let plan = null;
let today = null;
let chosen = new URLSearchParams(location.search);
chosen = chosen.get('date') ? { date: chosen.get('date'), crew: chosen.get('crew') } : null;
let moving = null;

const calendar = new Calendar($('#calendar'), {
  choose: (date, crew) => (moving ? place(date, crew) : choose(date, crew, true)),
  drop: place,
});
const panel = new DayPanel({
  move: startMove,
  stopMove,
  settle: (body) => change(() => post('/api/plan/rules', body, plan.state)),
  release: (body) => change(() => post('/api/plan/releases', body, plan.state)),
  leaveOut: (repair, label) => openLeaveOut(repair, label, change, () => plan.state),
  lock: (day) => ask('Lock this day', 'Later plans leave the day as it is.', 'Why', 'Lock',
    (reason) => change(() => post('/api/plan/rules', { kind: 'lock_day', crew: day.crew, date: day.date, reason }, plan.state))),
});

async function load() {
  [plan, { today }] = await Promise.all([get('/api/plan'), county()]);
  const over = plan.days.length > 0 && plan.days.every((d) => d.date < today);
  $('#dates-told').hidden = !over;
  $('#dates-told').textContent = over
    ? `Today is ${shortDate(today)}, ${today.slice(0, 4)}: every day of this plan (${plan.days[0].date.slice(0, 4)}) is past. 'Plan' makes one for the days to come.` : '';
  const t = plan.totals;
  $('#totals').textContent = plan.ready || `${number(t.repairs)} repairs in ${number(t.zones)} work zones on ${number(t.crewDays)} crew days; `
    + `${t.mix} of mix, ${t.driven} driven, ${t.cost}; ${number(t.leftOut)} left out.`;
  $('#proof').hidden = !plan.proof;
  if (plan.proof) { $('#proof').replaceChildren(`Proven: ${plan.proof.said}. Gap `, figure(plan.proof.gap), '.'); }
  for (const id of ['changed', 'urgent', 'close-day']) { $('#' + id).disabled = Boolean(plan.ready); }
  if (!chosen || !plan.days.some((d) => d.date === chosen.date && d.crew === chosen.crew)) {
    const first = plan.days.find((d) => d.date >= plan.today) || plan.days[0];
    chosen = first ? { date: first.date, crew: first.crew } : null;
  }
  calendar.show(plan, chosen, today);
  await leftOut();
  byHand();
  await showDay();
}

async function choose(date, crew, focus) {
  chosen = { date, crew };
  calendar.mark(chosen);
  history.replaceState(null, '', `?date=${date}&crew=${encodeURIComponent(crew)}`);
  await showDay();
  if (focus && matchMedia('(max-width: 1100px)').matches) { $('#day').scrollIntoView(); }
}

async function showDay() {
  if (!chosen || plan.ready) {
    panel.empty();
    return;
  }
  const known = plan.days.find((d) => d.date === chosen.date && d.crew === chosen.crew);
  if (!known) {
    panel.empty(`${chosen.date}, crew ${chosen.crew}: no work is planned.`);
    return;
  }
  panel.show(await get(`/api/plan/days/${chosen.date}/${encodeURIComponent(chosen.crew)}`));
}

/** Somebody else has changed the plan: what is wanted beside what is there now, and the choice. */
function both({ detail, yours, theirs }) {
  const at = (p) => (p ? `crew ${p.crew} on ${p.date}` : 'on no crew day');
  return new Promise((resolve) => {
    let again = false;
    const { dialog, close } = openDialog('The plan was changed meanwhile',
      el('p', {}, detail + '.'),
      since(theirs.changes),
      el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Both versions' }, el('table', { id: 'both' },
        el('thead', {}, el('tr', {}, el('td'), ...['When you looked', 'Yours', 'Theirs, now'].map((t) => el('th', { scope: 'col' }, el('span', {}, t))))),
        el('tbody', {}, el('tr', {}, el('th', { scope: 'row' }, theirs.repair || 'The plan'),
          ...(theirs.repair ? [at(theirs.before), yours, at(theirs.now)] : ['as you saw it', yours, 'as it now stands']).map((t) => el('td', { class: 'wide' }, t)))))),
      el('p', {}, 'The page behind shows the plan as it is now. Yours is checked against it before it is kept.'),
      el('div', { class: 'foot-row' },
        el('button', { type: 'button', onclick: () => close() }, 'Leave it as it is now'),
        el('button', { type: 'button', class: 'main', onclick: () => { again = true; close(); } }, 'Do mine all the same')));
    dialog.addEventListener('close', () => resolve(again));
  });
}

/** Makes a change, tells what came of it and draws the plan anew. */
async function change(make) {
  try {
    const kept = await make();
    say(kept.said);
    await load();
    if (kept.changes) { showChanges('What changed and why', kept.changes, kept.said); }
    showError($('#error'), null);
    return true;
  } catch (e) {
    if (!e.problem) { throw e; }
    showError($('#error'), e);
    if (e.problem.status === 412) {
      await load();
      showError($('#error'), null);
      return (await both(e.problem)) ? change(make) : false;
    }
    throw e;
  }
}

// ---- moving a zone
async function startMove(repair, label) {
  moving = { repair, label, places: new Map() };
  $('#moving').hidden = false;
  $('#moving-told').textContent = `${label}: working out each day …`;
  $('#moving-stop').textContent = 'Stop moving';
  const at = moving;
  let places;
  try {
    places = await get('/api/plan/places', { repair });
  } catch (e) {
    stopMove();
    if (!e.problem) { throw e; }
    showError($('#error'), e);
    return;
  }
  if (moving !== at) { return; }
  places.forEach((p) => at.places.set(p.date + ' ' + p.crew, p));
  const others = places.filter((p) => !p.home);
  const fit = others.filter((p) => p.possible).length;
  $('#moving-told').textContent = `Moving ${label}: choose a day, or drop it there. ${fit} of ${others.length} crew days can take it; each shows what the plan would cost more or less.`;
  calendar.offer(at.places);
}

function stopMove() {
  if (!moving) { return; }
  moving = null;
  $('#moving').hidden = true;
  calendar.offer(null);
}

async function place(date, crew) {
  const { repair, label, places } = moving;
  if (!places.has(date + ' ' + crew) || places.get(date + ' ' + crew).home) { return; }
  openMove({ repair, label, date, crew, name: plan.crews.find((c) => c.id === crew).name, place: places.get(date + ' ' + crew), state: () => plan.state,
    keep: (body) => change(async () => {
      const kept = await post('/api/plan/moves', body, plan.state);
      stopMove();
      chosen = { date, crew };
      return kept;
    }) });
}

$('#moving-stop').addEventListener('click', stopMove);
document.addEventListener('keydown', (e) => {
  if (e.key === 'Escape' && moving && !document.querySelector('dialog[open]')) {
    stopMove();
    say('Moving stopped; nothing was changed.');
  }
});

// ---- what is left out, what is settled
const leftFilter = () => ({ words: $('#left-words').value.trim(), why: $('#left-why').value, severity: $('#left-severity').value });
const leftTable = new Table($('#left-list'), {
  caption: 'Left out',
  count: 50,
  columns: [
    { key: 'label', title: 'Repair', sort: 'label' },
    { key: 'place', title: 'Road and milepost', sort: 'place' },
    { key: 'severity', title: 'Severity', sort: 'severity', cell: (r) => severity(r.severity) },
    { key: 'why', title: 'Why', sort: 'why', wide: true },
    { key: 'move', title: 'Day', cell: (r) => el('button', { type: 'button', may: 'get /api/plan/places', onclick: () => startMove(r.id, r.label), 'aria-label': `Find a day for ${r.label}` }, 'Find a day') },
  ],
  load: async (asked) => {
    const page = await get('/api/plan/left-out', { ...leftFilter(), ...asked });
    const why = $('#left-why');
    const kept = why.value;
    why.replaceChildren(el('option', { value: '' }, 'Every reason'), ...page.reasons.map((r) => el('option', { value: r.why }, `${number(r.repairs)}: ${r.why}`)));
    why.value = page.reasons.some((r) => r.why === kept) ? kept : '';
    return page;
  },
  exports: () => ({ path: '/api/exports/left-out', parameters: leftFilter(), as: ['csv', 'geojson', 'geopackage'] }),
});
$('#left-filter').addEventListener('submit', (e) => { e.preventDefault(); leftTable.again(); });
for (const id of ['#left-why', '#left-severity']) { $(id).addEventListener('change', () => leftTable.again()); }
$('#left-all').addEventListener('click', () => { $('#left-filter').reset(); leftTable.again(); });

async function leftOut() {
  $('#left-none').textContent = plan.ready ? 'Nothing is planned yet.' : plan.leftOut.length ? '' : 'Every waiting repair is on a crew day.';
  $('#left-out').hidden = Boolean(plan.ready) || !plan.leftOut.length;
  if (!$('#left-out').hidden) { await leftTable.show(); }
}

function byHand() {
  const rows = plan.rules.map((r) => el('li', {},
    el('span', { class: 'grow' }, `${r.words} (${r.reason})`),
    el('button', { type: 'button', may: 'post /api/plan/releases', 'aria-label': `Take back: ${r.words}`,
      onclick: async () => {
        if (await confirmDialog('Take back', `${r.words}. The plan stays until it is made again.`, 'Take back')) {
          change(() => post('/api/plan/releases', r.defect ? { repair: r.defect } : { crew: r.crew, date: r.date }, plan.state)).catch(() => {});
        }
      } }, 'Take back')));
  $('#by-hand').replaceChildren(rows.length ? el('ul', { class: 'plain-list' }, ...rows) : el('p', {}, 'Nothing is settled by hand.'));
}

// ---- planning
const runner = planning(load, async (run) => {
  say(run.said);
  if (run.state === 'failed') {
    showError($('#error'), new Error(run.said));
  } else {
    try {
      showChanges('What changed and why', await get('/api/plan/changes'), run.said);
    } catch (e) {
      if (!e.problem || e.problem.status !== 409) { throw e; }
    }
  }
});
document.addEventListener('changed', () => load().catch((e) => showError($('#error'), e)));
$('#plan').addEventListener('click', () => openPlanning(plan, today, (wish) => { showError($('#error'), null); return runner.start(wish); }));
$('#changed').addEventListener('click', async () => {
  try {
    showChanges('The plan beside the one before it', await get('/api/plan/changes'), '');
  } catch (e) {
    if (!e.problem) { throw e; }
    showError($('#error'), e);
  }
});
$('#close-day').addEventListener('click', () => openClose(plan, (wish) => runner.start(wish)));
$('#urgent').addEventListener('click', () => openUrgent(plan, change));

try {
  await load();
  await runner.resume();
} catch (e) {
  if (!e.problem) { throw e; }
  showError($('#error'), e);
}
document.documentElement.dataset.ready = 'true';
