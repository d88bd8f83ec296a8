// The second factor: a code from a phone beside the password.
import { post, put } from '../shared/api.js';
import { $, el, say, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';
import { askAgain, field } from './again.js';

const codeField = (text) => field('a-code', 'Code', { autocomplete: 'one-time-code', spellcheck: 'false', maxlength: '40' }, text);

/** `changed(session)` is called when something about it is another than before. */
export function showSecond(me, changed) {
  const on = me.second === 'on';
  const said = {
    none: 'Your password alone signs you in. With a second factor your phone shows a code for each sign-in, so that a password somebody has seen is not enough.',
    wanted: 'Your role asks for a second factor. Until it is set up, nothing else can be done.',
    on: `A code from your phone is asked for at each sign-in. ${me.recoveryLeft} recovery codes are left.`,
  };
  $('#second').replaceChildren(el('p', {}, said[me.second]), el('div', { class: 'acts' },
    el('button', { type: 'button', class: me.second === 'wanted' ? 'main' : null, onclick: () => begin(on, changed) }, on ? 'Set up another phone' : 'Set up'),
    on ? el('button', { type: 'button', onclick: () => turnOff(changed) }, 'Turn off') : null));
}

const both = (form) => ({ present: $('#a-present', form).value, code: $('#a-code', form) ? $('#a-code', form).value : null });

function begin(on, changed) {
  askAgain('Set up a second factor', 'You need a phone with a program for sign-in codes (one-time codes by RFC 6238; any will do).', 'Go on',
    async (form) => {
      const key = await post('/api/session/second/key', both(form));
      setTimeout(() => showKey(key, changed));
    }, ...(on ? [codeField('of the phone set up now, or a recovery code')] : []));
}

function showKey(key, changed) {
  const error = el('div', { class: 'error', role: 'alert' });
  const form = el('form', { class: 'sign-in', novalidate: true, onsubmit: async (e) => {
    e.preventDefault();
    showError(error, null);
    try {
      const done = await put('/api/session/second', { code: $('#a-code', form).value });
      close();
      await changed(done.session);
      showRecovery(done.recovery);
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
      $('#a-code', form).focus();
    }
  } }, codeField('the six digits the phone shows now'), error, el('div', { class: 'foot-row' }, el('button', { class: 'main' }, 'Turn on')));
  const { close } = openDialog('Read this with your phone', picture(key.squares),
    el('p', {}, 'Or type the key: ', el('code', { id: 'key' }, key.key.match(/.{1,4}/g).join(' '))), form);
  $('#a-code', form).focus();
}

/** Dark squares on white whatever the theme, with the margin of four that readers need (ISO/IEC 18004, from memory). */
function picture(rows) {
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  const side = rows.length + 8;
  svg.setAttribute('viewBox', `0 0 ${side} ${side}`);
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', 'QR code of the key below');
  svg.setAttribute('class', 'squares');
  const path = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  path.setAttribute('d', rows.map((row, y) => [...row].map((dark, x) => (dark === '1' ? `M${x + 4} ${y + 4}h1v1h-1z` : '')).join('')).join(''));
  svg.append(path);
  return svg;
}

function showRecovery(codes) {
  const { close } = openDialog('Write these down',
    el('p', {}, 'Each is good once in place of a code, for the day the phone is lost. They are not shown again. Keep them apart from the phone.'),
    el('ol', { class: 'recovery' }, ...codes.map((c) => el('li', {}, el('code', {}, c)))),
    el('div', { class: 'foot-row' }, el('button', { type: 'button', class: 'main', onclick: () => close() }, 'I have them')));
}

function turnOff(changed) {
  askAgain('Turn off the second factor', 'Your password alone signs you in then.', 'Turn off', async (form) => {
    await changed(await post('/api/session/second/off', both(form)));
    say('The second factor is off. You are signed out everywhere else.');
  }, codeField('from the phone, or a recovery code'));
}
