// Signing in: on its own page, and over a page whose session has ended, so that nothing typed is lost.
import { get, post, remove } from './api.js';
import { el, say, showError } from './page.js';
import { openDialog } from './dialog.js';

/** Whether something of one's own account has to be seen to before anything else. */
export const held = (session) => session.firstPassword || session.second === 'wanted';

/** The form; {@code done(session)} is called once somebody has signed in. */
export function signInForm(done, name = '') {
  const error = el('div', { class: 'error', role: 'alert' });
  const who = el('input', { id: 's-name', name: 'name', autocomplete: 'username', required: true, maxlength: '200', value: name });
  const password = el('input', { id: 's-password', name: 'password', type: 'password', autocomplete: 'current-password', required: true });
  const code = el('input', { id: 's-code', name: 'code', autocomplete: 'one-time-code', inputmode: 'text', maxlength: '40', spellcheck: 'false' });
  const codeField = el('div', { class: 'field', hidden: true }, el('label', { for: 's-code' }, 'Code'), code,
    el('small', {}, 'six digits from your phone, or one of your recovery codes'));
  const button = el('button', { class: 'main' }, 'Sign in');
  const form = el('form', { class: 'sign-in', novalidate: true, onsubmit: async (e) => {
    e.preventDefault();
    showError(error, null);
    const empty = [who, password].find((i) => !i.value);
    if (empty) {
      showError(error, new Error(empty === who ? 'Your name is missing.' : 'Your password is missing.'));
      empty.focus();
      return;
    }
    button.disabled = true;
    try {
      await done(await post('/api/session', { name: who.value, password: password.value, code: code.value }));
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
      code.value = '';
      if (problem.problem.codeWanted) {
        codeField.hidden = false;
        code.focus();
      } else if (problem.problem.status !== 429) {
        password.value = '';
        password.focus();
      }
    } finally {
      button.disabled = false;
    }
  } },
  el('div', { class: 'field' }, el('label', { for: 's-name' }, 'Name'), who),
  el('div', { class: 'field' }, el('label', { for: 's-password' }, 'Password'), password),
  codeField,
  error,
  el('div', { class: 'foot-row' }, button));
  return { form, focus: () => (name ? password : who).focus() };
}

let asking = false;

/** Over a page: the session has ended, or another tab signed out. */
export function openSignIn() {
  if (asking) { return; }
  asking = true;
  const here = document.querySelector('#who');
  const was = here ? here.textContent : '';
  const { form, focus } = signInForm((session) => {
    if (session.name !== was || held(session)) {
      location.reload();
      return;
    }
    close();
    say('Signed in again. What you wrote is still here: send it once more.');
  }, was);
  const { dialog, close } = openDialog('Sign in again',
    el('p', {}, 'Your session has ended. What you have written on this page stays as it is.'), form);
  dialog.addEventListener('close', () => { asking = false; });
  focus();
}

export async function signOut() {
  await remove('/api/session');
  location.assign('/sign-in');
}

/** Where to go after signing in: only a path of this desk. */
export function wanted(then) {
  const at = then && then.startsWith('/') ? new URL(then, location.origin) : null;
  return at && at.origin === location.origin && at.pathname !== '/sign-in' ? at.pathname + at.search : '/';
}

export const session = () => get('/api/session');
