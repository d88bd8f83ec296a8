// The calendar: a row for each date, a column for each crew.
import { el, number } from '../shared/page.js';

const SKY = { no_hot_mix: 'no hot mix', lost: 'no work', off: 'off' };
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** 2026-05-04 as May 4. */
export const shortDate = (date) => `${MONTHS[Number(date.slice(5, 7)) - 1]} ${Number(date.slice(8))}`;

const key = (date, crew) => date + ' ' + crew;

export class Calendar {
  constructor(place, { choose, drop }) {
    this.place = place;
    this.choose = choose;
    this.drop = drop;
    this.cells = new Map();
    place.addEventListener('keydown', (e) => this.arrow(e));
  }

  show(plan, chosen, today) {
    this.plan = plan;
    this.cells.clear();
    const byKey = new Map(plan.days.map((d) => [key(d.date, d.crew), d]));
    const shown = plan.dates.filter((d) => d.use !== 'off' || d.why !== 'not a workday' || plan.days.some((x) => x.date === d.date));
    const rows = [];
    let week = null;
    for (const date of shown) {
      const monday = mondayOf(date.date);
      if (monday !== week) {
        week = monday;
        rows.push(el('tr', { class: 'week' }, el('th', { colspan: String(plan.crews.length + 1), scope: 'colgroup' }, `Week of ${shortDate(monday)}`)));
      }
      rows.push(el('tr', { class: date.date < plan.today ? 'past' : '' }, head(date, today),
        ...plan.crews.map((c) => this.cell(date, c, byKey.get(key(date.date, c.id))))));
    }
    this.place.replaceChildren(el('table', {},
      el('colgroup', {}, el('col', { class: 'when' }), ...plan.crews.map(() => el('col', {}))),
      el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, 'Date and weather'),
        ...plan.crews.map((c) => el('th', { scope: 'col' }, c.name, el('small', {}, c.shift))))),
      el('tbody', {}, ...rows)));
    this.mark(chosen);
    if (chosen && this.cells.has(key(chosen.date, chosen.crew))) {
      const td = this.cells.get(key(chosen.date, chosen.crew)).td;
      this.place.scrollTop = Math.max(0, td.offsetTop - 120);
    }
  }

  cell(date, crew, day) {
    const off = date.off.find((o) => o.crew === crew.id);
    const td = el('td', {});
    const cell = { td, date, crew, day, off };
    this.cells.set(key(date.date, crew.id), cell);
    this.fill(cell, null);
    td.addEventListener('dragover', (e) => {
      if (this.places) { e.preventDefault(); }
    });
    td.addEventListener('dragenter', () => { if (this.places && cell.button) { cell.button.classList.add('under'); } });
    td.addEventListener('dragleave', (e) => { if (cell.button && !td.contains(e.relatedTarget)) { cell.button.classList.remove('under'); } });
    td.addEventListener('drop', (e) => {
      e.preventDefault();
      if (this.places) { this.drop(date.date, crew.id); }
    });
    return td;
  }

  fill(cell, place) {
    const { td, date, crew, day, off } = cell;
    const name = `${date.weekday} ${shortDate(date.date)}, ${crew.name}`;
    const choose = () => this.choose(date.date, crew.id);
    cell.button = null;
    if (place && place.home) {
      td.replaceChildren(el('span', { class: 'none' }, 'here now'));
      return;
    }
    if (place) {
      const fits = place.possible;
      const less = place.difference ? place.difference.replace('-', '−') : 'no way there';
      cell.button = el('button', { type: 'button', class: 'day ' + (fits ? 'fits' : 'not'), onclick: choose,
        'aria-label': `${name}: ${fits ? 'fits, ' + less : 'not possible, ' + place.broken[0]}` },
        fits ? el('b', {}, less) : el('b', {}, 'Not possible'), el('br'),
        fits ? (day ? `beside ${day.stops} ${day.stops === 1 ? 'stop' : 'stops'}` : 'a free day') : short(place.broken[0]));
    } else if (day) {
      cell.button = el('button', { type: 'button', class: 'day', 'aria-pressed': 'false', onclick: choose, 'aria-label': `${name}: ${inWords(day)}` },
        el('b', {}, day.tonnes > 0 ? day.mix : 'no mix'), ` · ${day.stops} ${day.stops === 1 ? 'stop' : 'stops'}`,
        day.locked !== null ? el('b', {}, ' · locked') : null,
        used(day),
        `${number(day.minutesUsed)} of ${number(day.shiftMinutes)} min`,
        day.finish === null ? null : ` · ${number(day.finish)} % in time`);
    } else {
      td.replaceChildren(el('span', { class: 'none' }, off ? `off: ${off.why}` : date.use === 'full' || date.use === 'no_hot_mix' ? 'free' : ''));
      return;
    }
    cell.button.dataset.date = date.date;
    cell.button.dataset.crew = crew.id;
    td.replaceChildren(cell.button);
  }

  /** Shows what each day would make of a zone that is being moved; null ends that. */
  offer(places) {
    this.places = places;
    for (const [k, cell] of this.cells) {
      this.fill(cell, places ? places.get(k) : null);
    }
    if (!places) {
      this.mark(this.chosen);
      return;
    }
    const best = [...this.cells.values()].find((c) => c.button && c.button.classList.contains('fits'));
    // Not while something is being dragged, which a change of focus would end.
    if (best && !document.querySelector('.going')) { best.button.focus(); }
  }

  mark(chosen) {
    this.chosen = chosen;
    for (const [k, cell] of this.cells) {
      if (cell.button && cell.button.hasAttribute('aria-pressed')) {
        cell.button.setAttribute('aria-pressed', String(Boolean(chosen) && k === key(chosen.date, chosen.crew)));
      }
    }
  }

  /** Arrow keys go from day to day. */
  arrow(e) {
    const step = { ArrowRight: [0, 1], ArrowLeft: [0, -1], ArrowDown: [1, 0], ArrowUp: [-1, 0] }[e.key];
    const at = e.target.closest('td');
    if (!step || !at || !e.target.closest('button.day')) {
      return;
    }
    e.preventDefault();
    const rows = [...this.place.querySelectorAll('tbody tr:not(.week)')];
    let row = rows.indexOf(at.parentElement);
    let column = at.cellIndex;
    for (;;) {
      row += step[0];
      column += step[1];
      const td = rows[row] && rows[row].cells[column];
      if (!td || column < 1) { return; }
      const button = td.querySelector('button');
      if (button) {
        button.focus();
        return;
      }
    }
  }
}

