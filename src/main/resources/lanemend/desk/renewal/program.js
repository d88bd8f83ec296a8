// The program: budgets to slide, sections by years, what is spent and saved.
import { post, put } from '../shared/api.js';
import { $, el, number, say, showError } from '../shared/page.js';
import { figure } from '../shared/trace.js';
import { stateWords } from './state.js';

export class ProgramPanel {
  /** choose(section id) is called back. */
  constructor(choose) {
    this.choose = choose;
    this.sent = 0;
  }

  /** Draws the program with its sliders; the budgets are those it has. */
  show(program) {
    this.program = program;
    this.budgets = program.budgeted ? program.years.map((y) => y.budget) : [];
    this.sliders();
    this.draw(program);
  }

  get most() {
    const wanted = this.program.wanted;
    const step = this.step;
    return Math.max(step, Math.ceil(Math.max(wanted, 1.2 * Math.max(0, ...this.budgets)) / step) * step);
  }

  get step() {
    const most = Math.max(this.program.wanted, ...this.budgets, 1000);
    return 10 ** Math.max(0, Math.floor(Math.log10(most)) - 2) * 5;
  }

  sliders() {
    const currency = this.program.currency;
    const first = this.program.firstYear;
    const most = this.most;
    const one = (label, name, value, change, more) => {
      const slide = el('input', { type: 'range', min: 0, max: most, step: this.step, value, 'aria-label': `Budget, ${name}`, 'aria-valuetext': `${number(value)} ${currency}` });
      const type = el('input', { type: 'number', min: 0, step: 'any', value, 'aria-label': `Budget in ${currency}, ${name}` });
      const set = (v) => {
        slide.value = v;
        slide.setAttribute('aria-valuetext', `${number(v)} ${currency}`);
        if (document.activeElement !== type) { type.value = v; }
      };
      slide.addEventListener('input', () => { type.value = slide.value; set(slide.valueAsNumber); change(slide.valueAsNumber); });
      type.addEventListener('input', () => { if (type.value !== '' && type.valueAsNumber >= 0) { set(type.valueAsNumber); change(type.valueAsNumber); } });
      return { node: el('div', { class: 'year ' + (more || '') }, el('b', {}, label), slide, type), set };
    };
    const years = this.budgets.map((b, i) => one(String(first + i), String(first + i), b, (v) => { this.budgets[i] = v; this.solve(); }));
    const all = this.budgets.length > 1
      ? one('Every year the same', 'every year', this.budgets[0], (v) => { this.budgets.fill(v); years.forEach((y) => y.set(v)); this.solve(); }, 'all')
      : null;
    $('#budgets').replaceChildren(...[all, ...years].filter(Boolean).map((y) => y.node));
    const button = (text, act, more = {}) => el('button', { type: 'button', onclick: act, ...more }, text);
    this.keepButton = button('Keep these budgets', () => this.keep(), { class: 'main', may: 'put /api/renewal/budgets' });
    this.backButton = button('Back to the agency\u2019s budgets', () => this.back());
    $('#budget-acts').replaceChildren(
      button(this.budgets.length ? 'One year more' : 'Set yearly budgets', () => this.years(1)),
      ...(this.budgets.length ? [button('One year less', () => this.years(-1))] : []),
      this.keepButton, this.backButton);
  }

  years(by) {
    if (by < 0) {
      this.budgets.pop();
    } else if (this.budgets.length) {
      this.budgets.push(this.budgets[this.budgets.length - 1]);
    } else {
      const each = Math.round(this.program.wanted / 3 / this.step) * this.step;
      this.budgets = [each, each, each, each, each];
    }
    this.sliders();
    const button = $('#budget-acts button:nth-child(' + (by < 0 && this.budgets.length ? 2 : 1) + ')');
    button.focus();
    this.solve();
  }

  /** Asks for the program under these budgets; of several asked at once only the last is drawn. */
  async solve() {
    const started = performance.now();
    const asked = ++this.sent;
    let program;
    try {
      program = await post('/api/renewal/program', { budgets: this.budgets });
    } catch (e) {
      if (!e.problem) { throw e; }
      showError($('#error'), e);
      return;
    }
    if (asked !== this.sent) { return; }
    this.draw(program);
    requestAnimationFrame(() => {
      const took = performance.now() - started;
      performance.measure('program redrawn', { start: started, end: performance.now() });
      $('#solved').textContent = `Solved in ${number(program.solveMs, 1)} ms, drawn ${number(took)} ms after the budget changed.`;
    });
  }

  async keep() {
    try {
      const program = await put('/api/renewal/budgets', { budgets: this.budgets });
      say('These are the agency\u2019s budgets now; Changes can take it back.');
      this.show(program);
      this.kept = program;
    } catch (e) {
      if (!e.problem) { throw e; }
      showError($('#error'), e);
    }
  }

  back() {
    document.dispatchEvent(new CustomEvent('budgets-back'));
  }

  draw(p) {
    this.keepButton.disabled = p.kept;
    this.backButton.disabled = p.kept;
    const chosen = p.sections.filter((s) => s.year).length;
    $('#saved').replaceChildren(
      `${chosen} of ${p.sections.length} sections are overlaid, which saves `, figure(p.saving),
      p.budgeted
        ? ` of present cost against patching on. No program within these budgets saves more than ${p.bound}: this one is within ${number(p.gap, 2)} % of the best.`
        : ' of present cost against patching on. No budgets are set: each year has money enough.');
    const years = p.years;
    const cell = (s, y) => {
      if (s.year === y.year) {
        return el('td', { class: 'cell' }, el('b', { class: s.agreed ? 'agreed' : '' }, s.cost), s.agreed ? 'agreed' : s.treatment.replace(' overlay', ''));
      }
      return el('td', { class: 'cell' }, el('span', { class: 'open' }, s.open.includes(y.year) ? '\u00b7' : ''));
    };
    const foot = (name, of) => el('tr', {}, el('th', { scope: 'row', colspan: '2' }, name), ...years.map((y) => el('td', { class: 'cell' }, of(y))), el('td'));
    $('#years').replaceChildren(el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'Program, sections by years' },
      el('table', {},
        el('thead', {}, el('tr', {}, ...['Section', 'Decision'].map((t) => el('th', { scope: 'col' }, el('span', {}, t))),
          ...years.map((y) => el('th', { scope: 'col', class: 'cell' }, el('span', {}, String(y.year)))),
          el('th', { scope: 'col', class: 'number' }, el('span', {}, 'Saves')))),
        el('tbody', {}, ...p.sections.map((s) => el('tr', {},
          el('th', { scope: 'row' }, el('button', { type: 'button', class: 'figure', onclick: () => this.choose(s.id) }, s.id)),
          el('td', {}, stateWords(s.state, s.stateWords)),
          ...years.map((y) => cell(s, y)),
          el('td', { class: 'number' }, s.year ? s.saving : 'patch on')))),
        el('tfoot', {},
          ...(p.budgeted ? [foot('Budget', (y) => `${number(y.budget)} ${p.currency}`)] : []),
          foot('Spent', (y) => y.spent),
          ...(p.budgeted ? [foot('Left', (y) => y.left), foot('One more saves', (y) => figure(y.oneMore))] : [])))),
      p.remarks.length ? el('ul', { class: 'plain-rows' }, ...p.remarks.map((r) => el('li', {}, r))) : '');
  }
}
