// The chosen day: its zones in order, on a map and as cards to move.
import { map as makeMap, marker, divIcon, polyline, latLngBounds } from '../shared/leaflet.js';
import { county as readCounty } from '../shared/api.js';
import { $, el, may, token } from '../shared/page.js';
import { mark } from '../shared/marks.js';
import { figures } from '../shared/trace.js';
import { CountyLayer } from '../map/tiles.js';
import { shortDate } from './calendar.js';
import { supply } from './words.js';

export class DayPanel {
  constructor(acts) {
    this.acts = acts;
    this.marks = [];
    document.addEventListener('theme', () => {
      if (this.layer) {
        this.layer.recolour();
        this.colour();
      }
    });
  }

  empty(text = 'Press a day of the calendar to see its work zones.') {
    $('#day-head').replaceChildren(el('h2', {}, 'No day is chosen'), el('p', {}, text));
    $('#day-zones').replaceChildren();
    $('#day-map').hidden = true;
  }

  show(day) {
    const locked = day.inShort.locked;
    const sheet = `/api/sheets/${day.date}/${encodeURIComponent(day.crew)}`;
    // el() leaves nulls out, the element's own method would write them.
    $('#day-head').replaceChildren(el('div', {},
      el('h2', {}, `${day.crewName}, ${shortDate(day.date)}`),
      el('p', {}, `Leaves ${day.inShort.leave}, back ${day.inShort.back}; ${supply(day)}; ${day.inShort.cost}.`),
      locked === null ? null : el('p', { class: 'held' }, `Locked: ${locked}`),
      el('div', { class: 'row' },
        locked === null
          ? el('button', { type: 'button', may: 'post /api/plan/rules', onclick: () => this.acts.lock(day) }, 'Lock the day')
          : el('button', { type: 'button', may: 'post /api/plan/releases', onclick: () => this.quiet(this.acts.release({ crew: day.crew, date: day.date })) }, 'Unlock the day'),
        el('a', { class: 'button', href: `/sheets?date=${day.date}&crew=${encodeURIComponent(day.crew)}` }, 'Work and record'),
        el('a', { class: 'button', href: sheet + '/page' }, 'Print'),
        el('a', { class: 'button', href: sheet + '/pdf' }, 'PDF'))));
    $('#day-zones').replaceChildren(...day.zones.map((z) => this.card(z)),
      el('details', {}, el('summary', {}, 'How the day adds up'), figures(day.figures)),
      el('details', {}, el('summary', {}, 'Signs and devices to load'),
        el('p', { class: 'soft' }, 'The most at any one stop, and in all. Plan for review: the MUTCD, agency and permit conditions rule.'),
        el('ul', { class: 'reasons' }, ...day.load.map((l) => el('li', {}, `${l.atOneStop} ${l.item}, ${l.overTheDay} in all`)))),
      el('details', {}, el('summary', {}, 'Cautions'), el('ul', { class: 'reasons' }, ...day.cautions.map((c) => el('li', {}, c)))));
    this.draw(day);
  }

  card(zone) {
    const label = `the zone on ${zone.route} at ${zone.milepost}`;
    const card = el('article', { class: 'zone-card', draggable: String(may('post /api/plan/moves')), 'aria-label': `Stop ${zone.stop}`,
      ondragstart: (e) => {
        e.dataTransfer.setData('text/plain', zone.repair);
        e.dataTransfer.effectAllowed = 'move';
        card.classList.add('going');
        this.acts.move(zone.repair, label);
      },
      ondragend: () => {
        card.classList.remove('going');
        // A drop opened the dialog that decides; a zone let go elsewhere stays where it is.
        if (!document.querySelector('dialog[open]')) { this.acts.stopMove(); }
      } },
      el('h3', {}, `${zone.stop}. ${zone.route}, ${zone.milepost === zone.milepostTo ? zone.milepost : zone.milepost + ' to ' + zone.milepostTo}`),
      el('p', {}, `${zone.arrive} to ${zone.depart}, ${zone.mix} of mix, ${zone.workTime} of work`),
      el('p', { class: 'soft' }, zone.traffic),
      zone.pinned === null ? null : el('p', { class: 'held' }, `Held here: ${zone.pinned}`),
      el('ul', {}, ...zone.repairs.map((r) => el('li', {}, mark(r.severity), `${r.label}: ${r.treatment}, ${r.size}, lane ${r.lane}, ${r.severity}`,
        r.doneBy ? `, by ${r.doneBy}` : ''))),
      el('div', { class: 'row' },
        el('button', { type: 'button', may: 'post /api/plan/moves', 'aria-label': `Move ${label}`, onclick: () => this.acts.move(zone.repair, label) }, 'Move'),
        zone.pinned === null
          ? el('button', { type: 'button', may: 'post /api/plan/rules', 'aria-label': `Hold ${label} here`, onclick: () => this.quiet(this.acts.settle({ kind: 'pin', repair: zone.repair })) }, 'Hold here')
          : el('button', { type: 'button', may: 'post /api/plan/releases', 'aria-label': `Let ${label} go`, onclick: () => this.quiet(this.acts.release({ repair: zone.repair })) }, 'Let go'),
        el('button', { type: 'button', may: 'post /api/plan/rules', 'aria-label': `Leave out a repair of ${label}`, onclick: () => this.acts.leaveOut(zone.repairs) }, 'Leave out')),
      el('details', {}, el('summary', {}, 'Times and mix'), figures(zone.figures)),
      el('details', {}, el('summary', {}, 'Traffic control'), el('p', {}, `Why: ${zone.trafficReason}.`), figures(zone.trafficFigures)));
    return card;
  }

  /** What was refused is shown by the page already. */
  quiet(promise) {
    promise.catch((e) => { if (!e.problem) { throw e; } });
  }

  async draw(day) {
    $('#day-map').hidden = false;
    if (!this.map) {
      const county = await readCounty();
      const [west, south, east, north] = county.bounds;
      this.map = makeMap('day-map', { attributionControl: false, minZoom: 5, maxZoom: 19, fadeAnimation: false });
      this.map.fitBounds([[south, west], [north, east]], { animate: false });
      this.layer = new CountyLayer({ version: county.drawing, show: 'roads,posts' }).addTo(this.map);
    }
    this.marks.forEach((m) => m.remove());
    this.marks = [];
    const bounds = latLngBounds();
    const flip = (p) => [p[1], p[0]];
    for (const zone of day.zones) {
      const line = zone.line.map(flip);
      line.forEach((p) => bounds.extend(p));
      bounds.extend(flip(zone.at));
      this.add(polyline(line, { weight: 7, opacity: 0.7, interactive: false }));
      this.add(marker(flip(zone.at), { icon: divIcon({ className: 'stop-mark', html: String(zone.stop), iconSize: [24, 24] }), interactive: false, keyboard: false }));
    }
    for (const [at, letter] of [[day.yard, 'Y'], [day.plant, 'P']]) {
      if (at) {
        bounds.extend([at.lat, at.lon]);
        this.add(marker([at.lat, at.lon], { icon: divIcon({ className: 'place-mark', html: letter, iconSize: [24, 24] }), interactive: false, keyboard: false }));
      }
    }
    this.colour();
    this.map.invalidateSize({ animate: false });
    this.map.fitBounds(bounds, { animate: false, padding: [24, 24], maxZoom: 16 });
  }

  add(mark) {
    mark.addTo(this.map);
    this.marks.push(mark);
  }

  colour() {
    const colour = token('--zone');
    this.marks.forEach((m) => { if (m.setStyle) { m.setStyle({ color: colour }); } });
  }
}
