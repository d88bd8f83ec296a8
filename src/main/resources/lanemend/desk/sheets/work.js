// One crew's day to work by: what comes next, where its numbers are from, and what was really done.
import { get } from '../shared/api.js';
import { openCorrection, recordKept } from './records.js';
import { $, el, say, capital, showError } from '../shared/page.js';
import { mark } from '../shared/marks.js';
import { figures } from '../shared/trace.js';
import { confirmDialog } from '../shared/dialog.js';
import { PhotoTray } from '../shared/photo.js';
import { showEntries } from '../shared/entries.js';
import { sendAll } from '../shared/send.js';
import * as kept from '../shared/kept.js';
import { gallery } from '../shared/photos.js';
import { supply } from '../days/words.js';

let showAgain = null;

/** Draws the day of a crew; {@code place} is hidden until then. */
export async function showWork(place, date, crew) {
  const path = `/api/sheets/${date}/${encodeURIComponent(crew)}`;
  const sheet = await get(path);
  sheet.waiting = new Set((await kept.entries()).filter(onlyHere).flatMap((e) => e.form.repairs.map((r) => r.repair)));
  const again = () => showWork(place, date, crew);
  showAgain = again;
  const day = sheet.day;
  const paper = (kind, text) => el('a', { class: 'button', href: `${path}/${kind}` }, text);
  place.hidden = false;
  place.replaceChildren(el('div', {},
    el('a', { href: '/sheets', class: 'button' }, 'All sheets'),
    el('h1', { tabindex: '-1' }, day ? `${day.crewName}, ${date}` : `Crew ${crew}, ${date}`),
    el('p', {}, day
      ? `Leave ${day.inShort.leave}, back ${day.inShort.back}; ${supply(day)}.`
      : 'All work of this day is recorded.'),
    day ? el('div', { class: 'row' }, paper('page', 'Sheet to print'), paper('pdf', 'PDF')) : null,
    day && sheet.recorded.length ? el('p', { id: 'numbered' }, el('a', { href: '#done' }, `${sheet.recorded.length} recorded on this date`),
      '. What is left is numbered anew: go by road and milepost, not by the stop number of a sheet printed before.') : null,
    day ? el('details', {}, el('summary', {}, 'Cautions of the day'), el('ul', { class: 'cautions' }, ...day.cautions.map((c) => el('li', {}, c)))) : null,
    ...(day ? day.zones.map((z) => stop(z, sheet, path, date, again)) : []),
    day ? el('details', {}, el('summary', {}, 'How the day adds up'), figures(day.figures)) : null,
    recorded(sheet.recorded, sheet.unit, again),
    el('section', { id: 'phone', 'aria-label': 'On this phone' })));
  await onPhone();
}

/** Reports of done work the desk has not taken. */
const onlyHere = (entry) => entry.done && entry.state !== 'arrived';

/** Entries on this phone; nothing is drawn while there are none. */
async function onPhone() {
  $('#phone').hidden = !(await kept.entries()).length;
  if (!$('#phone').hidden) { await showEntries($('#phone'), { mend: null, sendNow: () => sendLater(true), again: drawAgain }); }
}

/** Draws the day anew, but not over what is being filled in. */
async function drawAgain() {
  const begun = $('#work .tray img') || [...document.querySelectorAll('#work form.stop :is(input[type=number], .note input)')].some((i) => i.value);
  await (begun ? onPhone() : showAgain());
}

/** Sends what waits on this phone. */
export async function sendLater(asked = false) {
  const waiting = async () => (await kept.entries()).filter(onlyHere).length;
  const before = await waiting();
  const stopped = await sendAll(onPhone);
  if (await waiting() < before) { await drawAgain(); }
  if (asked && stopped) { say(stopped); }
}

