// Renewal: flagged sections, their evidence, the program under budgets, the engineer's decisions.
import { county as readCounty, get } from '../shared/api.js';
import { $, el, say, number, may, showError } from '../shared/page.js';
import { Table } from '../shared/table.js';
import { figure, figures } from '../shared/trace.js';
import { stateWords } from './state.js';
import { LongRun } from '../shared/run.js';
import { ProgramPanel } from './program.js';
import { EvidencePanel } from './evidence.js';
import { openDecision, openWithdrawal, openAdd } from './decide.js';

let county = await readCounty();
let renewal = null;
let chosen = new URLSearchParams(location.search).get('section');

const orUnknown = (trace) => (trace ? figure(trace) : 'not known');
const filter = () => ({ route: $('#f-road').value, state: $('#f-state').value, words: $('#f-words').value.trim() });

const table = new Table($('#list'), {
  caption: 'Sections to judge',
  columns: [
    { key: 'id', title: 'Road and mileposts', sort: 'place' },
    { key: 'state', title: 'Decision', sort: 'state', cell: (s) => stateWords(s.state, s.stateWords) },
    { key: 'program', title: 'Program', sort: 'program', cell: (s) => s.program || 'patch on' },
    { key: 'length', title: 'Length', sort: 'length', number: true },
    { key: 'flag', title: 'Repairs / expected', sort: 'flag', number: true, cell: (s) => figure(s.flag) },
    { key: 'chance', title: 'Chance, p', sort: 'chance', number: true },
    { key: 'next', title: 'Next 5 years', sort: 'next', number: true, cell: (s) => figure(s.next) },
    { key: 'overlay', title: 'Overlay', sort: 'overlay', number: true, cell: (s) => orUnknown(s.overlay) },
    { key: 'cost', title: 'It costs', sort: 'cost', number: true, cell: (s) => orUnknown(s.cost) },
    { key: 'crossover', title: 'Crossover', sort: 'crossover', number: true, cell: (s) => orUnknown(s.crossover) },
    { key: 'condition', title: 'Condition', sort: 'condition', number: true, cell: (s) => (s.condition ? figure(s.condition) : 'no survey') },
  ],
  load: (asked) => get('/api/renewal/sections', { ...filter(), ...asked }),
  choose: (s) => choose(s.id, true),
  exports: () => ({ path: '/api/renewal/sections/export', parameters: filter(), as: ['csv', 'geojson', 'geopackage'] }),
});

const evidence = new EvidencePanel({
  decide: (kind, e) => openDecision(kind, e, renewal.study.program.firstYear, decided),
  withdraw: (e) => openWithdrawal(e, decided),
});
const program = new ProgramPanel((id) => choose(id, true));

async function choose(id, focus) {
  try {
    const found = await get('/api/renewal/evidence', { section: id });
    chosen = id;
    table.select(id);
    history.replaceState(null, '', '/renewal?' + new URLSearchParams({ section: id }));
    await evidence.show(found, county);
    if (focus) {
      $('#evidence-title').focus({ preventScroll: true });
      $('#evidence').scrollIntoView({ block: 'start' });
    }
  } catch (e) {
    if (!e.problem) { throw e; }
    showError($('#error'), e);
  }
}

async function load() {
  renewal = await get('/api/renewal');
  const study = renewal.study;
  $('#studied').hidden = !study;
  $('#earlier').hidden = !renewal.earlier;
  $('#study').disabled = Boolean(renewal.ready) || renewal.run.state === 'running';
  $('#study').textContent = study ? 'Study the records again' : 'Study the records';
  $('#add').disabled = !study;
  $('#told').textContent = renewal.ready || (study
    ? `${number(study.repairs)} repairs from ${study.recordsFrom} to ${study.recordsTo} count; ${number(study.flagged)} ${study.flagged === 1 ? 'section is' : 'sections are'} flagged, ${number(study.byHand)} by hand.`
    : may('post /api/renewal/run')
      ? 'Past repairs are studied for where patching again and again means an overlay.'
      : 'The records have not been studied yet: an engineer or the planner does that.');
  if (!study) { return; }
  program.show(study.program);
  $('#hindcasts').replaceChildren(
    ...(study.hindcasts.length
      ? study.hindcasts.map((h) => el('details', {}, el('summary', {}, h.said), figures(h.figures)))
      : [el('p', {}, 'The records are too short for a hindcast: how well such flags foretell is not known.')]),
    study.asked.length
      ? el('details', {}, el('summary', {}, `The records leave ${number(study.asked.length)} ${study.asked.length === 1 ? 'question' : 'questions'} open`),
        el('ul', { class: 'plain-rows' }, ...study.asked.map((a) => el('li', {}, a))))
      : '',
    study.notCounted ? el('p', { class: 'soft' }, `${number(study.notCounted)} rows of the records are not counted; 'renew' lists each in records.csv.`) : '');
  await table.show();
  if (chosen) {
    const there = await get('/api/renewal/sections', { count: 500 });
    if (there.rows.some((s) => s.id === chosen)) {
      await choose(chosen, false);
    } else {
      chosen = null;
      evidence.empty();
    }
  }
}

/** Draws all anew after something was written. */
async function again() {
  county = await readCounty(true);
  await load();
}

async function decided(kept) {
  // Null: another's decision was left as it is.
  if (kept && kept.section) { chosen = kept.section; }
  say(kept ? kept.said : 'The other decision stands.');
  await again();
  if (chosen) { $('#evidence-title').focus({ preventScroll: true }); }
}

const study = new LongRun({
  address: '/api/renewal/run',
  begins: '#study',
  told: (run) => `Studying: ${run.stage}`,
  ended: async (run) => {
    await again();
    say(run.said);
    showError($('#error'), run.state === 'failed' ? new Error(run.said) : null);
  },
});

$('#study').addEventListener('click', () => {
  showError($('#error'), null);
  study.start().catch((e) => { if (!e.problem) { throw e; } showError($('#error'), e); });
});
$('#add').addEventListener('click', () => openAdd(county, {}, decided));
$('#filter').addEventListener('submit', (e) => { e.preventDefault(); table.again(); });
for (const id of ['#f-road', '#f-state']) { $(id).addEventListener('change', () => table.again()); }
$('#f-all').addEventListener('click', () => { $('#filter').reset(); table.again(); });
document.addEventListener('changed', () => again());
document.addEventListener('budgets-back', () => load().then(() => $('#budget-acts button').focus()));

const byName = [...county.routes].sort((a, b) => a.id.localeCompare(b.id, 'en', { numeric: true }));
$('#f-road').append(el('option', { value: '' }, 'Every road'), ...byName.map((r) => el('option', { value: r.id }, r.id)));

await load();
document.documentElement.dataset.ready = 'true';
if (renewal.run.state === 'running') {
  study.watch(renewal.run);
} else if (!renewal.ready && !renewal.study && renewal.run.state === 'none' && may('post /api/renewal/run')) {
  // The page has nothing to show without a study; it takes seconds, writes nothing and can be ended.
  study.start().catch((e) => { if (!e.problem) { throw e; } showError($('#error'), e); });
} else {
  const given = new URLSearchParams(location.search);
  if (given.get('add') && renewal.study) { openAdd(county, { route: given.get('add'), from: given.get('from') }, decided); }
}
