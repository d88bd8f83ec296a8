// Where a defect is: where the phone stands, put on the road, or a road and milepost.
import { el, $, unitsOf, number } from '../shared/page.js';
import { near, milepost, milepostTrouble, growsTowards } from './roads.js';

/** Sure enough to stop looking for better. */
const GOOD_M = 8;
const BETTER_MS = 4000;
const PATIENCE_MS = 12000;
/** Faster than anybody walks. */
const DRIVING_MPS = 3;
const M_PER_FT = 0.3048;

export class Where {
  /** {@code roads} as roads.js reads them; {@code changed} is called when anything was chosen. */
  constructor(county, roads, changed) {
    this.county = county;
    this.roads = roads;
    this.changed = changed;
    this.fix = null;
    this.feet = [];
    const mode = (value, text, checked) => el('div', { class: 'card' },
      el('input', { type: 'radio', name: 'mode', id: 'mode-' + value, value, checked, onchange: () => { this.showMode(); changed(); } }),
      el('label', { for: 'mode-' + value }, text));
    this.told = el('p', { class: 'told', role: 'status' });
    this.choices = el('div', { class: 'cards one', role: 'radiogroup', 'aria-label': 'Which road is it on?' });
    this.find = el('button', { type: 'button', id: 'find', onclick: () => this.look() }, 'Find where I am');
    this.stand = el('div', {}, this.find, this.told, this.choices);
    this.road = el('select', { id: 'road', name: 'road', onchange: () => { this.checkMilepost(); changed(); } },
      el('option', { value: '' }, 'Choose a road'),
      ...roads.map((r) => el('option', { value: r.id }, r.id)));
    this.milepost = el('input', { id: 'milepost', name: 'milepost', inputmode: 'decimal', autocomplete: 'off',
      'aria-describedby': 'milepost-told', oninput: () => { this.checkMilepost(); changed(); } });
    this.milepostTold = el('p', { class: 'told', id: 'milepost-told', role: 'status' });
    this.written = el('div', { hidden: true },
      el('div', { class: 'field' }, el('label', { for: 'road' }, 'Road'), this.road),
      el('div', { class: 'field' }, el('label', { for: 'milepost' }, 'Milepost'), this.milepost), this.milepostTold);
    this.node = el('fieldset', {}, el('legend', {}, 'Where'),
      el('div', { class: 'cards' }, mode('stand', 'Where I stand', true), mode('written', 'Road and milepost', false)),
      this.stand, this.written);
  }

  length(m) {
    const u = unitsOf(this.county).length;
    return `${number(u === 'm' ? m : m / M_PER_FT)} ${u}`;
  }

  mode() { return $('input[name=mode]:checked', this.node).value; }

  showMode() {
    const standing = this.mode() === 'stand';
    this.stand.hidden = !standing;
    this.written.hidden = standing;
  }

  checkMilepost() {
    const road = this.roads.find((r) => r.id === this.road.value);
    this.milepostTold.textContent = road && this.milepost.value ? milepostTrouble(road, this.milepost.value) : '';
  }

  /** Asks the phone until it is sure enough, or says why not. */
  look() {
    if (!window.isSecureContext || !navigator.geolocation) {
      this.refuse('This browser tells places only over https. Write the road and milepost.');
      return;
    }
    this.fix = null;
    this.choices.replaceChildren();
    this.told.textContent = 'Looking for where you are ...';
    this.find.disabled = true;
    let best = null;
    let better = null;
    let watch = null;
    const end = (f) => {
      navigator.geolocation.clearWatch(watch);
      clearTimeout(better);
      clearTimeout(late);
      this.find.disabled = false;
      this.find.textContent = 'Find where I am again';
      f();
      this.changed();
    };
    const late = setTimeout(() => end(() => this.refuse(best
      ? `Good to ${this.length(best.accuracy)} only, expected ${this.county.worstAccuracy} or better. Step clear of trees and trucks and try again, or write the road and milepost.`
      : 'The phone does not find where it is. Try again under open sky, or write the road and milepost.')), PATIENCE_MS);
    watch = navigator.geolocation.watchPosition((p) => {
      const c = p.coords;
      if (c.speed > DRIVING_MPS) {
        end(() => this.refuse('The phone is moving. Stop and park clear of traffic first.'));
        return;
      }
      best = !best || c.accuracy <= best.accuracy ? c : best;
      if (best.accuracy <= GOOD_M) {
        end(() => this.take(best));
      } else if (best.accuracy <= this.county.worstAccuracyM) {
        better ??= setTimeout(() => end(() => this.take(best)), BETTER_MS);
      } else {
        this.told.textContent = `Looking: good to ${this.length(best.accuracy)} so far ...`;
      }
    }, (e) => {
      if (e.code === e.PERMISSION_DENIED) {
        end(() => this.refuse('This browser may not tell where you are. Allow it for this page, or write the road and milepost.'));
      }
    }, { enableHighAccuracy: true, maximumAge: 0, timeout: PATIENCE_MS });
  }

