// Small pieces every page is made with.

const refused = new Set((document.body.dataset.not || '').split('|'));

/** Whether who is signed in may use a route, as registered: may('post /api/plan/moves'). The desk refuses it in any case. */
export const may = (route) => !refused.has(route);

/** An element; `may: route` leaves it out of sight where that route is refused: el('button', {type: 'button', class: 'main', onclick: f}, 'Save'). */
export function el(name, attributes = {}, ...children) {
  const e = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key === 'may') {
      e.hidden = !may(value);
    } else if (key.startsWith('on')) {
      e.addEventListener(key.slice(2), value);
    } else if (value === true) {
      e.setAttribute(key, '');
    } else if (value !== false && value !== null && value !== undefined) {
      e.setAttribute(key, value);
    }
  }
  e.append(...children.flat().filter((c) => c !== null && c !== undefined));
  return e;
}

export const $ = (selector, within = document) => within.querySelector(selector);

let saying;

/** Says a result aloud and on the screen for a while. */
export function say(text) {
  const e = $('#say');
  e.textContent = '';
  clearTimeout(saying);
  // In the next frame, so that the same sentence twice is heard twice.
  requestAnimationFrame(() => { e.textContent = text; });
  saying = setTimeout(() => { e.textContent = ''; }, 8000);
}

const narrow = matchMedia('(max-width: 1000px)');

/** On a narrow screen what is chosen stands below the list: brought into view, so that pressing does something. */
export function bringUp(place, block = 'start') {
  if (narrow.matches) { place.scrollIntoView({ block }); }
}

/** Code words of the desk as people write them. */
export const plain = (code) => String(code).replaceAll('_', ' ');

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

// Made once: making one takes longer than using it.
const formats = new Map();

export function number(value, decimals = 0) {
  if (!formats.has(decimals)) {
    formats.set(decimals, new Intl.NumberFormat('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals }));
  }
  return formats.get(decimals).format(Number(value));
}

/** Order of names with numbers in them: SR 9 before SR 10. */
export const byName = new Intl.Collator('en', { numeric: true }).compare;

/** Names of the units sizes are read and entered in. */
export const unitsOf = (county) =>
  county.units === 'metric' ? { length: 'm', depth: 'mm' } : { length: 'ft', depth: 'in' };

/** Runs f once the calls have stopped for so long. */
export function settled(f, ms = 150) {
  let timer;
  return (...all) => {
    clearTimeout(timer);
    timer = setTimeout(() => f(...all), ms);
  };
}

/** Shows what went wrong in a place of the page; a filter's error with its position below the text. */
export function showError(place, error, text = '') {
  place.textContent = '';
  if (!error) {
    return;
  }
  place.append(error.message);
  const at = error.problem && error.problem.position;
  if (at && text) {
    place.append(el('pre', { 'aria-hidden': 'true' }, text + '\n' + ' '.repeat(at - 1) + '^'));
    place.append(el('span', {}, `At character ${at}.`));
  }
}

/** A style token's value, for canvases. */
export const token = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
