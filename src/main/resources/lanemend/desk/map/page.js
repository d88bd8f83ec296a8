import { map as makeMap, control, circleMarker, canvas as canvasRenderer, tileLayer, polyline } from '../shared/leaflet.js';
import { county as readCounty, get } from '../shared/api.js';
import { $, el, say, plain, capital, number, byName, settled, showError } from '../shared/page.js';
import { mark } from '../shared/marks.js';
import { particulars, repair, openForm, openHistory } from '../shared/defect.js';
import { photosOf } from '../shared/photos.js';
import { CountyLayer } from './tiles.js';
import { Road } from './road.js';
import { Strip } from './strip.js';
import { WorstRoads } from './worst.js';
import { stateMark } from '../renewal/state.js';

let county = await readCounty();
$('#more').open = matchMedia('(min-width: 1001px)').matches;
$('#q').addEventListener('focus', () => $('#q').select());
const address = new URLSearchParams(location.search);
const state = { where: address.get('where') || '', road: null, place: null, defect: null, measureFrom: null };

// ---- the map
const [west, south, east, north] = county.bounds;
const map = makeMap('map', { zoomControl: true, attributionControl: false, zoomAnimation: true, minZoom: 5, maxZoom: 20 });
map.fitBounds([[south, west], [north, east]], { animate: false });
control.scale({ imperial: county.units !== 'metric', metric: county.units === 'metric', maxWidth: 140 }).addTo(map);
if (county.tiles) { tileLayer(county.tiles, { maxZoom: 20 }).addTo(map); }
const shown = () => [...document.querySelectorAll('#layers input:checked')].map((i) => i.value).join(',');
const layer = new CountyLayer({ version: county.drawing, show: shown(), where: state.where }).addTo(map);
layer.on('load', () => {
  if (!window.mapDrawn) { performance.mark('drawn'); }
  window.mapDrawn = true;
});
const over = canvasRenderer({ padding: 0.2 });
const chosenMark = circleMarker([0, 0], { renderer: over, radius: 13, fill: false, weight: 4, interactive: false });
const pointMark = circleMarker([0, 0], { renderer: over, radius: 6, fill: false, weight: 3, interactive: false });
const measured = polyline([], { renderer: over, weight: 6, opacity: 0.7, interactive: false });
const colourMarks = () => {
  const focus = getComputedStyle(document.documentElement).getPropertyValue('--focus').trim();
  for (const m of [chosenMark, pointMark, measured]) { m.setStyle({ color: focus }); }
};
colourMarks();

// ---- the strip, in step with the map
let leading = null;
const strip = new Strip($('#strip'), {
  pick: (id, along) => (id ? chooseDefect(id, { pan: true }) : choosePlace(state.road.id, along, { pan: true })),
  point: (along) => {
    const at = along === null || !state.road ? null : state.road.at(along);
    if (at) { pointMark.setLatLng(at).addTo(map); } else { pointMark.remove(); }
  },
  move: settled((range) => {
    const points = state.road.points(range[0], range[1]);
    if (points.length > 1) {
      leading = 'strip';
      map.fitBounds(points, { animate: false, padding: [24, 24], maxZoom: 18 });
      setTimeout(() => { leading = null; }, 60);
    }
    tellStrip();
  }, 80),
});

map.on('moveend', settled(() => {
  if (leading !== 'strip' && state.road) {
    const range = state.road.within(map.getBounds());
    if (range) { strip.show(range[0], range[1]); }
  }
  tellStrip();
}, 40));

function tellStrip() {
  if (!state.road) { return; }
  const [from, to] = strip.range;
  const n = strip.data.defects.id.filter((_, i) => strip.data.defects.to[i] >= from && strip.data.defects.from[i] <= to).length;
  const said = `Milepost ${state.road.miles(from).toFixed(2)} to ${state.road.miles(to).toFixed(2)}, ${n} defect${n === 1 ? '' : 's'}`;
  $('#strip-told').textContent = said;
  $('#strip').setAttribute('aria-label', `Strip diagram of ${state.road.id}. ${said}.`);
}

async function useRoad(id, fit) {
  const [line, data] = await Promise.all([
    state.road && state.road.id === id ? state.road : get('/api/routes/' + encodeURIComponent(id)),
    get(`/api/routes/${encodeURIComponent(id)}/strip`, { where: state.where })]);
  state.road = line instanceof Road ? line : new Road(line);
  $('#strip-route').value = id;
  strip.set(state.road, data);
  if (fit) {
    strip.show(0, state.road.lengthM);
    const b = state.road.bounds;
    leading = 'strip';
    map.fitBounds([[b[1], b[0]], [b[3], b[2]]], { animate: false, padding: [24, 24] });
    setTimeout(() => { leading = null; }, 60);
  }
  tellStrip();
}

