import { el, number } from './page.js';
import { query } from './api.js';

/**
 * A table whose rows the desk sorts, chooses and hands out by the page.
 * columns: [{key, title, sort: 'name' or none, number, wide, cell: (row) => node or text}]
 * load: ({sort, from, count}) => Promise<{total, from, rows}>
 * choose: (row) => void, when a row's first cell is pressed
 * exports: () => ({path: '/api/exports/defects', parameters: {where}, as: ['csv', 'geojson']}) or none
 */
export class Table {
  constructor(place, { caption, columns, load, choose, exports, count = 100, keyOf = (r) => r.id }) {
    Object.assign(this, { columns, load, choose, exports, count, keyOf });
    this.sort = '';
    this.from = 0;
    this.chosen = null;
    this.head = el('tr');
    this.rows = el('tbody');
    this.told = el('span', { role: 'status' });
    this.back = el('button', { type: 'button', onclick: () => this.turn(-1) }, 'Rows before');
    this.on = el('button', { type: 'button', onclick: () => this.turn(1) }, 'Rows after');
    this.links = el('span', { class: 'row' });
    place.append(
      el('div', { class: 'pager' }, this.told, this.back, this.on, this.links),
      el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': caption },
        el('table', {}, el('caption', { hidden: true }, caption), el('thead', {}, this.head), this.rows)));
    this.drawHead();
  }

  drawHead() {
    this.head.replaceChildren(...this.columns.map((c) => {
      const kind = c.number ? 'number' : null;
      if (!c.sort) {
        return el('th', { scope: 'col', class: kind }, el('span', {}, c.title));
      }
      const down = this.sort === '-' + c.sort;
      const up = this.sort === c.sort;
      return el('th', { scope: 'col', class: kind, 'aria-sort': up ? 'ascending' : down ? 'descending' : null },
        el('button', { type: 'button', onclick: () => this.order(c.sort) }, c.title + (up ? ' ▲' : down ? ' ▼' : '')));
    }));
  }

  order(by) {
    this.sort = this.sort === by ? '-' + by : by;
    this.from = 0;
    const at = [...this.head.children].findIndex((th) => th.contains(document.activeElement));
    this.drawHead();
    if (at >= 0) {
      this.head.children[at].querySelector('button').focus();
    }
    return this.show();
  }

  turn(by) {
    this.from = Math.max(0, this.from + by * this.count);
    return this.show();
  }

  /** Reads the rows again, from the first. */
  again() {
    this.from = 0;
    return this.show();
  }

  async show() {
    const asked = (this.asked = {});
    const page = await this.load({ sort: this.sort, from: this.from, count: this.count });
    if (asked !== this.asked) {
      return;
    }
    this.rows.replaceChildren(...page.rows.map((row) => this.line(row)));
    const last = page.from + page.rows.length;
    this.told.textContent = page.total === 0
      ? 'No rows'
      : `Rows ${number(page.from + 1)} to ${number(last)} of ${number(page.total)}`;
    this.back.disabled = page.from === 0;
    this.on.disabled = last >= page.total;
    this.back.hidden = this.on.hidden = this.back.disabled && this.on.disabled;
    if (this.exports) {
      const { path, parameters, as } = this.exports();
      this.links.replaceChildren(...as.map((kind) =>
        el('a', { class: 'button', href: `${path}/${kind}${query(parameters)}`, download: true },
          ({ csv: 'CSV', geojson: 'GeoJSON', geopackage: 'GeoPackage' })[kind])));
    }
  }

  line(row) {
    const key = this.keyOf(row);
    const cells = this.columns.map((c, i) => {
      let content = c.cell ? c.cell(row) : row[c.key];
      if (i === 0 && this.choose) {
        content = el('button', { type: 'button', class: 'figure', onclick: () => this.choose(row) }, content);
      }
      return el(i === 0 ? 'th' : 'td',
        { scope: i === 0 ? 'row' : null, class: c.number ? 'number' : c.wide ? 'wide' : null }, content ?? '');
    });
    return el('tr', { 'data-key': key, 'aria-selected': this.choose ? String(key === this.chosen) : null }, ...cells);
  }

  select(key) {
    this.chosen = key;
    for (const tr of this.rows.children) {
      if (tr.hasAttribute('aria-selected')) {
        tr.setAttribute('aria-selected', String(tr.dataset.key === key));
      }
    }
  }
}
