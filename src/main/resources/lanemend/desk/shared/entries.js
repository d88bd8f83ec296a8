// Entries on this phone, defects and done work: what waits, what was refused and why, what arrived.
import { el, capital, plain, number } from './page.js';
import { confirmDialog } from './dialog.js';
import * as kept from './kept.js';

const HEADS = { refused: 'Refused, to be mended', waiting: 'Waiting to be sent', arrived: 'Arrived' };
const time = (instant) => new Date(instant).toLocaleString([], { month: 'short', day: 'numeric', hour: '2-digit', minute: '2-digit' });

/** Draws the list into a place; {@code mend(entry)} opens a defect in the form, or is none where there is no form; {@code sendNow} tries at once. */
export async function showEntries(place, { mend, sendNow, again }) {
  const all = await kept.entries();
  const groups = ['refused', 'waiting', 'arrived'].map((state) => [state, all.filter((e) => e.state === state).reverse()]);
  place.replaceChildren(...groups.filter(([, rows]) => rows.length).flatMap(([state, rows]) => [
    el('h2', {}, `${HEADS[state]} (${number(rows.length)})`),
    ...(state === 'waiting' ? [el('div', { class: 'acts' }, el('button', { type: 'button', id: 'send', onclick: sendNow }, 'Send now'))] : []),
    ...rows.map((e) => card(e, mend, again)),
    ...(state === 'arrived' ? [el('div', { class: 'acts' }, el('button', { type: 'button', onclick: async () => {
      for (const e of rows) { await kept.drop(e.id); }
      await again();
    } }, 'Clear what arrived from this list'))] : []),
  ]));
  if (!all.length) {
    place.replaceChildren(el('p', { class: 'soft' }, 'No entries on this phone yet.'));
  }
}

function card(e, mend, again) {
  const title = e.done ? e.where : e.finding ? `${capital(plain(e.form.kind))}, ${e.where}` : `${capital(e.form.severity)} ${plain(e.form.kind)}, ${e.where}`;
  return el('article', { class: 'entry ' + e.state },
    el('h3', {}, title),
    el('p', {}, `Kept ${time(e.made)}` + (e.photoCount ? `, ${e.photoCount} ${e.photoCount === 1 ? 'photo' : 'photos'}` : '') + '.'),
    e.state === 'refused' ? el('p', { class: 'why' }, `The desk says: ${e.reason}.`) : null,
    e.state === 'arrived' ? el('p', {}, e.said) : null,
    e.state === 'arrived' ? null : el('div', { class: 'acts' },
      e.done ? el('a', { class: 'button', href: e.page, 'aria-label': 'Open the sheet of ' + title }, 'Open its sheet')
        : mend ? el('button', { type: 'button', 'aria-label': 'Mend ' + title, onclick: () => mend(e) }, 'Mend')
          : el('a', { class: 'button', href: '/patrol' }, 'On the patrol page'),
      el('button', { type: 'button', 'aria-label': 'Throw away ' + title, onclick: async () => {
        if (await confirmDialog('Throw this entry away?', `${title}. It has not arrived at the desk and cannot be brought back.`, 'Throw away')) {
          await kept.drop(e.id);
          await again();
        }
      } }, 'Throw away')));
}