// ---- choosing
function show(...nodes) {
  $('#chosen').replaceChildren(...nodes);
}

async function choosePlace(route, along, { pan = false, belief = null } = {}) {
  if (!state.road || state.road.id !== route) { await useRoad(route, false); }
  const at = state.road.at(along);
  if (!at) { say('The road has a gap there.'); return; }
  const measuredTo = state.measureFrom;
  const { spots } = await get('/api/nearest', { lon: at[1], lat: at[0], route, within: 20 });
  const spot = spots.find((s) => s.route === route && Math.abs(s.alongM - along) < 5) || spots.find((s) => s.route === route);
  if (!spot) { say('There is no milepost there.'); return; }
  choose({ ...spot, alongM: along, lat: at[0], lon: at[1] }, pan, belief);
  if (measuredTo) { await measure(measuredTo, state.place); }
}

function choose(spot, pan, belief) {
  state.place = spot;
  state.defect = null;
  strip.place = spot.alongM;
  strip.chosen = null;
  chosenMark.setLatLng([spot.lat, spot.lon]).addTo(map);
  if (pan) { map.setView([spot.lat, spot.lon], Math.max(map.getZoom(), 15), { animate: false }); }
  strip.draw();
  remember();
  show(
    el('h2', {}, `${spot.route} milepost ${spot.milepost}`),
    el('p', {}, `${spot.along} from the start of the road` + (spot.calibrated ? '.' : '. This road has no milepost signs: mileposts are counted from its start.')),
    belief !== null && belief < 0.999 ? el('p', {}, `Belief that this road is meant: ${Math.round(100 * belief)} %.`) : '',
    el('div', { class: 'acts' },
      el('button', { type: 'button', class: 'main', may: 'post /api/defects', onclick: () => addHere(spot) }, 'Add a defect here'),
      el('button', { type: 'button', onclick: () => startMeasure(spot) }, 'Measure from here')),
    el('div', { id: 'measured', role: 'status' }),
    ...sectionsAt(spot));
}

/** Sections that reach over a place, each with the way to its evidence. */
function sectionsAt(spot) {
  const here = state.road && state.road.id === spot.route ? strip.data.sections.filter((s) => s.from <= spot.alongM && s.to >= spot.alongM) : [];
  return here.map((s) => el('p', { class: 'on-section' }, `Section ${s.id}: ${s.text}. `,
    el('a', { href: '/renewal?' + new URLSearchParams({ section: s.id }) }, 'Its evidence')));
}

async function chooseDefect(id, { pan = false } = {}) {
  const d = await get('/api/defects/' + encodeURIComponent(id));
  if (!state.road || state.road.id !== d.route) { await useRoad(d.route, false); }
  state.defect = d;
  state.place = null;
  strip.chosen = id;
  strip.place = d.alongM;
  chosenMark.setLatLng([d.lat, d.lon]).addTo(map);
  if (pan) { map.setView([d.lat, d.lon], Math.max(map.getZoom(), 15), { animate: false }); }
  const range = strip.range;
  if (d.alongM < range[0] || d.alongM > range[1]) { strip.show(d.alongM - 800, d.alongM + 800); }
  strip.draw();
  remember();
  show(
    el('h2', {}, `${capital(plain(d.kind))} ${d.id}`),
    particulars(d),
    el('div', { class: 'acts' },
      el('button', { type: 'button', may: 'put /api/defects/{id}', onclick: () => openForm(county, d, stored) }, 'Change'),
      el('button', { type: 'button', onclick: () => openHistory(d.id) }, 'History'),
      el('a', { class: 'button', href: '/defects?id=' + encodeURIComponent(d.id) }, 'In the list')),
    photosOf(id),
    repair(id));
}

function addHere(spot) {
  openForm(county, { route: spot.route, milepost: spot.milepost, lon: spot.exact ? spot.lon : undefined, lat: spot.lat }, stored);
}

async function stored(defect) {
  await refresh();
  await chooseDefect(defect.id);
}

async function refresh() {
  county = await readCounty(true);
  layer.set({ version: county.drawing });
  worst.show(county);
  if (state.road) { await useRoad(state.road.id, false); }
}

