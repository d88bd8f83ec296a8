// Severity has a shape of its own: low a ring, medium a diamond, high a triangle with its base down.
import { el } from './page.js';

export const SEVERITIES = ['low', 'medium', 'high'];

/** Path of a severity's shape about (x, y), on a canvas; r is its half width. */
export function trace(path, severity, x, y, r) {
  if (severity === 0) {
    path.moveTo(x + r * 0.85, y);
    path.arc(x, y, r * 0.85, 0, 2 * Math.PI);
  } else if (severity === 1) {
    path.moveTo(x, y - r * 1.15);
    path.lineTo(x + r * 1.15, y);
    path.lineTo(x, y + r * 1.15);
    path.lineTo(x - r * 1.15, y);
    path.closePath();
  } else {
    path.moveTo(x, y - r * 1.25);
    path.lineTo(x + r * 1.2, y + r * 0.95);
    path.lineTo(x - r * 1.2, y + r * 0.95);
    path.closePath();
  }
}

const SVG = 'http://www.w3.org/2000/svg';
const SHAPES = {
  low: ['circle', { cx: 7, cy: 7, r: 4.5 }],
  medium: ['path', { d: 'M7 .8 13.2 7 7 13.2 .8 7Z' }],
  high: ['path', { d: 'M7 .6 13.6 12.6H.4Z' }],
};

/** A severity's shape for text, beside its word. */
export function mark(severity) {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', '0 0 14 14');
  const [name, attributes] = SHAPES[severity];
  const shape = document.createElementNS(SVG, name);
  for (const [k, v] of Object.entries(attributes)) {
    shape.setAttribute(k, v);
  }
  shape.setAttribute('class', 'fill-' + severity);
  svg.append(shape);
  return el('span', { class: 'mark', 'aria-hidden': 'true' }, svg);
}
