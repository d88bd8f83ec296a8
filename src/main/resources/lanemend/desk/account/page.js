// One's own account: name, roles, password, sessions.
import { put, post } from '../shared/api.js';
import { $, el, say, capital, showError } from '../shared/page.js';
import { session } from '../shared/sign-in.js';
import { showSessions } from './sessions.js';
import { showSecond } from './second.js';
import { confirmDialog } from '../shared/dialog.js';

function show(me) {
  $('#me').replaceChildren(me.signInOn
    ? el('dl', { class: 'pairs' }, el('dt', {}, 'Name'), el('dd', {}, me.name),
      el('dt', {}, 'Roles'), el('dd', {}, me.roles.map(capital).join(', ')))
    : el('p', {}, 'This desk has one user on this computer and no sign-in. Accounts are made with the command account add, and asked for with serve --sign-in.'));
  $('#everywhere').hidden = !me.signInOn;
  const heading = $('#password-title');
  heading.closest('section').hidden = !me.signInOn;
  heading.textContent = me.firstPassword ? 'Choose a password of your own' : 'Change your password';
  $('#password').replaceChildren(form(me));
}

/** Shows the account as it is now, with its sessions. */
async function changed(me) {
  show(me);
  for (const title of ['#second-title', '#sessions-title']) { $(title).closest('section').hidden = !me.signInOn; }
  if (me.signInOn) {
    showSecond(me, changed);
    await showSessions();
  }
}

function form(me) {
  const error = el('div', { class: 'error', role: 'alert' });
  const input = (id, label, complete, more) => el('div', { class: 'field' }, el('label', { for: id }, label),
    el('input', { id, type: 'password', autocomplete: complete, required: true }), more ? el('small', {}, more) : null);
  const f = el('form', { novalidate: true, onsubmit: async (e) => {
    e.preventDefault();
    showError(error, null);
    const [present, one, two] = ['present', 'one', 'two'].map((id) => $('#' + id, f));
    if (one.value !== two.value) {
      showError(error, new Error('The two new passwords differ.'));
      two.focus();
      return;
    }
    try {
      await changed(await put('/api/session/password', { present: present.value, password: one.value }));
      say('The password is changed. You are signed out everywhere else.');
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
      (problem.problem.field === 'password' ? one : present).focus();
    }
  } },
  me.firstPassword ? el('p', {}, 'The one you signed in with was set by somebody else. Until you choose your own, nothing else can be done.') : null,
  el('input', { type: 'text', hidden: true, autocomplete: 'username', value: me.name }),
  input('present', 'Present password', 'current-password'),
  input('one', 'New password', 'new-password', '12 characters or more; three or four words that do not go together are easily kept in mind'),
  input('two', 'New password again', 'new-password'),
  error,
  el('div', { class: 'foot-row' }, el('button', { class: 'main' }, 'Change password')));
  return f;
}

$('#everywhere').addEventListener('click', async () => {
  if (await confirmDialog('Sign out on every device', 'Every session of this account ends, this one too.', 'Sign out everywhere')) {
    await post('/api/session/everywhere');
    location.assign('/sign-in');
  }
});

try {
  await changed(await session());
} catch (e) {
  if (!e.problem) { throw e; }
  say(e.message);
}
document.documentElement.dataset.ready = 'true';
