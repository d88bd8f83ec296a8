// Asks for the password once more, before an act that somebody at an open screen must not be able to do.
import { $, el, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';

/** A field with its label: field('code', 'Code', { inputmode: 'numeric' }). */
export const field = (id, label, attributes, more) => el('div', { class: 'field' }, el('label', { for: id }, label),
  el('input', { id, required: true, ...attributes }), more ? el('small', {}, more) : null);

/** `act(form)` may fail: then its sentence is shown and the dialog stays. */
export function askAgain(title, text, yes, act, ...fields) {
  const error = el('div', { class: 'error', role: 'alert' });
  const form = el('form', { class: 'sign-in', novalidate: true, onsubmit: async (e) => {
    e.preventDefault();
    showError(error, null);
    try {
      await act(form);
      close();
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
      const wrong = form.querySelector('#a-' + problem.problem.field) || $('#a-present', form);
      wrong.focus();
    }
  } }, el('input', { type: 'text', hidden: true, autocomplete: 'username', value: $('#who').textContent }),
  field('a-present', 'Your password', { type: 'password', autocomplete: 'current-password' }), ...fields, error,
  el('div', { class: 'foot-row' }, el('button', { type: 'button', onclick: () => close() }, 'Cancel'), el('button', { class: 'main' }, yes)));
  const { close } = openDialog(title, el('p', {}, text), form);
  $('#a-present', form).focus();
}
