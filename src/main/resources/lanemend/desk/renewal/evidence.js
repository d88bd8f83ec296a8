// The evidence of one section: sentences, figures to press, drawings, and its place on map and strip.
import { map as makeMap, polyline } from '../shared/leaflet.js';
import { get, query } from '../shared/api.js';
import { $, el, token } from '../shared/page.js';
import { figure, figures } from '../shared/trace.js';
import { CountyLayer } from '../map/tiles.js';
import { Road } from '../map/road.js';
import { Strip } from '../map/strip.js';
import { stateWords } from './state.js';

export class EvidencePanel {
  /** acts: decide(kind, evidence), withdraw(evidence). */
  constructor(acts) {
    this.acts = acts;
    document.addEventListener('theme', () => this.recolour());
  }

  empty() {
    this.evidence = null;
    this.take();
    $('#evidence').replaceChildren(el('h2', {}, 'No section is chosen'),
      el('p', {}, 'Press a section of the list to see what speaks for and against renewing it.'));
  }

  take() {
    if (this.map) { this.map.remove(); this.map = null; }
    this.strip = null;
  }

  async show(evidence, county) {
    this.take();
    this.evidence = evidence;
    const s = evidence.inShort;
    const asked = query({ section: s.id });
    const act = (kind, text, main) => el('button', { type: 'button', may: 'post /api/renewal/decisions', class: main ? 'main' : null, 'aria-haspopup': 'dialog', onclick: () => this.acts.decide(kind, evidence) }, text);
    $('#evidence').replaceChildren(el('div', {},
      el('h2', { tabindex: '-1', id: 'evidence-title' }, `${s.route}, milepost ${s.milepost} to ${s.milepostTo}`),
      el('p', {}, `${s.length}. ${evidence.why}`),
      el('div', { class: 'decided' }, el('p', {}, stateWords(s.state, s.stateWords)),
        evidence.decision ? el('p', {}, evidence.decision) : el('p', {}, 'No engineer has decided on it yet.'),
        s.waiting ? el('p', {}, `${s.waiting} ${s.waiting === 1 ? 'defect waits' : 'defects wait'} for repair on it.`) : null),
      el('div', { class: 'acts' },
        act('accepted', 'Accept', true), act('limits_changed', 'Accept with other limits'), act('deferred', 'Put off'), act('rejected', 'Reject'),
        evidence.decision ? el('button', { type: 'button', may: 'post /api/renewal/withdrawals', 'aria-haspopup': 'dialog', onclick: () => this.acts.withdraw(evidence) }, 'Take the decision back') : null,
        el('a', { class: 'button', href: '/api/renewal/evidence/page' + asked }, 'Page to print'),
        el('a', { class: 'button', href: '/api/renewal/evidence/pdf' + asked }, 'PDF')),
      el('div', { class: 'proof' }, this.left(evidence), this.beside())));
    await this.place(s, county);
  }

