// Findings: what patrols noted for others to look after.
import { map as makeMap, marker, divIcon, tileLayer } from '../shared/leaflet.js';
import { county as readCounty, get } from '../shared/api.js';
import { $, el, plain, capital, showError, bringUp } from '../shared/page.js';
import { Table } from '../shared/table.js';
import { CountyLayer } from '../map/tiles.js';

// A letter tells the kinds apart, on screen and in print.
const LETTER = { fence: 'F', sign: 'S', culvert: 'C', drainage: 'D', other: 'O' };
const MOST_MARKS = 1000;

const county = await readCounty();
let where = '';
let shown = [];
const marks = new Map();

const map = makeMap('findings-map', { attributionControl: false, zoomAnimation: false, minZoom: 5, maxZoom: 20 });
const [west, south, east, north] = county.bounds;
map.fitBounds([[south, west], [north, east]], { animate: false });
if (county.tiles) { tileLayer(county.tiles, { maxZoom: 20 }).addTo(map); }
const layer = new CountyLayer({ version: county.drawing, show: 'roads,posts' }).addTo(map);
document.addEventListener('theme', () => layer.recolour());

const filter = () => ({ where, kind: $('#f-kind').value, route: $('#f-road').value, words: $('#f-words').value.trim() });
const table = new Table($('#list'), {
  caption: 'Findings',
  columns: [
    { key: 'id', title: 'Finding', sort: 'id' },
    { key: 'kind', title: 'Kind', sort: 'kind', cell: (f) => capital(plain(f.kind)) },
    { key: 'place', title: 'Road and milepost', sort: 'place', cell: (f) => `${f.route} ${f.milepost}` },
    { key: 'side', title: 'Side', sort: 'side', cell: (f) => capital(f.side) },
    { key: 'foundOn', title: 'Found on', sort: 'foundOn' },
    { key: 'foundBy', title: 'Found by', sort: 'foundBy' },
    { key: 'note', title: 'Note', sort: 'note', wide: true },
  ],
  load: (asked) => get('/api/findings', { ...filter(), ...asked }),
  choose: (f) => { choose(f); bringUp($('#chosen'), 'end'); },
  exports: () => ({ path: '/api/exports/findings', parameters: filter(), as: ['csv', 'geojson', 'geopackage'] }),
});

const icon = (f, chosen) => divIcon({ className: 'sign' + (chosen ? ' chosen' : ''), html: LETTER[f.kind], iconSize: [20, 20] });

/** Every finding the filter chooses, not only the rows in view. */
async function place() {
  const all = await get('/api/findings', { ...filter(), count: MOST_MARKS });
  marks.forEach((m) => m.remove());
  marks.clear();
  shown = all.rows;
  for (const f of shown) {
    const m = marker([f.lat, f.lon], { icon: icon(f, false), keyboard: false, title: `${f.id}: ${plain(f.kind)}` }).addTo(map);
    m.on('click', () => choose(f));
    marks.set(f.id, m);
  }
  if (shown.length) { map.fitBounds(shown.map((f) => [f.lat, f.lon]), { animate: false, padding: [14, 14], maxZoom: 14 }); }
  $('#told').textContent = all.total > MOST_MARKS ? `The map shows the first ${MOST_MARKS} of them.` : '';
}

function choose(f) {
  for (const other of shown) { if (marks.has(other.id)) { marks.get(other.id).setIcon(icon(other, other.id === f.id)); } }
  table.select(f.id);
  map.setView([f.lat, f.lon], Math.max(map.getZoom(), 14), { animate: false });
  $('#chosen').replaceChildren(
    el('h2', {}, `${capital(plain(f.kind))} ${f.id}`),
    el('dl', { class: 'pairs' }, ...[
      ['Place', `${f.route} milepost ${f.milepost}, ${f.side} side`],
      ['Found', `${f.foundOn}${f.foundBy ? ' by ' + f.foundBy : ''}`],
      ...(f.note ? [['Note', f.note]] : [])].flatMap(([k, v]) => [el('dt', {}, k), el('dd', {}, v)])),
    el('div', { class: 'acts' }, el('a', { class: 'button', href: '/map?' + new URLSearchParams({ at: `${f.route} ${f.milepost}` }) }, 'On the county map')));
}

async function apply(text) {
  showError($('#error'), null);
  try {
    await table.again();
    await place();
  } catch (e) {
    if (!e.problem) { throw e; }
    showError($('#error'), e, text);
  }
}

const first = await get('/api/findings', { count: 0 });
$('#f-kind').append(el('option', { value: '' }, 'Every kind'), ...first.kinds.map((k) => el('option', { value: k }, capital(plain(k)))));
const byName = [...county.routes].sort((a, b) => a.id.localeCompare(b.id, 'en', { numeric: true }));
$('#f-road').append(el('option', { value: '' }, 'Every road'), ...byName.map((r) => el('option', { value: r.id }, r.id)));
$('#key').append(...first.kinds.map((k) => el('li', {}, el('span', { class: 'sign', 'aria-hidden': 'true' }, LETTER[k]), capital(plain(k)))));
$('#filter').addEventListener('submit', (e) => { e.preventDefault(); apply(); });
for (const id of ['#f-kind', '#f-road']) { $(id).addEventListener('change', () => apply()); }
$('#where-apply').addEventListener('click', () => { where = $('#where').value.trim(); apply($('#where').value.replace(/\s/g, ' ')); });
$('#f-all').addEventListener('click', () => { $('#filter').reset(); $('#where').value = ''; where = ''; apply(); });
document.addEventListener('changed', () => apply());

await apply();
document.documentElement.dataset.ready = 'true';
