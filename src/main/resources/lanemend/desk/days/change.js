// Dialogs of changes by hand: each says what it would do before it is kept.
import { post } from '../shared/api.js';
import { $, el, capital, number, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';
import { shortDate } from './calendar.js';

/** Asks for a reason; {@code act} gets it, and the dialog closes when that went well. */
export function ask(title, text, label, yes, act, more = []) {
  const error = el('div', { class: 'error', role: 'alert' });
  const form = el('form', {
    onsubmit: async (e) => {
      e.preventDefault();
      const button = $('button.main', form);
      button.disabled = true;
      try {
        const going = act($('#reason', form).value, form);
        await going;
        box.close();
      } catch (problem) {
        if (!problem.problem) { throw problem; }
        showError(error, problem);
        button.disabled = false;
      }
    } },
    text ? el('p', {}, text) : null,
    ...more,
    label ? el('div', { class: 'field' }, el('label', { for: 'reason' }, label), el('input', { id: 'reason', autocomplete: 'off', required: label.endsWith('*') })) : el('input', { id: 'reason', type: 'hidden' }),
    error,
    el('div', { class: 'foot-row' }, el('button', { type: 'button', onclick: () => box.close() }, 'Cancel'), el('button', { class: 'main' }, yes)));
  const box = openDialog(title, form);
  return { box, form };
}

/** A move: cost and limits first, then the question whether to keep it. */
export function openMove({ repair, label, date, crew, name, place, keep }) {
  if (!place) { return; }
  const title = `${capital(label)} to ${name}, ${shortDate(date)}`;
  if (!place.possible) {
    openDialog(title, el('p', { class: 'verdict bad' }, 'Not possible'),
      el('ul', { class: 'reasons' }, ...place.broken.map((b) => el('li', {}, b))),
      place.difference ? el('p', {}, `Limits apart it would cost ${place.difference}.`) : null);
    return;
  }
  ask(title, null, 'Why', 'Keep it there', (reason) => keep({ repair, crew, date, reason }),
    [el('p', { class: 'verdict good' }, `Possible: ${place.difference} for the whole plan`),
      el('p', {}, 'No limit is broken: shift, plant, trucks, machines, weather and what is settled by hand. The zone is then held there.')]);
}

/** Leaves one repair of a zone out. */
export function openLeaveOut(repairs, _label, change, state) {
  const choice = el('div', { class: 'field' }, el('label', { for: 'which' }, 'Repair'),
    el('select', { id: 'which' }, ...repairs.map((r) => el('option', { value: r.id }, r.label))));
  ask('Leave a repair out', 'It goes on waiting, and later plans leave it out too.', 'Why *', 'Leave out',
    (reason, form) => change(() => post('/api/plan/rules', { kind: 'leave_out', repair: $('#which', form).value, reason }, state())), [choice]);
}

/** Brings in a repair by a date with the least change. */
export function openUrgent(plan, change) {
  const ids = plan.leftOut.map((r) => el('option', { value: r.id }, `${r.place}, ${r.severity}`));
  ask('Bring in an urgent repair', 'The plan changes as little as can be: days close at hand first stay, then other days, then places in a day.', 'Why', 'Find the least change',
    (reason, form) => change(() => post('/api/plan/urgent', { repair: $('#u-repair', form).value.trim(), by: $('#u-by', form).value, reason }, plan.state)),
    [el('div', { class: 'row' },
      el('div', { class: 'field' }, el('label', { for: 'u-repair' }, 'Defect'), el('input', { id: 'u-repair', required: true, autocomplete: 'off', list: 'u-list' }), el('datalist', { id: 'u-list' }, ...ids)),
      el('div', { class: 'field' }, el('label', { for: 'u-by' }, 'Done by'), el('input', { id: 'u-by', type: 'date', value: plan.today, min: plan.today, required: true })))]);
}

/** Closes a day; its work goes to other days with little disturbance. */
export function openClose(plan, start) {
  ask('Close a day', 'Nobody works then: rain, a holiday, a machine that is out. The work of the day goes to other days, and what is close at hand stays.', 'Why *', 'Close it and adjust',
    (reason, form) => start({ adjust: true, iterations: 10000, close: { date: $('#c-date', form).value, crew: $('#c-crew', form).value, reason } }),
    [el('div', { class: 'row' },
      el('div', { class: 'field' }, el('label', { for: 'c-date' }, 'Date'), el('input', { id: 'c-date', type: 'date', value: plan.today, min: plan.today, required: true })),
      el('div', { class: 'field' }, el('label', { for: 'c-crew' }, 'Crew'), el('select', { id: 'c-crew' }, el('option', { value: '' }, 'Every crew'), ...plan.crews.map((c) => el('option', { value: c.id }, c.name)))))]);
}

/** Two plans side by side and each change with its reason. */
export function showChanges(title, c, said) {
  const line = (name, key) => el('tr', {}, el('th', { scope: 'row' }, name), el('td', { class: 'number' }, show(c.before[key])), el('td', { class: 'number' }, show(c.after[key])));
  openDialog(title,
    said ? el('p', {}, said) : null,
    el('table', { class: 'side-by-side' },
      el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, el('span', {}, 'What')), el('th', { scope: 'col', class: 'number' }, el('span', {}, 'Before')), el('th', { scope: 'col', class: 'number' }, el('span', {}, 'Now')))),
      el('tbody', {}, line('Crew days', 'crewDays'), line('Work zones', 'zones'), line('Repairs', 'repairs'), line('Left out', 'leftOut'),
        line('Mix', 'mix'), line('Driven', 'driven'), line('Cost', 'cost'))),
    el('p', {}, `Cost ${c.difference}. ${number(c.crewDaysChanged)} crew days changed; ${number(c.zonesMoved)} zones on another crew day, ${number(c.zonesTakenOff)} taken off, ${number(c.daysReordered)} days in another order.`),
    c.changes.length
      ? el('ul', { class: 'reasons', id: 'changes' }, ...c.changes.map((w) => el('li', {}, `${w.what} (${w.why})`)),
        c.more ? el('li', {}, `and ${number(c.more)} more`) : null)
      : el('p', {}, 'Nothing else is different.'));
}

const show = (v) => (typeof v === 'number' ? number(v) : v);
