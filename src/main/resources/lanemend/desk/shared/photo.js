// Photos: made small on the device before they are kept or sent, so that a roadside network bears them.
import { el } from './page.js';
import { sendFile } from './api.js';

const LONGEST_SIDE = 1600;
const QUALITY = 0.82;

/**
 * A camera's file as a JPEG of at most 1600 pixels a side. It is drawn anew, so nothing the camera
 * wrote beside the picture (where it was, when, with what) is left in it.
 */
export async function shrink(file) {
  let picture;
  try {
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error(`${file.name || 'This file'} is no picture this browser can read; take a photo as JPEG.`);
  }
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const canvas = el('canvas', { width: Math.round(picture.width * scale), height: Math.round(picture.height * scale) });
  canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return new Promise((resolve, reject) => canvas.toBlob(
    (blob) => (blob ? resolve(blob) : reject(new Error('The picture is too large for this browser.'))), 'image/jpeg', QUALITY));
}

/** Sends a small photo; resolves to the name it is kept under. */
export const sendPhoto = async (blob) => (await sendFile('/api/photos', blob)).hash;

export const photoAddress = (hash) => '/api/photos/' + hash;

/**
 * A button that opens the camera (or a file chooser where there is none).
 * {@code taken(blob)} is called with each photo, made small; {@code failed(error)} otherwise.
 */
export function photoButton(id, text, taken, failed) {
  const input = el('input', { type: 'file', id, class: 'unseen', accept: 'image/*', capture: 'environment',
    onchange: async () => {
      for (const file of [...input.files]) {
        try {
          await taken(await shrink(file));
        } catch (e) {
          failed(e);
        }
      }
      // The same file may be chosen again after it was removed.
      input.value = '';
    } });
  return el('span', { class: 'photo-button' }, input, el('label', { for: id, class: 'button' }, text));
}

/** Photos on their way, with a button to take one off again. */
export class PhotoTray {
  constructor(id, text, failed, changed = () => {}) {
    this.photos = [];
    this.changed = changed;
    this.list = el('ul', { class: 'tray' });
    this.node = el('div', {}, photoButton(id, text, (blob) => this.add({ blob }), failed), this.list);
  }

  /** {@code photo} has a blob, or a hash when it was sent before. */
  add(photo) {
    photo.address = photo.blob ? URL.createObjectURL(photo.blob) : photoAddress(photo.hash);
    this.photos.push(photo);
    this.draw();
    return this.changed();
  }

  draw() {
    this.list.replaceChildren(...this.photos.map((p, i) => el('li', {},
      el('img', { src: p.address, alt: `Photo ${i + 1}` }),
      el('button', { type: 'button', 'aria-label': `Take photo ${i + 1} off`, onclick: () => {
        this.photos.splice(i, 1);
        if (p.blob) { URL.revokeObjectURL(p.address); }
        this.draw();
        this.changed();
      } }, 'Take off'))));
  }

  clear() {
    this.photos.forEach((p) => { if (p.blob) { URL.revokeObjectURL(p.address); } });
    this.photos = [];
    this.draw();
  }
}
