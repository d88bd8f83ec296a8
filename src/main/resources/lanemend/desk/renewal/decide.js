// What an engineer decides: asked for with name and reason, kept as one write that can be undone.
import { post } from '../shared/api.js';
import { $, el, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';
import { chooseWhole } from '../shared/both.js';

const NAME = 'lanemend.engineer';

const ASKS = {
  accepted: { title: 'Accept', yes: 'Accept it', text: 'Overlay it between these limits.', year: 'Overlay in the year (blank leaves it to the program)' },
  limits_changed: { title: 'Accept with other limits', yes: 'Accept it so', text: 'Overlay it between other mileposts that have something of this section.', year: 'Overlay in the year (blank leaves it to the program)', limits: true },
  deferred: { title: 'Put off', yes: 'Put it off', text: 'Look again later; no overlay before the year.', year: 'Not before the year', mustYear: true },
  rejected: { title: 'Reject', yes: 'Reject it', text: 'Keep patching; the program leaves it alone.' },
};

const field = (id, label, more = {}, small = null) => el('div', { class: 'field' },
  el('label', { for: id }, label), el('input', { id, autocomplete: 'off', ...more }), small ? el('small', {}, small) : null);

const FIELDS = [{ key: 'section', label: 'Section' }, { key: 'decision', label: 'Decision' }, { key: 'from', label: 'From milepost' }, { key: 'to', label: 'To milepost' },
  { key: 'reason', label: 'Reason' }, { key: 'by', label: 'By' }, { key: 'on', label: 'On' }];

/** Sends a decision; where another engineer has decided meanwhile both are shown. Null where theirs is left. */
async function send(path, body, version) {
  try {
    return await post(path, body, version);
  } catch (e) {
    if (!e.problem || e.problem.status !== 412) { throw e; }
    const { yours, theirs, detail } = e.problem;
    return await chooseWhole({ title: 'Somebody else has decided meanwhile', detail, yours, theirs, fields: FIELDS, keep: 'Leave theirs', take: 'Decide mine all the same' })
      ? send(path, body, theirs.version) : null;
  }
}

function form(title, nodes, yes, act) {
  const error = el('div', { class: 'error', role: 'alert' });
  const body = el('form', { novalidate: true,
    onsubmit: async (e) => {
      e.preventDefault();
      showError(error, null);
      for (const input of body.elements) { input.removeAttribute('aria-invalid'); }
      try {
        await act(body);
        box.close();
      } catch (problem) {
        if (!problem.problem) { throw problem; }
        showError(error, problem);
        const wrong = $('#d-' + problem.problem.field, body);
        if (wrong) { wrong.setAttribute('aria-invalid', 'true'); wrong.focus(); }
      }
    } },
    ...nodes,
    error,
    el('div', { class: 'foot-row' },
      el('button', { type: 'button', onclick: () => box.close() }, 'Cancel'),
      el('button', { class: 'main' }, yes)));
  const box = openDialog(title, body);
  return body;
}

/** Where accounts are kept the head of the page says who is signed in. */
const signedIn = () => ($('#who') ? $('#who').textContent.trim() : '');
const engineer = () => field('d-by', 'Engineer who decides', { value: localStorage.getItem(NAME) || signedIn(), required: true });
const reason = (label) => el('div', { class: 'field' }, el('label', { for: 'd-reason' }, label), el('textarea', { id: 'd-reason', rows: '3', required: true }));
const value = (body, id) => ($('#d-' + id, body) ? $('#d-' + id, body).value.trim() : '') || null;

function keepName(body) {
  localStorage.setItem(NAME, value(body, 'by') || '');
}

/** Asks for a decision on a section; {@code done(kept)} follows when it is kept. */
export function openDecision(kind, evidence, firstYear, done) {
  const s = evidence.inShort;
  const ask = ASKS[kind];
  const body = form(`${ask.title}: ${s.id}`, [
    el('p', {}, `${ask.text} ${s.waiting ? s.waiting + (s.waiting === 1 ? ' defect waits' : ' defects wait') + ' for repair on it.' : ''}`),
    ask.limits ? el('div', { class: 'row' },
      field('d-newFrom', 'From milepost', { value: s.milepost, required: true }),
      field('d-newTo', 'To milepost', { value: s.milepostTo, required: true })) : null,
    ask.year ? field('d-year', ask.year, { type: 'number', min: '2000', max: '2199', step: '1', value: ask.mustYear ? firstYear + 1 : (s.program || '') }) : null,
    reason('Why; kept with the decision'),
    engineer(),
  ].filter(Boolean), ask.yes, async (b) => {
    keepName(b);
    done(await send('/api/renewal/decisions', { kind, route: s.route, from: s.milepost, to: s.milepostTo,
      newFrom: value(b, 'newFrom'), newTo: value(b, 'newTo'),
      year: value(b, 'year') === null ? null : Number(value(b, 'year')), reason: value(b, 'reason'), by: value(b, 'by') }, evidence.version));
  });
  $('#d-reason', body).focus();
}

/** Takes back the decision on file. */
export function openWithdrawal(evidence, done) {
  const s = evidence.inShort;
  const body = form(`Take back: ${s.id}`, [
    el('p', {}, evidence.decision),
    el('p', {}, 'The decision goes; defects that wait for its overlay are open again for the next plan.'),
    reason('Why it is taken back'),
  ], 'Take it back', async (b) => done(await send('/api/renewal/withdrawals',
    { route: s.route, from: s.milepost, to: s.milepostTo, reason: value(b, 'reason') }, evidence.version)));
  $('#d-reason', body).focus();
}

/** Puts a stretch on the list that nobody flagged. */
export function openAdd(county, given, done) {
  const body = form('Put a stretch on the list', [
    el('p', {}, 'It gets its evidence, forecast and overlay like the flagged ones; nothing is decided yet.'),
    el('div', { class: 'row' },
      field('d-route', 'Road', { list: 'd-roads', value: given.route || '', required: true }),
      field('d-from', 'From milepost', { value: given.from || '', required: true }),
      field('d-to', 'To milepost', { value: given.to || '', required: true })),
    el('datalist', { id: 'd-roads' }, ...county.routes.map((r) => el('option', { value: r.id }))),
    reason('Why it should be looked at'),
    engineer(),
  ], 'Put it on the list', async (b) => {
    keepName(b);
    done(await send('/api/renewal/decisions', { kind: 'added', route: value(b, 'route'), from: value(b, 'from'), to: value(b, 'to'),
      newFrom: null, newTo: null, year: null, reason: value(b, 'reason'), by: value(b, 'by') }, '0'));
  });
  $(given.route ? '#d-from' : '#d-route', body).focus();
}
