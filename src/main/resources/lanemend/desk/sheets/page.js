// Crew sheets: to print, to work by on a phone, and to record what was done.
import { get } from '../shared/api.js';
import { $, el, number, showError } from '../shared/page.js';
import { showWork, pictures } from './work.js';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const shortDate = (date) => `${MONTHS[Number(date.slice(5, 7)) - 1]} ${Number(date.slice(8))}`;
const weekday = (date) => new Date(date + 'T00:00:00Z').toLocaleDateString('en-US', { weekday: 'short', timeZone: 'UTC' });
const link = (d) => `/sheets?date=${d.date}&crew=${encodeURIComponent(d.crew)}`;
const paper = (d, kind) => `/api/sheets/${d.date}/${encodeURIComponent(d.crew)}/${kind}`;

const address = new URLSearchParams(location.search);

async function list() {
  const sheets = await get('/api/sheets');
  const names = new Map(sheets.crews.map((c) => [c.id, c.name]));
  const next = sheets.days.filter((d) => d.date === sheets.next);
  $('#next').replaceChildren(...(next.length
    ? [el('h2', {}, `${sheets.next === sheets.today ? 'Today' : 'Next'}: ${weekday(sheets.next)} ${shortDate(sheets.next)}`),
      el('div', { class: 'go' }, ...next.map((d) => el('a', { href: link(d) }, el('b', {}, names.get(d.crew)),
        `${d.stops} ${d.stops === 1 ? 'stop' : 'stops'}, ${d.tonnes > 0 ? d.mix + ' of mix' : 'no mix'}, leaves ${d.leave}`)))]
    : [el('p', {}, 'No work is planned from today on.'), el('p', {}, el('a', { href: '/days' }, 'Plan crew days'))]));
  days(sheets, names);
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
  const body = el('tbody', {});
  const crew = el('select', { id: 'crew' }, el('option', { value: '' }, 'Every crew'), ...sheets.crews.map((c) => el('option', { value: c.id }, c.name)));
  const from = el('input', { id: 'from', type: 'date', value: sheets.next || '' });
  const fill = () => {
    const rows = sheets.days.filter((d) => (!crew.value || d.crew === crew.value) && (!from.value || d.date >= from.value));
    body.replaceChildren(...rows.map((d) => el('tr', {},
      el('th', { scope: 'row' }, `${weekday(d.date)} ${shortDate(d.date)}`), el('td', {}, names.get(d.crew)),
      el('td', { class: 'number' }, number(d.stops)), el('td', { class: 'number' }, number(d.repairs)), el('td', { class: 'number' }, d.tonnes > 0 ? d.mix : 'none'),
      el('td', { class: 'number' }, number(d.trucks)), el('td', {}, `${d.leave} to ${d.back}`),
      el('td', { class: 'number' }, d.finish === null ? '' : `${number(d.finish)} %`),
      el('td', {}, ...[[link(d), 'In the field'], [paper(d, 'page'), 'Sheet'], [paper(d, 'pdf'), 'PDF'], [paper(d, 'numbers'), 'Numbers']]
        .map(([href, text]) => el('a', { class: 'button', href, 'aria-label': `${text}: ${names.get(d.crew)}, ${shortDate(d.date)}` }, text))))));
    told.textContent = `${number(rows.length)} of ${number(sheets.days.length)} sheets`;
  };
  const told = el('p', { role: 'status', class: 'soft' });
  crew.addEventListener('change', fill);
  from.addEventListener('change', fill);
  fill();
  $('#days').replaceChildren(el('h2', {}, 'All sheets'),
    el('div', { class: 'pick' },
      el('div', { class: 'field' }, el('label', { for: 'crew' }, 'Crew'), crew),
      el('div', { class: 'field' }, el('label', { for: 'from' }, 'From'), from), told),
    el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Sheets' }, el('table', {},
      el('thead', {}, head('Date', 'Crew', 'Stops', 'Repairs', 'Mix', 'Trucks', 'Away', 'In time', 'Open')), body)));
}

try {
  if (address.get('date')) {
    $('#list').hidden = true;
    await showWork($('#work'), address.get('date'), address.get('crew'));
  } else {
    await list();
  }
} catch (e) {
  if (!e.problem) { throw e; }
  showError($('#error'), e);
}
document.documentElement.dataset.ready = 'true';
