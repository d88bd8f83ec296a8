// Where one is signed in, and ending a session that was left open or is not known.
import { get, post } from '../shared/api.js';
import { $, el, say } from '../shared/page.js';
import { askAgain } from './again.js';

const time = (at) => el('time', { datetime: at }, new Date(at).toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' }));

export async function showSessions() {
  show(await get('/api/sessions'));
}

function show(all) {
  $('#sessions').replaceChildren(el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Sessions' }, el('table', {},
    el('thead', {}, el('tr', {}, ...['Browser', 'From', 'Since', 'Last used', 'Act'].map((n) => el('th', { scope: 'col' }, el('span', {}, n))))),
    el('tbody', {}, ...all.map(row)))));
  $('#others').disabled = all.length < 2;
}

function row(s) {
  return el('tr', {}, el('th', { scope: 'row' }, s.browser), el('td', {}, s.from), el('td', {}, time(s.since)), el('td', {}, time(s.lastUsed)),
    el('td', {}, s.here ? 'This one' : el('button', { type: 'button', 'aria-label': `End: ${s.browser} at ${s.from}`, onclick: () => end(s) }, 'End')));
}

const end = (s) => askAgain('End a session', `${s.browser} at ${s.from} is signed out. Where you do not know it, choose another password, too.`, 'End it',
  async (form) => {
    show(await post(`/api/sessions/${encodeURIComponent(s.id)}/end`, { present: $('#a-present', form).value }));
    say('The session is ended.');
  });

$('#others').addEventListener('click', () => askAgain('End all other sessions', 'You stay signed in here only.', 'End the others', async (form) => {
  show(await post('/api/sessions/end-others', { present: $('#a-present', form).value }));
  say('The other sessions are ended.');
}));
