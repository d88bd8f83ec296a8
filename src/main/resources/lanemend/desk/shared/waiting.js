// Entries of phones whose place was not clear: somebody looks at each and puts it on the road.
import { el, say, capital, plain, number, unitsOf, showError } from './page.js';
import { get, post } from './api.js';
import { openDialog } from './dialog.js';
import { gallery } from './photos.js';

const M_PER_FT = 0.3048;
const length = (m, unit) => `${number(unit === 'm' ? m : m / M_PER_FT)} ${unit}`;

export const waitingEntries = () => get('/api/field/entries');

/** Opens the list; {@code done(defect)} is called with each defect made of one. */
export async function openWaiting(county, done) {
  const body = el('div', {});
  const { close } = openDialog('From the roadside, to be placed', body);
  const show = async () => {
    const all = await waitingEntries();
    body.replaceChildren(...(all.length ? all.map((e) => one(e, county, show, done)) : [el('p', {}, 'None waits.'),
      el('div', { class: 'foot-row' }, el('button', { type: 'button', onclick: () => close() }, 'Close the list'))]));
  };
  await show();
}

function one(e, county, again, done) {
  const f = e.entry;
  const error = el('div', { class: 'error', role: 'alert' });
  const id = (name) => `${name}-${e.id}`;
  const near = el('div', { class: 'near', role: 'radiogroup', 'aria-label': 'Places near where the phone stood' });
  const route = el('input', { id: id('route'), list: id('roads'), autocomplete: 'off' });
  const milepost = el('input', { id: id('milepost'), autocomplete: 'off' });
  const note = el('input', { id: id('note'), autocomplete: 'off' });
  const settle = async (answer) => {
    showError(error, null);
    try {
      await answer();
      await again();
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
    }
  };
  get('/api/nearest', { lon: f.lon, lat: f.lat, within: 500, heading: f.heading }).then(({ spots }) => near.replaceChildren(
    ...spots.slice(0, 6).map((s, i) => el('p', { class: 'row' },
      el('input', { type: 'radio', name: id('near'), id: `${id('near')}-${i}`, onchange: () => { route.value = s.route; milepost.value = s.milepost; } }),
      el('label', { for: `${id('near')}-${i}` }, `${s.route} milepost ${s.milepost}, ${s.distance} ${s.side}`))))).catch((x) => showError(error, x));
  return el('section', { class: 'waiting-entry', 'aria-label': `Entry of ${e.raisedOn}` },
    el('h3', {}, `${capital(f.severity)} ${plain(f.kind)}, lane ${f.lane}, found ${f.foundOn ?? e.raisedOn}${f.foundBy ? ' by ' + f.foundBy : ''}`),
    el('p', {}, `Not placed: ${e.reason}.`),
    el('p', {}, 'The phone stood at ', el('a', { href: `/map?lat=${f.lat}&lon=${f.lon}` }, `${f.lat.toFixed(5)}, ${f.lon.toFixed(5)}`),
      f.accuracyM ? `, good to ${length(f.accuracyM, unitsOf(county).length)}` : '', f.note ? `. It says: ${f.note}` : '.'),
    e.photos.length ? gallery(e.photos.map((hash, i) => ({ hash, title: `Photo ${i + 1} of the entry` }))) : null,
    near,
    el('div', { class: 'row' },
      el('div', { class: 'field' }, el('label', { for: route.id }, 'Road'), route, el('datalist', { id: id('roads') }, ...county.routes.map((r) => el('option', { value: r.id })))),
      el('div', { class: 'field' }, el('label', { for: milepost.id }, 'Milepost'), milepost),
      el('button', { type: 'button', class: 'main', onclick: () => settle(async () => {
        const d = await post(`/api/field/entries/${e.id}/place`, { route: route.value, milepost: milepost.value });
        say(`It is ${d.id} at ${d.route} milepost ${d.milepost}.`);
        done(d);
      }) }, 'Place it')),
    el('div', { class: 'row' },
      el('div', { class: 'field grow' }, el('label', { for: note.id }, 'Or why it is set aside'), note),
      el('button', { type: 'button', onclick: () => settle(() => post(`/api/field/entries/${e.id}/withdraw`, { note: note.value })) }, 'Set aside')),
    error);
}

/** Shows on a button how many wait; hidden when none does. */
export async function showWaiting(button) {
  const all = await waitingEntries().catch(() => []);
  button.hidden = !all.length;
  button.textContent = `From the roadside, to be placed: ${all.length}`;
}
