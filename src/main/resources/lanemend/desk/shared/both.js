// Two people have changed the same thing: both versions side by side, and a choice for each field.
import { el, capital, plain, showError } from './page.js';
import { openDialog } from './dialog.js';

const shown = (v) => (v === null || v === undefined || v === '' ? 'nothing' : plain(v));
const same = (a, b) => String(a ?? '') === String(b ?? '');

/**
 * Asks which version of each field is to stand. Where only one of the two changed a field, that one
 * is chosen beforehand; where both did, nothing is.
 * @param title heading
 * @param detail what happened, a sentence
 * @param base the version both began with, or null where that is not known
 * @param fields [{key, label, show(value)}]
 * @returns a promise of {key: 'yours' | 'theirs'} for fields that differ, or null to leave theirs
 */
export function chooseFields({ title, detail, base, yours, theirs, fields, keep = 'Leave theirs' }) {
  const apart = fields.filter((f) => !same(yours[f.key], theirs[f.key]));
  const error = el('div', { class: 'error', role: 'alert' });
  return new Promise((resolve) => {
    let answer = null;
    const rows = apart.map((f) => {
      const mine = base && same(theirs[f.key], base[f.key]);
      const other = base && same(yours[f.key], base[f.key]);
      const side = (whose, value, checked) => el('td', {}, el('label', { class: 'side' },
        el('input', { type: 'radio', name: 'both-' + f.key, value: whose, checked, 'aria-label': `${f.label}, ${whose}: ${shown(value)}` }),
        el('span', {}, f.show ? f.show(value) : shown(value))));
      return el('tr', {}, el('th', { scope: 'row' }, f.label),
        base ? el('td', {}, f.show ? f.show(base[f.key]) : shown(base[f.key])) : null,
        side('yours', yours[f.key], mine), side('theirs', theirs[f.key], other));
    });
    const form = el('form', { id: 'both', novalidate: true, onsubmit: (e) => {
      e.preventDefault();
      const data = new FormData(form);
      const open = apart.find((f) => !data.get('both-' + f.key));
      if (open) {
        showError(error, new Error(`${open.label}: both of you changed it. Choose one.`));
        form.querySelector(`[name="both-${open.key}"]`).focus();
        return;
      }
      answer = Object.fromEntries(apart.map((f) => [f.key, data.get('both-' + f.key)]));
      close();
    } },
    el('p', {}, detail + '.'),
    apart.length
      ? el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Both versions' }, el('table', {},
        el('thead', {}, el('tr', {}, el('td'), ...[...(base ? ['When you opened it'] : []), 'Yours', 'Theirs'].map((t) => el('th', { scope: 'col' }, el('span', {}, t))))),
        el('tbody', {}, ...rows)))
      : el('p', {}, 'Both say the same.'),
    error,
    el('div', { class: 'foot-row' },
      el('button', { type: 'button', onclick: () => close() }, keep),
      apart.length ? el('button', { class: 'main' }, 'Save what is chosen') : null));
    const { dialog, close } = openDialog(title, form);
    dialog.addEventListener('close', () => resolve(answer));
  });
}

/**
 * Asks which of two whole versions is to stand, where fields go together and cannot be mixed.
 * @returns a promise of true for yours, false to leave theirs
 */
export function chooseWhole({ title, detail, yours, theirs, fields, keep, take }) {
  return new Promise((resolve) => {
    let mine = false;
    const { dialog, close } = openDialog(title, el('div', { id: 'both' },
      el('p', {}, detail + '.'),
      el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Both versions' }, el('table', {},
        el('thead', {}, el('tr', {}, el('td'), ...['Yours', 'Theirs'].map((t) => el('th', { scope: 'col' }, el('span', {}, t))))),
        el('tbody', {}, ...fields.map((f) => el('tr', {}, el('th', { scope: 'row' }, f.label), el('td', {}, shown(yours[f.key])), el('td', {}, shown(theirs[f.key]))))))),
      el('div', { class: 'foot-row' },
        el('button', { type: 'button', onclick: () => close() }, keep),
        el('button', { type: 'button', class: 'main', onclick: () => { mine = true; close(); } }, take))));
    dialog.addEventListener('close', () => resolve(mine));
  });
}

/** Who changed what since, as a list. */
export const since = (changes) => el('ul', { class: 'reasons' }, ...changes.map((w) =>
  el('li', {}, `${capital(w.who)}, ${w.at.replace('T', ' ').slice(0, 16)} UTC: ${w.why.replace(/^desk: /, '')}`)));
