// Planning: what is asked before it, and how it gets on.
import { $, el, number, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';
import { LongRun } from '../shared/run.js';
import { shortDate } from './calendar.js';

const words = (run) => {
  if (run.state === 'ending') { return 'Stopping; the best so far is checked and kept'; }
  return `Planning: ${run.stage}` + (run.best === null ? '' : `; the best so far comes to ${number(run.best)} ${run.currency}`);
};

/** Planning in the page. read: shows the plan there now; ended: (run) => tells what came of it. */
export const planning = (read, ended) => new LongRun({
  address: '/api/plan/run',
  begins: '#plan',
  share: (run) => (run.stage === 'crew days' ? run.share : 0),
  told: words,
  read: () => {
    // A large plan takes a while to be worked out day by day: said, so that nobody takes the old one for the new.
    $('#run-told').textContent = 'Planned. Working out the times, trucks and mix of each day …';
    $('#run-share').removeAttribute('value');
    return read();
  },
  ended: (run) => {
    $('#plan').focus();
    return ended(run);
  },
});

const plus = (date, days) => new Date(Date.parse(date + 'T00:00:00Z') + days * 86400000).toISOString().slice(0, 10);
const nextMonday = (date) => plus(date, ((8 - new Date(date + 'T00:00:00Z').getUTCDay()) % 7) || 7);

/** Dates often wanted: [text, first day, last day]. */
function choices(plan, today) {
  const monday = nextMonday(today);
  const days = Math.round((Date.parse(plan.lastDay) - Date.parse(plan.firstDay)) / 86400000);
  return [[`The plan's dates, from ${shortDate(plan.firstDay)}`, plan.firstDay, plan.lastDay],
    [`As long, from next Monday, ${shortDate(monday)}`, monday, plus(monday, days)],
    [`Next week only, ${shortDate(monday)} to ${shortDate(plus(monday, 4))}`, monday, plus(monday, 4)]];
}

/** What the dates would do to these crew days that one may not expect, or nothing. Others stay unless all is planned anew, or they are past. */
function consequences(days, anew, today, from, until) {
  if (!from || !until) { return ''; }
  const outside = days.filter((d) => (d.date < from || d.date > until) && (anew || (d.date < today && until >= today)));
  const said = outside.length
    ? `${number(outside.length)} of ${number(days.length)} crew days there now ${anew ? 'lie outside these dates' : 'are past and not recorded as done'}. Their work is planned again, and what does not fit is listed under Left out. 'Changes' in the head takes a plan back.` : '';
  return until < today ? `These dates are past: today is ${shortDate(today)}, ${today.slice(0, 4)}. ${said}` : said;
}

/** Asks what to plan. */
export function openPlanning(plan, today, start) {
  const error = el('div', { class: 'error', role: 'alert' });
  const field = (id, label, attributes, small) => el('div', { class: 'field' },
    el('label', { for: id }, label), el('input', { id, ...attributes }), small ? el('small', {}, small) : null);
  const form = el('form', {
    onsubmit: async (e) => {
      e.preventDefault();
      const value = (id) => $('#' + id, form).value || null;
      try {
        await begin($('#p-adjust', form).checked
          ? { adjust: true, seconds: Number(value('p-seconds')) }
          : { from: value('p-from'), until: value('p-until'), keepOtherDays: $('#p-dates', form).checked, seconds: Number(value('p-seconds')) });
        box.close();
      } catch (problem) {
        if (!problem.problem) { throw problem; }
        showError(error, problem);
      }
    } },
    el('p', {}, 'What is settled by hand stays; the plan of before is kept to compare with.'),
    el('fieldset', {}, el('legend', {}, 'How'),
      el('label', {}, el('input', { type: 'radio', name: 'p-way', id: 'p-dates', checked: true }), ' Plan these dates; crew days on other dates stay as they are'), el('br'),
      el('label', {}, el('input', { type: 'radio', name: 'p-way', id: 'p-anew' }), ' Plan every waiting repair anew on these dates, and nothing on others'), el('br'),
      el('label', {}, el('input', { type: 'radio', name: 'p-way', id: 'p-adjust', disabled: Boolean(plan.ready) }), ' Adjust the plan to what is true now and change little, over its own dates')),
    el('div', { class: 'row', id: 'p-choices' },
      ...choices(plan, today).map(([text, from, until]) => el('button', { type: 'button', onclick: () => {
        $('#p-from', form).value = from;
        $('#p-until', form).value = until;
        tell();
      } }, text))),
    el('div', { class: 'row' },
      field('p-from', 'First day', { type: 'date', value: plan.firstDay, required: true }),
      field('p-until', 'Last day', { type: 'date', value: plan.lastDay, required: true }),
      field('p-seconds', 'Search for, seconds', { type: 'number', min: 1, max: 3600, value: 20, required: true }, 'longer gives a cheaper plan')),
    el('p', { id: 'p-told', class: 'caution', role: 'status', hidden: true }),
    error,
    el('div', { class: 'foot-row' },
      el('button', { type: 'button', onclick: () => box.close() }, 'Cancel'),
      el('button', { class: 'main' }, 'Start planning')));
  const tell = () => {
    const told = $('#p-adjust', form).checked ? ''
      : consequences(plan.days, $('#p-anew', form).checked, today, $('#p-from', form).value, $('#p-until', form).value);
    $('#p-told', form).hidden = !told;
    $('#p-told', form).textContent = told;
  };
  form.addEventListener('change', tell);
  const begin = (wish) => new Promise((resolve, reject) => { start(wish).then(resolve, reject); });
  const box = openDialog('Plan crew days', form);
  tell();
  $('#p-from', form).focus();
}
