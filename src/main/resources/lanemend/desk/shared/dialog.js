import { el } from './page.js';

let count = 0;

/**
 * Opens a dialog over the page. Escape and the button close it; focus goes back to where it was.
 * @param title text of its heading
 * @param body nodes
 * @returns {dialog, close}
 */
export function openDialog(title, ...body) {
  const id = 'dialog-' + ++count;
  const dialog = el('dialog', { 'aria-labelledby': id },
    el('div', { class: 'head' },
      el('h2', { id, tabindex: '-1' }, title),
      el('button', { type: 'button', class: 'quiet', onclick: () => dialog.close() }, 'Close')),
    el('div', { class: 'body' }, ...body));
  const before = document.activeElement;
  dialog.addEventListener('close', () => {
    dialog.remove();
    if (before && before.isConnected) {
      before.focus();
    }
  });
  document.body.append(dialog);
  dialog.showModal();
  return { dialog, close: () => dialog.close() };
}

/** Asks yes or no; resolves to true or false. */
export function confirmDialog(title, text, yes) {
  return new Promise((resolve) => {
    let answer = false;
    const { dialog, close } = openDialog(title,
      el('p', {}, text),
      el('div', { class: 'foot-row' },
        el('button', { type: 'button', onclick: () => close() }, 'Cancel'),
        el('button', { type: 'button', class: 'main', onclick: () => { answer = true; close(); } }, yes)));
    dialog.addEventListener('close', () => resolve(answer));
  });
}
