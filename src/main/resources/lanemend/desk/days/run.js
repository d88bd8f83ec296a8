// Planning: starts a run, shows how it gets on, and ends it.
import { get, post, remove } from '../shared/api.js';
import { $, el, number, showError } from '../shared/page.js';
import { openDialog } from '../shared/dialog.js';

const LOOK_MS = 400;

export class Runner {
  constructor(ended) {
    this.ended = ended;
    $('#run-stop').addEventListener('click', async () => {
      $('#run-stop').disabled = true;
      this.tell(await remove('/api/plan/run'));
    });
  }

  async start(wish) {
    this.watch(await post('/api/plan/run', wish));
  }

  /** Takes up a run that another page began. */
  async resume() {
    const run = await get('/api/plan/run');
    if (run.state === 'running' || run.state === 'ending') { this.watch(run); }
  }

  async watch(run) {
    $('#plan').disabled = true;
    $('#run').hidden = false;
    $('#run-stop').disabled = false;
    let now = run;
    while (now.state === 'running' || now.state === 'ending') {
      this.tell(now);
      await new Promise((r) => setTimeout(r, LOOK_MS));
      now = await get('/api/plan/run');
    }
    $('#plan').disabled = false;
    $('#run').hidden = true;
    $('#plan').focus();
    await this.ended(now);
  }

  tell(run) {
    $('#run-share').value = run.stage === 'crew days' ? run.share : 0;
    const best = run.best === null ? '' : `; the best so far comes to ${number(run.best)} ${run.currency}`;
    const told = run.state === 'ending' ? 'Stopping; the best so far is checked and kept' : `Planning: ${run.stage}${best}`;
    if ($('#run-told').textContent !== told) { $('#run-told').textContent = told; }
  }
}

/** Asks what to plan. */
export function openPlanning(plan, start) {
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
          : { from: value('p-from'), until: value('p-until'), seconds: Number(value('p-seconds')) });
        box.close();
      } catch (problem) {
        if (!problem.problem) { throw problem; }
        showError(error, problem);
      }
    } },
    el('p', {}, 'What is settled by hand stays; the plan of before is kept to compare with.'),
    el('fieldset', {}, el('legend', {}, 'How'),
      el('label', {}, el('input', { type: 'radio', name: 'p-way', checked: true }), ' Plan every waiting repair anew'), el('br'),
      el('label', {}, el('input', { type: 'radio', name: 'p-way', id: 'p-adjust', disabled: Boolean(plan.ready) }), ' Adjust the plan to what is true now and change little, over its own dates')),
    el('div', { class: 'row' },
      field('p-from', 'First day', { type: 'date', value: plan.firstDay, required: true }),
      field('p-until', 'Last day', { type: 'date', value: plan.lastDay, required: true }),
      field('p-seconds', 'Search for, seconds', { type: 'number', min: 1, max: 3600, value: 20, required: true }, 'longer gives a cheaper plan')),
    error,
    el('div', { class: 'foot-row' },
      el('button', { type: 'button', onclick: () => box.close() }, 'Cancel'),
      el('button', { class: 'main' }, 'Start planning')));
  const begin = (wish) => new Promise((resolve, reject) => { start(wish).then(resolve, reject); });
  const box = openDialog('Plan crew days', form);
  $('#p-from', form).focus();
}
