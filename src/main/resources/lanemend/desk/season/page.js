// A season: planned against done, and what done work teaches.
import { get, post, query } from '../shared/api.js';
import { $, el, number, say, showError } from '../shared/page.js';
import { confirmDialog } from '../shared/dialog.js';

const head = (...names) => el('tr', {}, ...names.map((n) => el('th', { scope: 'col' }, el('span', {}, n))));
const num = (text) => el('td', { class: 'number' }, String(text));
const table = (label, ...parts) => el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': label }, el('table', {}, ...parts));
const dates = () => ({ from: $('#from').value, to: $('#to').value });

let season;

async function showSeason() {
  season = await get('/api/season', dates());
  $('#from').value = season.from;
  $('#to').value = season.to;
  drawReport();
  drawOpen();
}

function line(l, cell) {
  return el('tr', {}, el(cell, { scope: 'row' }, l.group), num(number(l.repairs)), num(`${number(l.crewDaysPlanned)} / ${number(l.crewDays)}`),
    ...[l.mix, l.hours, l.cost].flatMap((h) => [num(h.planned), num(h.actual), num(h.difference)]));
}

function drawReport() {
  const by = $('#by').value;
  const name = $('#by').selectedOptions[0].textContent;
  const three = ['planned', 'done', 'difference'];
  const t = season.total;
  $('#report').replaceChildren(el('h2', {}, 'Planned against done'), t.repairs
    ? table(`Planned against done by ${by}`,
      el('thead', {}, head(name, 'Repairs', 'Crew days planned / worked', ...[season.mixUnit, 'Hours', season.currency].flatMap((u) => three.map((x) => `${u} ${x}`)))),
      el('tbody', {}, ...season.lines[by].map((l) => line(l, 'th'))),
      el('tfoot', {}, line(t, 'th')))
    : el('p', {}, 'No work is recorded in this time.'),
  el('p', { class: 'soft' }, `Planned and done are of the repairs that have both: mix of ${number(t.mix.repairs)}, hours of ${number(t.hours.repairs)}, cost of ${number(t.cost.repairs)} of ${number(t.repairs)}.`),
  el('p', {}, el('a', { class: 'button', href: '/api/season/csv' + query(dates()), download: '' }, 'Season as CSV')));
}

function drawOpen() {
  const rows = season.notDone;
  $('#open').replaceChildren(el('h2', {}, `Not done: ${number(rows.length)}`), ...(rows.length
    ? [table('Repairs not done', el('thead', {}, head('Repair', 'Crew', 'Planned for', 'Why')),
      el('tbody', {}, ...rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, r.repair), el('td', {}, r.crew), el('td', {}, r.plannedOn ?? ''), el('td', {}, r.reason))))),
    el('p', {}, el('a', { class: 'button', href: '/api/season/not-done/csv' + query(dates()), download: '' }, 'Not done as CSV'))]
    : [el('p', {}, 'Nothing that was to be done in this time and by now is open.')]));
}

let learned;
const ticked = () => [...document.querySelectorAll('#learned tbody input:checked')].map((i) => i.value);

async function showLearned() {
  learned = await get('/api/learned');
  const rows = learned.proposals;
  $('#learned').replaceChildren(el('h2', {}, 'What done work teaches'),
    el('p', {}, 'Actual over designed, each pulled towards the agency\u2019s mean as far as its records leave it open. Nothing is used until it is put in force.'),
    ...(rows.length ? [proposals(rows), el('div', { class: 'row' },
      el('button', { type: 'button', id: 'work-out', may: 'post /api/learned/effect', onclick: attempt(workOut) }, 'What would the ticked do to the plan?'),
      el('button', { type: 'button', class: 'main', may: 'post /api/learned/accept', onclick: attempt(accept) }, 'Put the ticked in force')),
    el('div', { id: 'effect', 'aria-live': 'polite' })]
      : [el('p', {}, 'Nothing yet: no record has both what was planned and what was done. Record work on a crew sheet.')]),
    ...more('Far off the others', learned.farOff), ...more('Not compared', learned.notUsed), inForce());
}

