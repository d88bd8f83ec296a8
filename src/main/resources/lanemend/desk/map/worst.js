// Which road is worst: roads in the order of what waits on them.
import { $, el, number, byName } from '../shared/page.js';
import { mark } from '../shared/marks.js';

const FIRST = 8;
const METRES = { metric: ['km', 1000], other: ['mile', 1609.344] };

export class WorstRoads {
  /** choose: (route id) => void, when a road is pressed. */
  constructor(choose) {
    this.choose = choose;
    this.all = false;
    $('#worst-by').addEventListener('change', () => this.draw());
    $('#worst-all').addEventListener('click', () => { this.all = !this.all; this.draw(); });
  }

  show(county) {
    [this.unit, this.perUnit] = county.units === 'metric' ? METRES.metric : METRES.other;
    this.roads = county.routes.filter((r) => r.open).map((r) => ({ ...r, low: r.open - r.high - r.medium, dense: (r.open * this.perUnit) / r.lengthM }));
    $('#worst-head').replaceChildren(el('th', { scope: 'col' }, el('span', {}, 'Road')),
      ...['high', 'medium', 'low'].map((s) => el('th', { scope: 'col', class: 'number' }, el('span', {}, mark(s), el('span', { class: 'unseen' }, s)))),
      el('th', { scope: 'col', class: 'number' }, el('span', {}, `a ${this.unit}`)));
    this.draw();
  }

  draw() {
    const by = $('#worst-by').value;
    const order = { high: (a, b) => b.high - a.high || b.medium - a.medium || b.low - a.low, open: (a, b) => b.open - a.open, dense: (a, b) => b.dense - a.dense }[by];
    const sorted = [...this.roads].sort((a, b) => order(a, b) || byName(a.id, b.id));
    $('#worst-rows').replaceChildren(...sorted.slice(0, this.all ? sorted.length : FIRST).map((r) => el('tr', { 'data-road': r.id },
      el('th', { scope: 'row' }, el('button', { type: 'button', class: 'figure', onclick: () => this.choose(r.id) }, r.id)),
      ...[r.high, r.medium, r.low].map((n) => el('td', { class: 'number' }, number(n))),
      el('td', { class: 'number' }, number(r.dense, 1)))));
    $('#worst-told').textContent = this.roads.length
      ? 'Counts of defects that wait for repair; press a road to see it.' : 'No defect waits for repair.';
    $('#worst-all').hidden = sorted.length <= FIRST;
    $('#worst-all').textContent = this.all ? 'Only the worst' : `All ${number(sorted.length)} roads`;
  }
}
