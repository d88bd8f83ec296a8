// What was written lately, by whom, and taking it back. A page that shows what may have changed
// listens to the document's 'changed' event.
import { get, post } from './api.js';
import { el, say, number } from './page.js';
import { openDialog } from './dialog.js';

// Who is no planner takes back only what is his own.
const mine = (w) => { const me = document.querySelector('#who'); return me && me.textContent === w.who; };

export async function openChanges() {
  const writes = (await get('/api/changes')).reverse();
  const error = el('div', { class: 'error', role: 'alert' });
  const rows = writes.map((w) => el('tr', {},
    el('td', {}, w.at.replace('T', ' ').slice(0, 16)),
    el('td', {}, w.who),
    el('td', { class: 'wide' }, w.why.replace(/^desk: /, '')),
    el('td', { class: 'number' }, number(w.rows)),
    el('td', {}, w.undoneBy
      ? 'taken back'
      : el('button', { type: 'button', may: mine(w) ? 'post /api/changes/{edit}/undo' : 'post /api/plan/moves', 'aria-label': `Undo change ${w.edit}: ${w.why}`, onclick: (e) => undo(w, e.target) }, 'Undo'))));
  const { close } = openDialog('Changes, newest first',
    el('p', {}, 'Undo puts every row back to what it was before. It is refused where later changes build on it.'),
    error,
    el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Changes' }, el('table', {},
      el('thead', {}, el('tr', {}, ...['When (UTC)', 'Who', 'What', 'Rows', ''].map((t, i) =>
        (t ? el('th', { scope: 'col', class: i === 3 ? 'number' : null }, el('span', {}, t)) : el('td'))))),
      el('tbody', {}, ...rows))));

  async function undo(w, button) {
    error.textContent = '';
    button.textContent = 'Taking back …';
    button.disabled = true;
    try {
      const done = await post(`/api/changes/${w.edit}/undo`);
      close();
      say(`Taken back: ${number(done.rows)} row${done.rows === 1 ? '' : 's'} as before.`);
      document.dispatchEvent(new CustomEvent('changed'));
    } catch (e) {
      error.textContent = e.message;
      button.textContent = 'Undo';
      button.disabled = false;
    }
  }
}