  refuse(text) {
    this.fix = null;
    this.choices.replaceChildren();
    this.told.textContent = text;
  }

  take(c) {
    const heading = Number.isFinite(c.heading) ? c.heading : null;
    this.show({ lon: c.longitude, lat: c.latitude, accuracyM: c.accuracy, heading }, null);
  }

  /** Shows what roads a fix may be on; with several nothing is chosen for anybody. */
  show(fix, chosen) {
    this.fix = fix;
    this.feet = near(this.roads, fix, this.county.reachM);
    const one = this.feet.length === 1 && chosen === null;
    const card = (value, label, small) => el('div', { class: 'card' },
      el('input', { type: 'radio', name: 'foot', id: 'foot-' + value, value, checked: one && value === '0', onchange: () => this.changed() }),
      el('label', { for: 'foot-' + value }, el('span', {}, label, el('small', {}, small))));
    this.choices.replaceChildren(
      ...this.feet.map((f, i) => card(String(i), `${f.road.id}, milepost ${milepost(f.road, f.along)}`,
        `${this.length(f.distanceM)} ${f.right ? 'right' : 'left'} of its middle; mileposts grow towards the ${growsTowards(f)}`)),
      card('open', this.feet.length ? 'Another road, or not sure' : 'Keep the place as it is', 'The office puts it on the road from this point.'));
    if (chosen !== null) {
      const again = this.feet.findIndex((f) => f.road.id === chosen);
      $(again < 0 ? '#foot-open' : '#foot-' + again, this.choices).checked = true;
    }
    const sure = `Found, good to ${this.length(fix.accuracyM)}.`;
    this.told.textContent = this.feet.length > 1
      ? `${sure} ${this.feet.length} places are near: choose the one it is.`
      : this.feet.length ? sure : `${sure} No road lies within ${this.length(this.county.reachM)}.`;
  }

  /** {route, milepost, lon, lat, accuracyM, heading}, or {trouble, at} with where to go. */
  value() {
    if (this.mode() === 'written') {
      const road = this.roads.find((r) => r.id === this.road.value);
      if (!road) { return { trouble: 'Choose the road.', at: this.road }; }
      const trouble = milepostTrouble(road, this.milepost.value);
      return trouble ? { trouble, at: this.milepost }
        : { route: road.id, milepost: this.milepost.value.trim().toLowerCase(), lon: null, lat: null, accuracyM: null, heading: null };
    }
    if (!this.fix) { return { trouble: 'Press Find where I am first, or write the road and milepost.', at: this.find }; }
    const chosen = $('input[name=foot]:checked', this.choices);
    if (!chosen) { return { trouble: 'Choose which road it is on.', at: $('input', this.choices) }; }
    const foot = chosen.value === 'open' ? null : this.feet[Number(chosen.value)];
    // Where the road comes by twice the point alone would not say which.
    const twice = foot && this.feet.filter((f) => f.road === foot.road).length > 1;
    return { ...this.fix, route: foot ? foot.road.id : null, milepost: twice ? milepost(foot.road, foot.along) : null };
  }

  /** In words, for the list. */
  text() {
    const v = this.value();
    if (v.milepost) { return `${v.route}, milepost ${v.milepost}`; }
    const foot = v.route && this.feet.find((f) => f.road.id === v.route);
    return foot ? `${v.route}, milepost ${milepost(foot.road, foot.along)}` : 'Place to be found by the office';
  }

  /** What was chosen so far, to be shown again. */
  state() {
    const chosen = $('input[name=foot]:checked', this.choices);
    return { mode: this.mode(), fix: this.fix, road: this.road.value, milepost: this.milepost.value,
      foot: !chosen ? null : chosen.value === 'open' ? 'open' : this.feet[Number(chosen.value)].road.id };
  }

  restore(state) {
    $('#mode-' + state.mode, this.node).checked = true;
    this.road.value = state.road;
    this.milepost.value = state.milepost;
    if (state.fix) {
      this.show(state.fix, state.foot);
    } else {
      this.fix = null;
      this.choices.replaceChildren();
      this.told.textContent = '';
    }
    this.showMode();
    this.checkMilepost();
  }

  clear() {
    this.restore({ mode: this.mode(), fix: null, road: this.road.value, milepost: '', foot: null });
    this.find.textContent = 'Find where I am';
  }
}
