// The patrol page: a defect entered at the roadside, kept on the phone, sent when there is a network.
import { get, Refused } from '../shared/api.js';
import { $, el, say, capital, plain, unitsOf, settled, showError } from '../shared/page.js';
import { mark } from '../shared/marks.js';
import { PhotoTray } from '../shared/photo.js';
import { read } from './roads.js';
import { Where } from './place.js';
import { showEntries } from '../shared/entries.js';
import { sendAll } from '../shared/send.js';
import * as kept from '../shared/kept.js';

const LANES = [['R1', 'Right lane 1'], ['R2', 'Right lane 2'], ['R0', 'Right shoulder'], ['L1', 'Left lane 1'], ['L2', 'Left lane 2'], ['L0', 'Left shoulder']];
const SIZES = ['length', 'width', 'depth'];
const AGAIN_MS = 30000;

const form = $('#form');
/** By name; a form's own 'length' is the number of its fields. */
const field = (name) => form.elements.namedItem(name);
let county = null;
let where = null;
let tray = null;
let mends = null;

const theme = $('#theme');
const dark = () => document.documentElement.dataset.theme === 'dark';
theme.addEventListener('click', () => {
  document.documentElement.dataset.theme = dark() ? 'light' : 'dark';
  localStorage.setItem('lanemend.theme', document.documentElement.dataset.theme);
  theme.setAttribute('aria-pressed', String(dark()));
});
theme.setAttribute('aria-pressed', String(dark()));

/** The roads from the desk, else as they were kept the last time. */
async function readCounty() {
  try {
    const now = await get('/api/field/county');
    await kept.keepCounty(now);
    return now;
  } catch (e) {
    if (!(e instanceof Refused)) { throw e; }
    return kept.county();
  }
}

function cards(name, legend, values, columns) {
  return el('fieldset', {}, el('legend', {}, legend), el('div', { class: 'cards ' + columns },
    ...values.map(([value, ...label]) => el('div', { class: 'card' },
      el('input', { type: 'radio', name, id: `${name}-${value}`, value }),
      el('label', { for: `${name}-${value}` }, ...label)))));
}

function draw() {
  const u = unitsOf(county);
  where = new Where(county, read(county), () => keepForm());
  tray = new PhotoTray('camera', 'Take a photo', (e) => showError($('#form-error'), e), () => keepForm());
  const size = (name, unit) => el('div', {}, el('label', { for: name }, `${capital(name)}, ${unit}`),
    el('input', { id: name, name, type: 'number', inputmode: 'decimal', min: '0', step: 'any' }));
  // Roads that were kept by an earlier page know no kinds of findings.
  const findings = county.findings || [];
  const asphalt = (...nodes) => el('div', { class: 'asphalt' }, ...nodes);
  form.replaceChildren(
    el('h2', { id: 'form-title', tabindex: '-1' }, 'A defect'),
    findings.length ? cards('what', 'What', [['defect', 'A defect of the asphalt'], ['finding', 'Sign, fence, culvert or other']], '') : '',
    where.node,
    el('div', { id: 'beside', hidden: true },
      cards('findingKind', 'Kind', findings.map((k) => [k, capital(plain(k))]), ''),
      cards('side', 'Side, left and right as mileposts grow', [['left', 'Left'], ['right', 'Right']], '')),
    asphalt(cards('kind', 'Kind', county.kinds.map((k) => [k, capital(plain(k))]), ''),
    cards('severity', 'Severity', county.severities.map((s) => [s, mark(s), capital(s)]), 'three'),
    cards('lane', 'Lane, left and right as mileposts grow', LANES, ''),
    el('fieldset', {}, el('legend', {}, 'Size'),
      el('div', { class: 'sizes' }, size('length', u.length), size('width', u.length), size('depth', u.depth))),
      el('fieldset', {}, el('legend', {}, 'Photos'), tray.node)),
    el('div', { class: 'field' }, el('label', { for: 'note' }, 'Note'), el('textarea', { id: 'note', name: 'note', rows: '2' })),
    el('details', {}, el('summary', {}, 'Who found it, and when'),
      el('div', { class: 'field' }, el('label', { for: 'foundBy' }, 'Found by'), el('input', { id: 'foundBy', name: 'foundBy', autocomplete: 'name' })),
      el('div', { class: 'field' }, el('label', { for: 'foundOn' }, 'Found on'), el('input', { id: 'foundOn', name: 'foundOn', type: 'date' }))),
    el('div', { class: 'keep' },
      el('div', { class: 'error', id: 'form-error', role: 'alert' }),
      el('button', { class: 'main', id: 'keep' }, 'Keep this defect'),
      el('button', { type: 'button', id: 'leave', hidden: true, onclick: () => fresh().then(() => $('#form-title').focus()) }, 'Leave the entry as it was')));
  form.addEventListener('input', keepForm);
  form.addEventListener('change', (e) => { if (e.target.name === 'what') { titles(); } });
  clear();
}