function head(date, today) {
  const sky = SKY[date.use];
  return el('th', { scope: 'row' },
    el('b', {}, `${date.weekday} ${shortDate(date.date)}`), date.date === today ? ' · today' : '',
    sky ? el('span', { class: 'sky stop' }, sky) : null,
    date.why ? el('span', { class: 'sky' }, date.why) : null);
}

/** How much of the shift a day takes. */
function used(day) {
  const share = Math.min(1, day.minutesUsed / day.shiftMinutes);
  const bar = el('i', { class: day.minutesUsed > day.shiftMinutes ? 'over' : '' });
  bar.style.width = 100 * share + '%';
  return el('span', { class: 'used', 'aria-hidden': 'true' }, bar);
}

function inWords(day) {
  return `${day.tonnes > 0 ? day.mix + ' of mix' : 'no mix'}, ${day.stops} stops, ${day.minutesUsed} of ${day.shiftMinutes} minutes`
    + (day.finish === null ? '' : `, ${number(day.finish)} % in time`) + (day.locked !== null ? ', locked' : '');
}

const short = (text) => (text.length > 60 ? text.slice(0, 58) + '…' : text);

function mondayOf(date) {
  const d = new Date(date + 'T00:00:00Z');
  d.setUTCDate(d.getUTCDate() - ((d.getUTCDay() + 6) % 7));
  return d.toISOString().slice(0, 10);
}