function proposals(rows) {
  return table('Proposed factors', el('thead', {}, head('Use', 'Factor', 'Now', 'Proposed', '90 % interval', 'Repairs', 'Mean of its own')),
    el('tbody', {}, ...rows.map((p) => el('tr', {},
      el('td', { class: 'tick' }, p.usable ? el('input', { type: 'checkbox', value: p.key, checked: p.clear, 'aria-label': p.about }) : null),
      el('th', { scope: 'row', title: p.reason }, p.about, p.clear && p.usable ? el('b', { class: 'clear' }, ' \u2014 records speak for it') : null, p.usable ? null : el('span', { class: 'soft' }, ' (shown only)')),
      num(p.now), num(p.proposed), el('td', {}, p.interval), num(number(p.records)), num(p.own)))));
}

function more(title, lines) {
  return lines.length ? [el('details', { class: 'more' }, el('summary', {}, `${title}: ${lines.length}`), el('ul', {}, ...lines.map((l) => el('li', {}, l))))] : [];
}

function inForce() {
  return el('div', { id: 'in-force' }, el('h3', {}, 'In force'), learned.inForce.length
    ? table('Factors in force', el('thead', {}, head('Factor', 'Times', 'Rests on', 'Take out')),
      el('tbody', {}, ...learned.inForce.map((f) => el('tr', {}, el('th', { scope: 'row' }, f.about), num(f.factor), el('td', {}, f.source),
        el('td', {}, el('button', { type: 'button', may: 'post /api/learned/release', 'aria-label': `Take out: ${f.about}`, onclick: attempt(() => release(f)) }, 'Take out'))))))
    : el('p', {}, 'None: every plan is as designed.'));
}

function some() {
  const keys = ticked();
  if (!keys.length) { throw Object.assign(new Error('Tick a factor first.'), { problem: {} }); }
  return keys;
}

async function workOut() {
  await post('/api/learned/effect', { keys: some() });
  $('#work-out').disabled = true;
  try {
    await watch();
  } finally {
    $('#work-out').disabled = false;
  }
}

async function watch() {
  for (;;) {
    const e = await get('/api/learned/effect');
    if (e.state !== 'running') { drawEffect(e); return; }
    $('#effect').textContent = `Planning with and without: ${Math.round(100 * e.share)} % of this plan`;
    await new Promise((r) => { setTimeout(r, 400); });
  }
}

function drawEffect(e) {
  if (e.state === 'failed') { $('#effect').replaceChildren(el('p', { class: 'error' }, e.said)); return; }
  $('#effect').replaceChildren(el('h3', {}, `What ${e.keys.length} ${e.keys.length === 1 ? 'factor' : 'factors'} would do`),
    table('Effect on the plan', el('thead', {}, head('Plan', 'Crew days', 'Repairs', 'Left out', 'Mix', 'Crew hours', 'Cost', 'In time, a day', 'In time, least sure day')),
      el('tbody', {}, ...e.rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, r.plan), num(r.crewDays), num(r.repairs), num(r.leftOut), num(r.mix), num(r.crewHours), num(r.cost), num(r.meanChance), num(r.leastChance))))),
    ...(e.broken.length ? [el('p', {}, 'The plan as kept would no longer do; plan again after putting them in force:'), el('ul', {}, ...e.broken.map((b) => el('li', {}, b)))] : []));
}

async function accept() {
  const keys = some();
  const sure = await confirmDialog('Put in force?', `${keys.length} ${keys.length === 1 ? 'factor is' : 'factors are'} used in designs and crew days from now on. The kept plan must be planned again.`, 'Put in force');
  if (!sure) { return; }
  const kept = await post('/api/learned/accept', { keys }, learned.state);
  await showLearned();
  say(kept.said);
}

async function release(f) {
  if (!await confirmDialog('Take out?', `${f.about}: designs and crew days no longer use it.`, 'Take out')) { return; }
  const kept = await post('/api/learned/release', { keys: [f.key] });
  await showLearned();
  say(kept.said);
}

/** Runs a step and shows what the desk refuses. */
function attempt(step) {
  return async () => {
    showError($('#error'), null);
    try {
      await step();
    } catch (e) {
      if (!e.problem) { throw e; }
      showError($('#error'), e);
      $('#error').scrollIntoView({ block: 'nearest' });
    }
  };
}

$('#pick').addEventListener('submit', (e) => { e.preventDefault(); attempt(showSeason)(); });
$('#by').addEventListener('change', () => season && drawReport());
const showAll = attempt(async () => { await showSeason(); await showLearned(); });
document.addEventListener('changed', showAll);
await showAll();
document.documentElement.dataset.ready = 'true';