function stop(zone, sheet, path, date, again) {
  const open = zone.repairs.filter((r) => !sheet.partsDone.includes(r.id));
  const repairs = open.filter((r) => !sheet.waiting.has(r.id));
  const error = el('div', { class: 'error', role: 'alert' });
  const forms = repairs.map((r) => repair(r, sheet.unit, (e) => showError(error, e)));
  const on = el('input', { type: 'date', id: `on-${zone.stop}`, value: date, required: true });
  const form = el('form', {
    class: 'stop', novalidate: true, 'aria-label': `Stop ${zone.stop}`,
    onsubmit: async (e) => {
      e.preventDefault();
      showError(error, null);
      const chosen = forms.filter((f) => f.tick.checked);
      const wrong = chosen.flatMap((f) => [f.mix, f.hours, f.cost]).find((i) => !i.validity.valid);
      if (wrong || !chosen.length) {
        showError(error, new Error(wrong ? `${wrong.getAttribute('aria-label')}: expected a number, 0 or more` : 'Tick what is done first.'));
        (wrong || forms[0].tick).focus();
        return;
      }
      const blank = chosen.some((f) => !f.mix.value || !f.hours.value);
      const sure = !blank || await confirmDialog('Record without numbers?', 'Mix or hours are empty. They are kept as not recorded, never as planned.', 'Record');
      if (!sure) { return; }
      try {
        const entry = { id: crypto.randomUUID(), done: `${path}/done`, page: location.pathname + location.search,
          where: `Done on ${on.value}: ${chosen.map((f) => f.label).join(', ')}`,
          form: { on: on.value, repairs: chosen.map((f) => ({ repair: f.id, mix: value(f.mix), hours: value(f.hours), cost: value(f.cost), note: f.note.value })) } };
        const { said, waits } = await recordKept(path, entry, chosen.flatMap((f) => f.tray.photos.map(({ blob, hash }) => ({ blob, hash, repair: f.id }))));
        if (waits) {
          for (const f of chosen) { forms.splice(forms.indexOf(f), 1)[0].node.remove(); }
          if (!forms.length) { form.replaceWith(onThePhone(zone)); }
          await onPhone();
        } else {
          await again();
        }
        say(said);
        $('#work h1').focus();
      } catch (problem) {
        showError(error, problem);
      }
    } },
    el('h2', {}, `${zone.stop}. ${zone.route}, ${zone.milepost === zone.milepostTo ? 'milepost ' + zone.milepost : `mileposts ${zone.milepost} to ${zone.milepostTo}`}`),
    el('p', {}, `Arrive ${zone.arrive}, leave ${zone.depart}. ${zone.workTime} of work.`),
    el('p', { class: 'soft' }, `${capital(zone.traffic)}; a first list, for review.`),
    ...forms.map((f) => f.node),
    el('details', {}, el('summary', {}, 'Times and mix of this stop'), figures(zone.figures)),
    el('div', { class: 'field' }, el('label', { for: on.id }, 'Done on'), on),
    error,
    el('div', { class: 'act' },
      el('button', { type: 'button', onclick: () => forms.forEach((f) => { f.mix.value = f.planned.mix; f.hours.value = f.planned.hours; }) }, 'Fill in as planned'),
      el('button', { class: 'main', may: 'post /api/sheets/{date}/{crew}/done' }, `Record stop ${zone.stop} done`)));
  if (repairs.length) { return form; }
  return open.length ? onThePhone(zone) : el('div', { class: 'stop' }, el('h2', {}, `${zone.stop}. ${zone.route}, ${zone.milepost}`), el('p', {}, 'Recorded; its defect waits for its other parts.'));
}

const onThePhone = (zone) => el('div', { class: 'stop' }, el('h2', {}, `${zone.stop}. ${zone.route}, ${zone.milepost}`),
  el('p', {}, 'What was done here is kept on this phone and not at the desk yet. It stands at the foot of this page.'));

const value = (input) => (input.value === '' ? null : Number(input.value));

function repair(r, unit, failed) {
  const id = (name) => `${name}-${r.id.replace(/[^\w-]/g, '_')}`;
  const numeric = (name, label, max) => el('input', { id: id(name), type: 'number', inputmode: 'decimal', min: 0, max, step: 'any', 'aria-label': `${label} of ${r.label}` });
  const mix = numeric('mix', 'Mix placed', 10000);
  const hours = numeric('hours', 'Crew hours', 1000);
  const cost = numeric('cost', 'Cost', 10000000);
  const note = el('input', { id: id('note'), autocomplete: 'off', 'aria-label': `Note on ${r.label}` });
  const tray = new PhotoTray(id('photo'), `Take a photo of ${r.label}`, failed);
  const tick = el('input', { id: id('tick'), type: 'checkbox', checked: true });
  const node = el('div', { class: 'repair' },
    el('h3', {}, mark(r.severity), `${r.label}: ${r.treatment}`),
    el('p', {}, `${r.severity} ${r.kind.replaceAll('_', ' ')}, ${r.size}, lane ${r.lane}, milepost ${r.milepost}`),
    el('p', { class: 'tick' }, tick, el('label', { for: tick.id }, 'Done')),
    el('div', { class: 'two' },
      el('div', { class: 'field' }, el('span', {}, `Mix placed, ${unit}`), mix, el('small', {}, `planned ${r.mix}`)),
      el('div', { class: 'field' }, el('span', {}, 'Crew hours'), hours, el('small', {}, `planned ${r.hoursPlanned}`))),
    el('div', { class: 'field' }, el('span', {}, 'Cost, where it is known'), cost),
    el('div', { class: 'field note' }, el('span', {}, 'What differed, what was found'), note),
    tray.node,
    el('details', {}, el('summary', {}, 'How the numbers came'), figures(r.figures)));
  return { id: r.id, label: r.label, mix, hours, cost, note, tick, tray, node, planned: { mix: r.mixPlanned, hours: r.hoursPlanned } };
}

function recorded(rows, unit, again) {
  return rows.length
    ? el('section', { id: 'done' }, el('h2', {}, 'Recorded on this date'), el('ul', {}, ...rows.map((r) => el('li', {}, `${r.repair}: ${r.work}, ${r.place}${r.mix ? ', ' + r.mix : ''}${r.hours ? ', ' + r.hours : ''} `,
      el('button', { type: 'button', may: 'put /api/records/{id}', 'aria-label': `Correct the record of ${r.repair}`, onclick: () => openCorrection(r.id, unit, again).catch((e) => say(e.message)) }, 'Correct'), pictures(r)))))
    : null;
}

/** Photos of recorded work, to press. */
export const pictures = (r) => (r.photos.length
  ? gallery(r.photos.map((hash, i) => ({ hash, title: `Photo ${i + 1} of ${r.repair}, done ${r.on}` }))) : null);