  left(e) {
    const row = (...cells) => el('tr', {}, ...cells.map((c, i) => (i === 0 ? el('th', { scope: 'row' }, c) : el('td', { class: 'number' }, c))));
    const head = (...names) => el('thead', {}, el('tr', {}, ...names.map((n, i) => el('th', { scope: 'col', class: i ? 'number' : null }, el('span', {}, n)))));
    const table = (label, ...parts) => el('div', { class: 'table', tabindex: '0', role: 'region', 'aria-label': label }, el('table', {}, ...parts));
    return el('div', {},
      el('p', {}, e.hindcast),
      el('div', { class: 'groups' }, ...e.groups.map((g) => el('div', {}, el('h3', {}, g.title), ...g.words.map((w) => el('p', {}, w)), figures(g.figures)))),
      el('h3', {}, 'Forecast if patching goes on'),
      el('p', { class: 'soft' }, 'Each with its 90 % interval; the surface left as it is, today\u2019s prices, not discounted.'),
      table('Forecast', head('Years', 'Through', 'Repairs', 'Mix', 'Cost'),
        el('tbody', {}, ...e.forecast.map((h) => row(String(h.years), h.through, figure(h.repairs), figure(h.mix), figure(h.cost))))),
      el('h3', {}, 'Limits by both methods'),
      table('Limits', head('Method', 'Mileposts', 'Length', 'Repairs per lane mile and year'),
        el('tbody', {}, ...e.limits.map((l) => row(l.way, `${l.milepost} to ${l.milepostTo}`, l.length, figure(l.rate))))),
      ...e.drawings.flatMap((d) => [el('h3', {}, d.title), el('p', { class: 'soft' }, d.words),
        el('div', { class: 'drawn', tabindex: '0', role: 'region', 'aria-label': d.title }, drawing(d.svg))]),
      el('h3', {}, 'Before this is leaned on'),
      el('ul', { class: 'plain-rows' }, ...e.cautions.map((c) => el('li', {}, c))),
      said('Measured here', e.measured),
      said('Assumed or lacking', e.unsettled));
  }

  beside() {
    return el('div', { class: 'beside' },
      el('div', { id: 'section-map', role: 'region', 'aria-label': 'Map of the section. Arrow keys move it, plus and minus zoom.' }),
      el('canvas', { id: 'section-strip', role: 'img', 'aria-label': 'Strip diagram of the section' }),
      el('div', { class: 'acts' }, el('a', { class: 'button', id: 'on-map', href: '/map' }, 'On the county map')));
  }

  async place(s, county) {
    const at = this.evidence;
    const [line, data] = await Promise.all([
      get('/api/routes/' + encodeURIComponent(s.route)),
      get(`/api/routes/${encodeURIComponent(s.route)}/strip`)]);
    if (at !== this.evidence || !$('#section-map')) { return; }
    const road = new Road(line);
    const points = road.points(s.fromAlongM, s.toAlongM);
    $('#on-map').href = '/map' + query({ at: `${s.route} ${s.milepost}` });
    this.map = makeMap('section-map', { attributionControl: false, zoomAnimation: false, minZoom: 5, maxZoom: 20 });
    this.map.fitBounds(points, { animate: false, padding: [40, 40], maxZoom: 16 });
    this.layer = new CountyLayer({ version: county.drawing, show: 'roads,posts,sections,defects,patches' }).addTo(this.map);
    // In order along the road: the ends of points() come first.
    const inside = [road.at(s.fromAlongM), ...points.slice(2), road.at(s.toAlongM)].filter(Boolean);
    this.outline = polyline(inside, { weight: 22, opacity: 0.28, color: token('--focus'), interactive: false, lineCap: 'butt' }).addTo(this.map);
    this.strip = new Strip($('#section-strip'), { pick: () => {}, point: () => {}, move: () => {} });
    this.strip.set(road, data);
    const more = Math.max(400, (s.toAlongM - s.fromAlongM) / 2);
    this.strip.show(s.fromAlongM - more, s.toAlongM + more);
    const sections = data.sections.map((x) => `${x.id}, ${x.text}`).join('; ');
    $('#section-strip').setAttribute('aria-label', `Strip diagram of ${s.route} about milepost ${s.milepost} to ${s.milepostTo}. Sections: ${sections}.`);
  }

  recolour() {
    if (this.map) {
      this.layer.recolour();
      this.outline.setStyle({ color: token('--focus') });
      this.strip.recolour();
    }
  }
}

function said(title, sentences) {
  return sentences.length
    ? el('details', {}, el('summary', {}, `${title} (${sentences.length})`), el('ul', { class: 'plain-rows' }, ...sentences.map((t) => el('li', {}, t))))
    : null;
}

/** An SVG of the desk's own as an element. */
function drawing(text) {
  const svg = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  svg.removeAttribute('width');
  svg.removeAttribute('height');
  return document.importNode(svg, true);
}