const today = () => {
  const d = new Date();
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, '0')}-${String(d.getDate()).padStart(2, '0')}`;
};

function clear() {
  mends = null;
  form.reset();
  if (field('what')) { field('what').value = 'defect'; }
  where.clear();
  where.showMode();
  tray.clear();
  field('foundBy').value = localStorage.getItem('lanemend.foundBy') || '';
  field('foundOn').value = today();
  titles();
}

async function fresh() {
  clear();
  showError($('#form-error'), null);
  await kept.dropForm();
}

const isFinding = () => Boolean(field('what')) && field('what').value === 'finding';

function titles() {
  const what = isFinding() ? 'finding' : 'defect';
  $('#form-title').textContent = mends ? 'Mend an entry' : `A ${what}`;
  $('#keep').textContent = mends ? 'Keep it mended' : `Keep this ${what}`;
  $('.asphalt', form).hidden = isFinding();
  $('#beside').hidden = !isFinding();
  $('#leave').hidden = !mends;
}

/** Everything filled in so far: a camera may push the page out of a small phone's memory. */
const formNow = () => ({ mends: mends && mends.id, where: where.state(), values: values(), photos: tray.photos.map(({ blob, hash }) => ({ blob, hash })) });
const keepForm = settled(() => kept.keepForm(formNow()).catch((e) => showError($('#form-error'), e)), 300);

const values = () => {
  const d = Object.fromEntries(new FormData(form));
  const number = (text) => (text === '' ? null : Number(text));
  return { what: d.what || 'defect', findingKind: d.findingKind || null, side: d.side || null, lane: d.lane || null, kind: d.kind || null, severity: d.severity || null,
    ...Object.fromEntries(SIZES.map((s) => [s, number(d[s])])), foundOn: d.foundOn || null, foundBy: d.foundBy, note: d.note };
};

function fill(state) {
  where.restore(state.where);
  for (const [name, value] of Object.entries(state.values)) {
    if (field(name)) { field(name).value = value ?? ''; }
  }
  tray.clear();
  for (const p of state.photos) {
    if (p.blob || p.hash) { tray.add(p); }
  }
}

/** The first thing that is missing, and where. */
function missing(place, v) {
  if (place.trouble) { return [place.trouble, place.at]; }
  if (v.what === 'finding') {
    if (!place.route) { return ['Choose the road it lies beside, or write the road and milepost.', $('input[name=foot], input[name=mode]', form)]; }
    for (const [name, text] of [['findingKind', 'Choose the kind.'], ['side', 'Choose the side.']]) {
      if (!v[name]) { return [text, $(`input[name=${name}]`, form)]; }
    }
    return null;
  }
  for (const [name, text] of [['kind', 'Choose the kind.'], ['severity', 'Choose the severity.'], ['lane', 'Choose the lane.']]) {
    if (!v[name]) { return [text, $(`input[name=${name}]`, form)]; }
  }
  for (const s of SIZES) {
    const input = field(s);
    if (input.value === '' || !input.validity.valid) { return [`${capital(s)}: expected a number, 0 or more.`, input]; }
  }
  return null;
}

async function keep() {
  showError($('#form-error'), null);
  const place = where.value();
  const v = values();
  const wrong = missing(place, v);
  if (wrong) {
    showError($('#form-error'), new Error(wrong[0]));
    wrong[1].focus();
    return;
  }
  const finding = v.what === 'finding';
  const { what, findingKind, side, ...defect } = v;
  const photos = finding ? [] : tray.photos;
  const entry = {
    id: mends ? mends.id : crypto.randomUUID(), made: mends ? mends.made : new Date().toISOString(),
    mended: mends ? (mends.mended || 0) + 1 : 0, state: 'waiting', where: where.text(), photoCount: photos.length,
    shown: where.state(), finding,
    form: finding ? { ...place, kind: findingKind, side, foundOn: v.foundOn, foundBy: v.foundBy, note: v.note } : { units: county.units, ...place, ...defect },
  };
  await kept.keep(entry, photos);
  localStorage.setItem('lanemend.foundBy', v.foundBy);
  if (navigator.storage && navigator.storage.persist) { navigator.storage.persist(); }
  clear();
  say('Kept on this phone.');
  $('#form-title').focus();
  await again();
  await send();
}

async function mend(entry) {
  const now = await kept.entry(entry.id);
  if (!now || now.state === 'arrived') { await again(); return; }
  mends = now;
  const of = now.finding ? ['foundOn', 'foundBy', 'note'] : ['lane', 'kind', 'severity', ...SIZES, 'foundOn', 'foundBy', 'note'];
  fill({ where: now.shown, values: { what: now.finding ? 'finding' : 'defect', findingKind: now.finding ? now.form.kind : null, side: now.form.side ?? null,
    ...Object.fromEntries(of.map((n) => [n, now.form[n]])) },
    photos: await kept.photosOf(now.id) });
  titles();
  parked();
  const at = now.field && field(now.field);
  showError($('#form-error'), now.reason && now.state === 'refused' ? new Error(`The desk says: ${now.reason}.`) : null);
  (at && at.focus ? at : $('#form-title')).focus();
  keepForm();
}

async function again() {
  await showEntries($('#entries'), { mend, sendNow: () => send(true), again });
  const all = await kept.entries();
  const count = (state, one, many) => {
    const n = all.filter((e) => e.state === state).length;
    return n ? [`${n} ${n === 1 ? one : many}`] : [];
  };
  const open = [...count('refused', 'entry was refused', 'entries were refused'), ...count('waiting', 'entry waits', 'entries wait')];
  const link = $('#to-entries');
  link.hidden = !open.length;
  link.textContent = open.join(', ') + ': see below';
}

async function send(asked = false) {
  try {
    const stopped = await sendAll(again);
    const waits = (await kept.entries()).filter((e) => e.state === 'waiting').length;
    $('#network').textContent = waits && stopped ? `${stopped} What waits is sent later.`
      : navigator.onLine ? 'The network is there.' : 'No network: entries wait on this phone.';
    if (asked && stopped) { say(stopped); }
  } catch (e) {
    showError($('#error'), e);
  }
}

function parked() {
  sessionStorage.setItem('lanemend.parked', 'yes');
  $('#park').hidden = true;
  form.hidden = !county;
}

$('#parked').addEventListener('click', () => { parked(); ($('#form-title') || $('#main')).focus(); });
form.addEventListener('submit', (e) => { e.preventDefault(); keep().catch((problem) => showError($('#form-error'), problem)); });
// Entries wait on the phone until somebody has signed in again.
document.addEventListener('signed-out', () => { $('#sign-in').hidden = false; });
addEventListener('online', () => send());
addEventListener('offline', () => send());
document.addEventListener('visibilitychange', () => { if (!document.hidden) { send(); } });
setInterval(() => { if (!document.hidden) { send(); } }, AGAIN_MS);

try {
  county = await readCounty();
  if (county) {
    draw();
    const at = await kept.form();
    if (at) {
      mends = at.mends ? await kept.entry(at.mends) : null;
      fill(at);
      titles();
    }
    if (sessionStorage.getItem('lanemend.parked')) { parked(); }
  } else {
    showError($('#error'), new Error('This phone has not fetched the roads yet. Open this page once with a network.'));
  }
  await again();
  if ('serviceWorker' in navigator) {
    await navigator.serviceWorker.register('/patrol/worker.js', { scope: '/patrol' });
    await navigator.serviceWorker.ready;
    document.documentElement.dataset.kept = 'true';
  }
} catch (e) {
  showError($('#error'), e);
}
document.documentElement.dataset.ready = 'true';
send();
