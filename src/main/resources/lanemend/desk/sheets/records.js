// Records of work done: entered by two, or entered wrong.
import { get, post, put, Refused } from '../shared/api.js';
import * as kept from '../shared/kept.js';
import { later, report } from '../shared/send.js';
import { $, el, say, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';
import { chooseFields } from '../shared/both.js';

const value = (input) => (input.value === '' ? null : Number(input.value));

const FIELDS = [{ key: 'on', label: 'Done on' }, { key: 'mix', label: 'Mix placed' }, { key: 'hours', label: 'Crew hours' }, { key: 'cost', label: 'Cost' }];

/**
 * Records done work: kept on the phone first, then sent. Without a network it waits there and is sent
 * later under the same id, which the desk takes once.
 * entry: {id, done: address, page, where, form: {on, repairs}}; photos: [{blob or hash, repair}]
 * @returns what is to be said; waits tells whether it is still on the phone only
 */
export async function recordKept(path, entry, photos) {
  await kept.keep({ made: new Date().toISOString(), mended: 0, state: 'waiting', photoCount: photos.length, ...entry }, photos);
  // Not while the page sends what waited before: the two take turns.
  return navigator.locks.request('lanemend-patrol-send', async () => {
    try {
      const said = await record(path, await report(entry));
      await kept.drop(entry.id);
      return { said, waits: false };
    } catch (e) {
      if (e instanceof Refused && later(e.problem)) {
        return { said: 'Kept on this phone; it is sent when the desk can be reached.', waits: true };
      }
      // Refused for what it says: the form is still there to be put right.
      await kept.drop(entry.id);
      throw e;
    }
  });
}

/** Records repairs; for those that somebody else has recorded meanwhile both are shown and one is chosen field by field. */
async function record(path, report) {
  try {
    return (await post(`${path}/done`, report)).said;
  } catch (e) {
    if (!e.problem || e.problem.status !== 412) { throw e; }
    const theirs = e.problem.theirs;
    for (const mine of e.problem.yours) {
      await settle({ on: report.on, mix: mine.mix, hours: mine.hours, cost: mine.cost }, theirs[mine.repair], null, e.problem.detail);
    }
    const rest = report.repairs.filter((r) => !theirs[r.repair]);
    return rest.length ? record(path, { ...report, entry: crypto.randomUUID(), repairs: rest }) : 'What somebody else recorded is there, with what you chose.';
  }
}

/** Shows both versions of a record until one stands; resolves to it. */
async function settle(yours, theirs, base, detail) {
  const choice = await chooseFields({ title: `${theirs.repair} is recorded already`, detail: `${detail} (${theirs.who})`, base, yours, theirs, fields: FIELDS });
  if (!choice) { return theirs; }
  const merged = Object.fromEntries(FIELDS.map(({ key }) => [key, choice[key] === 'yours' ? yours[key] : theirs[key]]));
  return correct(theirs, merged);
}

async function correct(was, now) {
  try {
    return await put(`/api/records/${encodeURIComponent(was.id)}`, now, was.version);
  } catch (e) {
    if (!e.problem || e.problem.status !== 412) { throw e; }
    return settle(now, e.problem.theirs, was, e.problem.detail);
  }
}

/** Corrects a record that was entered wrong. */
export async function openCorrection(id, unit, again) {
  const was = await get(`/api/records/${encodeURIComponent(id)}`);
  const error = el('div', { class: 'error', role: 'alert' });
  const field = (key, label, more) => el('div', { class: 'field' }, el('label', { for: 'r-' + key }, label), el('input', { id: 'r-' + key, value: was[key] ?? '', ...more }));
  const numeric = { type: 'number', inputmode: 'decimal', min: 0, step: 'any' };
  const form = el('form', { class: 'sign-in', novalidate: true, onsubmit: async (e) => {
    e.preventDefault();
    try {
      await correct(was, { on: $('#r-on', form).value || null, mix: value($('#r-mix', form)), hours: value($('#r-hours', form)), cost: value($('#r-cost', form)) });
      close();
      await again();
      say('The record is corrected.');
    } catch (problem) {
      if (!problem.problem) { throw problem; }
      showError(error, problem);
    }
  } },
  field('on', 'Done on', { type: 'date', required: true }), field('mix', `Mix placed, ${unit}`, numeric), field('hours', 'Crew hours', numeric), field('cost', 'Cost, where it is known', numeric), error,
  el('div', { class: 'foot-row' }, el('button', { type: 'button', onclick: () => close() }, 'Cancel'), el('button', { class: 'main' }, 'Save')));
  const { close } = openDialog('Correct the record of ' + was.repair, form);
  $('#r-on', form).focus();
}
