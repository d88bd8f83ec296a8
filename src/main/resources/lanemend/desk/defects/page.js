import { county as readCounty, get } from '../shared/api.js';
import { $, el, say, plain, capital, number, showError, bringUp } from '../shared/page.js';
import { Table } from '../shared/table.js';
import { openDuplicates } from '../shared/duplicates.js';
import { photosOf } from '../shared/photos.js';
import { openWaiting, showWaiting } from '../shared/waiting.js';
import { particulars, repair, severity, laneWords, openForm, openHistory } from '../shared/defect.js';

let county = await readCounty();
const address = new URLSearchParams(location.search);
let where = address.get('where') || '';

const table = new Table($('#list'), {
  caption: 'Defects',
  columns: [
    { key: 'id', title: 'Defect', sort: 'id' },
    { key: 'place', title: 'Road and milepost', sort: 'place', cell: (d) => `${d.route} ${d.milepost}` },
    { key: 'lane', title: 'Lane', sort: 'lane', cell: (d) => laneWords(d.lane) },
    { key: 'kind', title: 'Kind', sort: 'kind', cell: (d) => capital(plain(d.kind)) },
    { key: 'severity', title: 'Severity', sort: 'severity', cell: (d) => severity(d.severity) },
    { key: 'size', title: 'Size', sort: 'size' },
    { key: 'status', title: 'Status', sort: 'status', cell: (d) => capital(plain(d.status)) },
    { key: 'foundOn', title: 'Found on', sort: 'foundOn' },
    { key: 'foundBy', title: 'Found by', sort: 'foundBy' },
    { key: 'note', title: 'Note', wide: true },
  ],
  load: (asked) => get('/api/defects', { where, ...asked }),
  choose: (d) => choose(d.id).then(() => bringUp($('#chosen'))).catch((e) => say(e.message)),
  exports: () => ({ path: '/api/exports/defects', parameters: { where }, as: ['csv', 'geojson', 'geopackage'] }),
});

async function choose(id) {
  const d = await get('/api/defects/' + encodeURIComponent(id));
  table.select(id);
  $('#chosen').replaceChildren(
    el('h2', {}, `${capital(plain(d.kind))} ${d.id}`),
    particulars(d),
    el('div', { class: 'acts' },
      el('a', { class: 'button', href: '/map?id=' + encodeURIComponent(d.id) }, 'On the map'),
      el('button', { type: 'button', may: 'put /api/defects/{id}', onclick: () => openForm(county, d, stored) }, 'Change'),
      el('button', { type: 'button', onclick: () => openHistory(d.id).catch((e) => say(e.message)) }, 'History')),
    photosOf(d.id),
    repair(d.id));
}

async function stored(d) {
  county = await readCounty(true);
  await table.show();
  await choose(d.id);
}

async function apply(ask, text) {
  showError($('#filter-error'), null);
  try {
    const f = await get('/api/filter', ask);
    where = f.where;
    $('#where').value = where;
    $('#filter-told').textContent = where ? `${number(f.chosen)} of ${number(f.of)} defects; as CQL: ${where}` : '';
    history.replaceState(null, '', '/defects' + (where ? '?' + new URLSearchParams({ where }) : ''));
    await table.again();
  } catch (e) {
    showError($('#filter-error'), e, text);
  }
}

$('#filter').addEventListener('submit', (e) => { e.preventDefault(); apply({ words: $('#words').value || ' ' }, $('#words').value); });
$('#where-apply').addEventListener('click', () => apply({ where: $('#where').value }, $('#where').value.replace(/\s/g, ' ')));
$('#clear').addEventListener('click', () => { $('#words').value = ''; apply({ where: '' }); });
$('#add').addEventListener('click', () => openForm(county, {}, stored));

$('#twice').addEventListener('click', () => openDuplicates(() => table.show()).catch((e) => say(e.message)));
$('#waiting').addEventListener('click', () => openWaiting(county, (d) => { showWaiting($('#waiting')); stored(d); }).catch((e) => say(e.message)));
document.addEventListener('changed', async () => {
  county = await readCounty(true);
  await showWaiting($('#waiting'));
  await table.show();
  if (table.chosen) { await choose(table.chosen).catch((e) => say(e.message)); }
});

await apply({ where }, where);
await showWaiting($('#waiting'));
if (address.get('id')) { await choose(address.get('id')).catch((e) => say(e.message)); }
document.documentElement.dataset.ready = 'true';
