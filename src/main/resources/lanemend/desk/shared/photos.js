// Photos of a defect and of the work done on it, with adding and taking off.
import { el, say } from './page.js';
import { get, post, remove } from './api.js';
import { openDialog, confirmDialog } from './dialog.js';
import { photoButton, photoAddress, sendPhoto } from './photo.js';

/** Opens a photo large. */
export function openPhoto(hash, title) {
  openDialog(title, el('img', { class: 'photo', src: photoAddress(hash), alt: title }));
}

/** Small pictures to press, from {hash, title}. */
export const gallery = (photos) => el('ul', { class: 'photos' }, ...photos.map((p) => el('li', {},
  el('button', { type: 'button', 'aria-label': `Open: ${p.title}`, onclick: () => openPhoto(p.hash, p.title) },
    el('img', { src: photoAddress(p.hash), alt: '', loading: 'lazy' })),
  p.off ? el('button', { type: 'button', 'aria-label': `Take off: ${p.title}`, onclick: p.off }, 'Take off') : null)));

/** The photos of a defect, filled in when the desk has answered. */
export function photosOf(id) {
  const path = `/api/defects/${encodeURIComponent(id)}/photos`;
  const place = el('div', {});
  const show = (photos) => place.replaceChildren(
    el('h3', {}, photos.length ? `Photos (${photos.length})` : 'Photos'),
    photos.length ? gallery(photos.map((p, i) => {
      const title = `Photo ${i + 1} of ${id}, ${p.of === 'patch' ? 'work done' : 'taken'}${p.takenOn ? ' ' + p.takenOn : ''}${p.takenBy ? ' by ' + p.takenBy : ''}`;
      return { hash: p.hash, title, off: async () => {
        if (await confirmDialog('Take the photo off?', `${title}. It can be brought back by undo, under Changes.`, 'Take it off')) {
          settle(remove(`${path}/${encodeURIComponent(p.id)}`), 'The photo is off.');
        }
      } };
    })) : el('p', { class: 'soft' }, 'None yet.'),
    photoButton('photo-of-' + id.replace(/[^\w-]/g, '_'), 'Add a photo',
      async (blob) => settle(post(path, { hash: await sendPhoto(blob) }), 'The photo is kept.'), (e) => say(e.message)));
  const settle = (answer, said) => answer.then((photos) => { show(photos); say(said); }).catch((e) => say(e.message));
  get(path).then(show).catch((e) => place.replaceChildren(el('p', { class: 'error' }, e.message)));
  return place;
}
