// Accounts of the agency's people, and the audit list: for the admin.
import { get, post, put, remove } from '../shared/api.js';
import { $, el, say, capital, plain, showError } from '../shared/page.js';
import { openDialog, confirmDialog } from '../shared/dialog.js';

const ROLES = [['patrol', 'drives the roads and records what is found'], ['planner', 'says what is repaired when, and by whom'],
  ['crew', 'does the work and records it'], ['engineer', 'decides on sections for resurfacing'], ['admin', 'looks after accounts']];
const time = (at) => at.replace('T', ' ').slice(0, 16);
const path = (name) => '/api/accounts/' + encodeURIComponent(name);
const head = (...names) => el('thead', {}, el('tr', {}, ...names.map((n) => el('th', { scope: 'col' }, el('span', {}, n)))));
const table = (label, ...parts) => el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': label }, el('table', {}, ...parts));

async function load() {
  const all = await get('/api/accounts');
  $('#list').replaceChildren(table('Accounts', head('Name', 'Roles', 'Password set (UTC)', 'Acts'), el('tbody', {}, ...all.map(row))));
  lines = [];
  await older();
}

function row(a) {
  const button = (text, act) => el('button', { type: 'button', 'aria-label': `${text}: ${a.name}`, onclick: act }, text);
  return el('tr', {},
    el('th', { scope: 'row' }, a.name), el('td', {}, a.roles.map(capital).join(', ')),
    el('td', {}, time(a.passwordAt) + (a.firstPassword ? ', to be replaced' : '')),
    el('td', {}, el('div', { class: 'acts' },
      button('Roles', () => openRoles(a)), button('New password', () => openPassword(a)),
      button('Sign out', () => sure('Sign out everywhere', `Every session of ${a.name} ends.`, 'Sign out', () => post(path(a.name) + '/sign-out'))),
      button('Remove', () => sure('Remove the account', `${a.name} can no longer sign in. The name stays in the logs and is not given to anybody else.`, 'Remove', () => remove(path(a.name)))))));
}

async function sure(title, text, yes, act) {
  if (!await confirmDialog(title, text, yes)) { return; }
  try {
    showError($('#error'), null);
    say((await act()).said);
    await load();
  } catch (e) {
    if (!e.problem) { throw e; }
    showError($('#error'), e);
  }
}

function roleBoxes(chosen) {
  return el('fieldset', {}, el('legend', {}, 'Roles'), ...ROLES.map(([role, does]) => el('label', {},
    el('input', { type: 'checkbox', name: 'role', value: role, checked: chosen.includes(role) }), ` ${capital(role)}: ${does}`)));
}

const chosen = (form) => [...form.querySelectorAll('[name=role]:checked')].map((i) => i.value);

/** A form in a dialog; {@code act} gets the form and tells what to say. */
function ask(title, yes, act, ...fields) {
  const error = el('div', { class: 'error', role: 'alert' });
  const form = el('form', { class: 'sign-in', novalidate: true, onsubmit: async (e) => {
    e.preventDefault();
    try {
      const said = await act(form);
      close();
      say(said);
      await load();
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
    }
  } }, ...fields, error,
  el('div', { class: 'foot-row' }, el('button', { type: 'button', onclick: () => close() }, 'Cancel'), el('button', { class: 'main' }, yes)));
  const { close } = openDialog(title, form);
  form.querySelector('input').focus();
}

const passwordField = () => el('div', { class: 'field' }, el('label', { for: 'a-password' }, 'First password'),
  el('input', { id: 'a-password', type: 'text', autocomplete: 'off', spellcheck: 'false' }),
  el('small', {}, '12 characters or more, good for 14 days; another one is chosen at the first sign-in'));

$('#add').addEventListener('click', () => ask('Add an account', 'Add', async (form) => {
  const made = await post('/api/accounts', { name: $('#a-name', form).value, roles: chosen(form), password: $('#a-password', form).value });
  return `${made.name} can sign in.`;
}, el('div', { class: 'field' }, el('label', { for: 'a-name' }, 'Name, as it will stand in the logs'), el('input', { id: 'a-name', autocomplete: 'off' })),
roleBoxes(['patrol']), passwordField()));

const openRoles = (a) => ask('Roles of ' + a.name, 'Save', async (form) => {
  const now = await put(path(a.name), { roles: chosen(form) });
  return `${now.name} has ${now.roles.join(', ')}, and signs in again.`;
}, roleBoxes(a.roles));

const openPassword = (a) => ask('A new password for ' + a.name, 'Set it',
  async (form) => (await put(path(a.name) + '/password', { password: $('#a-password', form).value })).said, passwordField());

let lines = [];

async function older() {
  const more = await get('/api/audit', { before: lines.length ? lines[lines.length - 1].number : null, count: 50 });
  lines.push(...more);
  $('#older').hidden = more.length < 50;
  $('#audit').replaceChildren(table('Audit list', head('When (UTC)', 'Who', 'From', 'What', 'About'),
    el('tbody', {}, ...lines.map((l) => el('tr', {}, el('td', {}, time(l.at)), el('td', {}, l.who), el('td', {}, l.from || 'command line'),
      el('td', {}, capital(plain(l.act))), el('td', { class: 'wide' }, l.about))))));
}

$('#older').addEventListener('click', () => older().catch((e) => showError($('#error'), e)));

try {
  await load();
} catch (e) {
  if (!e.problem) { throw e; }
  showError($('#error'), e);
}
document.documentElement.dataset.ready = 'true';
