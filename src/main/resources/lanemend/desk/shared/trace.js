import { el, capital } from './page.js';
import { openDialog } from './dialog.js';

/** A figure to press: its trace (rule, what went in, source) opens in a dialog. */
export function figure(trace) {
  return el('button', {
    type: 'button', class: 'figure', 'aria-haspopup': 'dialog', title: 'How this number came to be',
    onclick: () => openTrace(trace),
  }, trace.shown);
}

export function openTrace(trace) {
  openDialog(`${capital(trace.name)}: ${trace.shown}`,
    el('h3', {}, 'Rule'),
    el('p', {}, trace.formula),
    el('h3', {}, 'What went in'),
    trace.inputs.length
      ? el('dl', { class: 'pairs' }, ...trace.inputs.flatMap((i) => [el('dt', {}, i.name), el('dd', {}, i.shown)]))
      : el('p', {}, 'Nothing but the rule.'),
    el('h3', {}, 'Source'),
    el('p', {}, trace.source));
}

/** Figures as a list of pairs, each to press. */
export function figures(traces) {
  return el('dl', { class: 'pairs numbers' },
    ...traces.flatMap((t) => [el('dt', {}, t.name), el('dd', {}, figure(t))]));
}
