// Crew sheets: to print, to work by on a phone, and to record what was done.
import { county, get } from '../shared/api.js';
import { $, el, number, showError } from '../shared/page.js';
import { Table } from '../shared/table.js';
import { sendLater, showWork, pictures } from './work.js';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const shortDate = (date) => `${MONTHS[Number(date.slice(5, 7)) - 1]} ${Number(date.slice(8))}`;
const weekday = (date) => new Date(date + 'T00:00:00Z').toLocaleDateString('en-US', { weekday: 'short', timeZone: 'UTC' });
const link = (d) => `/sheets?date=${d.date}&crew=${encodeURIComponent(d.crew)}`;
const paper = (d, kind) => `/api/sheets/${d.date}/${encodeURIComponent(d.crew)}/${kind}`;

const address = new URLSearchParams(location.search);

async function list() {
  const [sheets, { today }] = await Promise.all([get('/api/sheets'), county()]);
  const names = new Map(sheets.crews.map((c) => [c.id, c.name]));
  const next = sheets.days.filter((d) => d.date === sheets.next);
  $('#next').replaceChildren(...(next.length
    ? [el('h2', {}, `${sheets.next === today ? 'Today' : sheets.next < today ? 'First day of the plan, now past' : 'Next'}: ${weekday(sheets.next)} ${shortDate(sheets.next)}`),
      el('p', { class: 'soft' }, 'Press a crew to work by its sheet, print it, and record what was done.'),
      el('div', { class: 'go' }, ...next.map((d) => el('a', { href: link(d) }, el('b', {}, names.get(d.crew)),
        `${d.stops} ${d.stops === 1 ? 'stop' : 'stops'}, ${d.tonnes > 0 ? d.mix + ' of mix' : 'no mix'}, leaves ${d.leave}`)))]
    : [el('p', {}, 'No work is planned from today on.'), el('p', {}, el('a', { href: '/days' }, 'Plan crew days'))]));
  await days(sheets, names);
  const rows = sheets.recorded;
  $('#recorded').replaceChildren(el('h2', {}, 'Work recorded here'), rows.length
    ? el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Work recorded' }, el('table', {},
      el('thead', {}, head('Done on', 'Repair', 'Work', 'Place', 'Mix', 'Crew hours', 'Photos')),
      el('tbody', {}, ...rows.map((r) => el('tr', {}, el('td', {}, r.on), el('td', {}, r.repair), el('td', {}, r.work), el('td', {}, r.place),
        el('td', { class: 'number' }, r.mix), el('td', { class: 'number' }, r.hours), el('td', {}, pictures(r) ?? 'none'))))))
    : el('p', {}, 'Nothing yet. Open a sheet and record what was done.'));
}

const head = (...names) => el('tr', {}, ...names.map((n) => el('th', { scope: 'col' }, el('span', {}, n))));

function days(sheets, names) {
  const crew = el('select', { id: 'crew' }, el('option', { value: '' }, 'Every crew'), ...sheets.crews.map((c) => el('option', { value: c.id }, c.name)));
  const from = el('input', { id: 'from', type: 'date', value: sheets.next || '' });
  const place = el('div', {});
  $('#days').replaceChildren(el('h2', {}, 'All sheets'),
    el('div', { class: 'pick' },
      el('div', { class: 'field' }, el('label', { for: 'crew' }, 'Crew'), crew),
      el('div', { class: 'field' }, el('label', { for: 'from' }, 'From'), from),
      el('button', { type: 'button', onclick: () => { crew.value = ''; from.value = ''; table.again(); } }, 'Show all')), place);
  const by = { date: (d) => d.date, crew: (d) => names.get(d.crew), stops: (d) => d.stops, repairs: (d) => d.repairs, mix: (d) => d.tonnes,
    trucks: (d) => d.trucks, leave: (d) => d.leave, finish: (d) => d.finish ?? -1 };
  const table = new Table(place, {
    caption: 'Sheets',
    keyOf: (d) => d.date + ' ' + d.crew,
    columns: [
      { key: 'date', title: 'Date', sort: 'date', cell: (d) => el('a', { href: link(d), 'aria-label': `${weekday(d.date)} ${shortDate(d.date)}, ${names.get(d.crew)}: work and record` }, `${weekday(d.date)} ${shortDate(d.date)}`) },
      { key: 'crew', title: 'Crew', sort: 'crew', cell: (d) => names.get(d.crew) },
      { key: 'stops', title: 'Stops', sort: 'stops', number: true },
      { key: 'repairs', title: 'Repairs', sort: 'repairs', number: true },
      { key: 'mix', title: 'Mix', sort: 'mix', number: true, cell: (d) => (d.tonnes > 0 ? d.mix : 'none') },
      { key: 'trucks', title: 'Trucks', sort: 'trucks', number: true },
      { key: 'leave', title: 'Away', sort: 'leave', cell: (d) => `${d.leave} to ${d.back}` },
      { key: 'finish', title: 'In time', sort: 'finish', number: true, cell: (d) => (d.finish === null ? '' : `${number(d.finish)} %`) },
      { key: 'open', title: 'Open', cell: (d) => el('span', {}, ...[[link(d), 'Work and record'], [paper(d, 'page'), 'Print'], [paper(d, 'pdf'), 'PDF'], [paper(d, 'numbers'), 'Numbers']]
        .map(([href, text]) => el('a', { class: 'button', href, 'aria-label': `${text}: ${names.get(d.crew)}, ${shortDate(d.date)}` }, text))) },
    ],
    // The whole plan is at hand: chosen, sorted and paged here.
    load: async ({ sort, from: first, count }) => {
      const rows = sheets.days.filter((d) => (!crew.value || d.crew === crew.value) && (!from.value || d.date >= from.value));
      if (sort) {
        const value = by[sort.replace('-', '')];
        const way = sort.startsWith('-') ? -1 : 1;
        rows.sort((a, b) => way * (value(a) < value(b) ? -1 : value(a) > value(b) ? 1 : 0) || a.date.localeCompare(b.date));
      }
      return { total: rows.length, from: first, rows: rows.slice(first, first + count) };
    },
    exports: () => ({ path: '/api/exports/crew-days', parameters: { crew: crew.value, from: from.value }, as: ['csv', 'geojson', 'geopackage'] }),
  });
  crew.addEventListener('change', () => table.again());
  from.addEventListener('change', () => table.again());
  return table.show();
}

async function show() {
  try {
    if (address.get('date')) {
      $('#list').hidden = true;
      await showWork($('#work'), address.get('date'), address.get('crew'));
    } else {
      await list();
    }
    showError($('#error'), null);
  } catch (e) {
    if (!e.problem) { throw e; }
    showError($('#error'), e);
  }
}
document.addEventListener('changed', show);
await show();
if (address.get('date')) {
  // As the patrol page does: at once, when the network is back, when the page is looked at again, and now and then.
  const send = () => { if (!document.hidden && $('#phone')) { sendLater().catch((e) => showError($('#error'), e)); } };
  addEventListener('online', send);
  document.addEventListener('visibilitychange', send);
  setInterval(send, 30000);
  send();
}
document.documentElement.dataset.ready = 'true';
