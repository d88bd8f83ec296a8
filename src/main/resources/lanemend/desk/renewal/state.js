// How far a section has come, as a shape beside its words.
import { el } from '../shared/page.js';

const SVG = 'http://www.w3.org/2000/svg';

export function stateMark(state) {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', '0 0 30 12');
  svg.setAttribute('aria-hidden', 'true');
  for (const kind of state === 'accepted' ? ['accepted', 'accepted-core'] : [state]) {
    const line = document.createElementNS(SVG, 'path');
    line.setAttribute('d', 'M1 6h28');
    line.setAttribute('fill', 'none');
    line.setAttribute('class', 'state-' + kind);
    svg.append(line);
  }
  return svg;
}

export const stateWords = (state, words) => el('span', { class: 'state' }, stateMark(state), words);