function remember() {
  const q = new URLSearchParams();
  if (state.where) { q.set('where', state.where); }
  if (state.defect) { q.set('id', state.defect.id); }
  if (state.place) { q.set('at', `${state.place.route} ${state.place.milepost}`); }
  history.replaceState(null, '', '/map' + (q.toString() ? '?' + q : ''));
}

// ---- places found or pressed
function several(found, head) {
  show(
    el('h2', { tabindex: '-1' }, head),
    el('p', {}, 'Choose the one that is meant.'),
    el('ul', { class: 'spots' }, ...found.spots.map((s) => el('li', {},
      el('button', { type: 'button', onclick: () => choosePlace(s.route, s.alongM, { pan: true }) }, `${s.route} milepost ${s.milepost}`),
      s.distance ? el('div', { class: 'soft' }, `${s.distance} to the ${s.side}; belief ${Math.round(100 * s.belief)} %`) : ''))));
}

async function pressed(latlng) {
  const id = layer.defectNear(latlng, 11);
  if (id) {
    await chooseDefect(id);
    if (matchMedia('(max-width: 1000px)').matches) { say(`${id} is chosen: below the strip.`); }
    return;
  }
  const perPixel = (40075016.7 * Math.cos((latlng.lat * Math.PI) / 180)) / (256 * 2 ** map.getZoom());
  const within = Math.round(Math.min(2000, Math.max(30, 16 * perPixel)));
  const found = await get('/api/nearest', { lon: latlng.lng, lat: latlng.lat, within });
  if (found.spots.length === 0) { say(capital(found.said) + '.'); return; }
  const best = found.spots[0];
  if (found.spots.length > 1 && best.belief < 0.9) {
    several(found, 'More than one road is near');
    return;
  }
  await choosePlace(best.route, best.alongM, { belief: best.belief });
}

map.on('click', (e) => guarded(pressed(e.latlng)));
$('#map').addEventListener('keydown', (e) => {
  if (e.key === 'Enter' && e.target === $('#map')) { guarded(pressed(map.getCenter())); }
});
$('#middle').addEventListener('click', () => guarded(pressed(map.getCenter())));
$('#whole').addEventListener('click', () => map.fitBounds([[south, west], [north, east]], { animate: false }));

function guarded(promise) {
  promise.catch((e) => say(e.message));
}

$('#find').addEventListener('submit', async (e) => {
  e.preventDefault();
  showError($('#find-error'), null);
  try {
    const found = await get('/api/locate', { q: $('#q').value });
    if (found.spots.length === 1) {
      await choosePlace(found.spots[0].route, found.spots[0].alongM, { pan: true });
    } else {
      several(found, 'This milepost occurs more than once');
    }
  } catch (error) {
    showError($('#find-error'), error);
  }
});

// ---- measuring along the road
function startMeasure(spot) {
  state.measureFrom = spot;
  say(`Measuring from ${spot.route} milepost ${spot.milepost}: now choose the other end on the same road.`);
}

async function measure(from, to) {
  state.measureFrom = null;
  if (from.route !== to.route) { say(`Both ends must be on ${from.route}.`); return; }
  const m = await get('/api/measure', { route: from.route, from: from.alongM, to: to.alongM });
  const low = Math.min(from.alongM, to.alongM);
  const high = Math.max(from.alongM, to.alongM);
  measured.setLatLngs(line(low, high)).addTo(map);
  $('#measured').textContent = `${m.length} along ${m.route}, from milepost ${m.from} to ${m.to}.`;
}

function line(low, high) {
  return [state.road.at(low), ...state.road.points(low, high).slice(2), state.road.at(high)].filter(Boolean);
}

// ---- the filter
async function applyFilter(ask, text) {
  showError($('#filter-error'), null);
  try {
    const f = await get('/api/filter', ask);
    state.where = f.where;
    $('#where').value = f.where;
    $('#filter-told').textContent = f.where ? `${number(f.chosen)} of ${number(f.of)} defects` : '';
    layer.set({ where: f.where });
    if (state.road) { await useRoad(state.road.id, false); }
    remember();
  } catch (error) {
    showError($('#filter-error'), error, text);
  }
}
$('#filter').addEventListener('submit', (e) => { e.preventDefault(); applyFilter({ words: $('#words').value || ' ' }, $('#words').value); });
$('#where-apply').addEventListener('click', () => applyFilter({ where: $('#where').value }, $('#where').value.replace(/\s/g, ' ')));
$('#filter-clear').addEventListener('click', () => { $('#words').value = ''; applyFilter({ where: '' }); });

// ---- layers, strip's buttons, key
$('#layers').addEventListener('change', () => layer.set({ show: shown() }));
$('#strip-before').addEventListener('click', () => strip.road && strip.step(-0.5));
$('#strip-after').addEventListener('click', () => strip.road && strip.step(0.5));
$('#strip-closer').addEventListener('click', () => strip.road && strip.zoom(0.5));
$('#strip-wider').addEventListener('click', () => strip.road && strip.zoom(2));
$('#strip-all').addEventListener('click', () => state.road && useRoad(state.road.id, true));
$('#strip-route').addEventListener('change', (e) => guarded(useRoad(e.target.value, true)));
$('#defect-before').addEventListener('click', () => nextDefect(-1));
$('#defect-after').addEventListener('click', () => nextDefect(1));

function nextDefect(by) {
  if (!state.road) { say('Choose a road first.'); return; }
  const d = strip.data.defects;
  const order = d.id.map((id, i) => ({ id, along: (d.from[i] + d.to[i]) / 2 })).sort((a, b) => a.along - b.along);
  const here = order.findIndex((o) => o.id === strip.chosen);
  let next = here + by;
  if (here < 0) {
    const from = strip.place ?? strip.range[0];
    next = by > 0 ? order.findIndex((o) => o.along >= from) : order.findLastIndex((o) => o.along <= from);
  }
  if (next < 0 || next >= order.length) { say('There is no further defect that way.'); return; }
  guarded(chooseDefect(order[next].id, { pan: true }));
}

const swatch = (svg) => { const s = el('span', { class: 'swatch', 'aria-hidden': 'true' }); s.append(svg); return s; };
function bar(style) {
  const SVG = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', '0 0 26 16');
  const path = document.createElementNS(SVG, 'path');
  path.setAttribute('d', style.d);
  path.setAttribute('class', style.class);
  svg.append(path);
  return svg;
}
$('#key').append(
  ...county.severities.map((s) => el('li', {}, mark(s), `${capital(s)} severity`)),
  el('li', {}, swatch(bar({ d: 'M7 4l8 8M15 4l-8 8', class: 'key-cross' })), 'Done, withdrawn or deferred'),
  el('li', {}, swatch(bar({ d: 'M1 8h24', class: 'key-zone' })), 'Work zone of a crew day'),
  ...[['candidate', 'Section to be decided'], ['accepted', 'Section accepted for an overlay'], ['rejected', 'Section rejected']]
    .map(([state, text]) => el('li', {}, el('span', { class: 'swatch' }, stateMark(state)), text)),
  el('li', {}, swatch(bar({ d: 'M11 6h4v4h-4z', class: 'key-patch' })), 'Past patch'),
  el('li', {}, 'Far out, a larger mark stands for many: its shape is the worst of them.'));

const routes = [...county.routes].sort((a, b) => byName(a.id, b.id));
$('#roads').append(...routes.map((r) => el('option', { value: r.id })));
const worst = new WorstRoads((id) => guarded(useRoad(id, true).then(() => say(`${id} is on the map and in the strip.`))));
worst.show(county);
$('#strip-route').append(el('option', { value: '' }, 'Choose a road'),
  ...routes.map((r) => el('option', { value: r.id }, r.open ? `${r.id} (${r.open} waiting)` : r.id)));

document.addEventListener('changed', async () => {
  await refresh();
  if (state.defect) { guarded(chooseDefect(state.defect.id)); }
});
document.addEventListener('theme', () => { layer.recolour(); strip.recolour(); colourMarks(); });

// ---- what the address asks for
if (state.where) { await applyFilter({ where: state.where }, state.where); }
if (address.get('id')) {
  guarded(chooseDefect(address.get('id'), { pan: true }));
} else if (address.get('lat')) {
  map.setView([Number(address.get('lat')), Number(address.get('lon'))], 16, { animate: false });
  guarded(pressed(map.getCenter()));
} else if (address.get('at')) {
  $('#q').value = address.get('at');
  $('#find').requestSubmit();
} else if (routes.length) {
  const busiest = routes.reduce((a, b) => (b.open > a.open ? b : a));
  guarded(useRoad(address.get('road') || busiest.id, Boolean(address.get('road'))).then(() => {
    if (!address.get('road')) { strip.show(0, state.road.lengthM); tellStrip(); }
  }));
}
document.documentElement.dataset.ready = 'true';
performance.mark('usable');
