// Sends what waits, oldest first, when there is a network. Nothing is sent twice at once; what was
// sent and not answered is sent again under the same id, which the desk takes once.
import { post, put, Refused } from './api.js';
import { sendPhoto } from './photo.js';
import * as kept from './kept.js';

/** Answers of the desk that say 'not now' and not 'never'. */
const LATER = new Set([0, 401, 403, 408, 425, 429, 500, 502, 503, 504]);

/** Whether a refusal says that the desk may take the same later. */
export const later = (problem) => LATER.has(problem.status);

/**
 * Sends all that waits. {@code changed} is called after each step.
 * @returns '' or why it stopped
 */
export async function sendAll(changed) {
  // Two tabs of the page on one phone take turns.
  return navigator.locks.request('lanemend-patrol-send', { ifAvailable: true }, async (lock) => {
    if (!lock) { return ''; }
    for (const entry of await kept.entries()) {
      if (entry.state !== 'waiting') { continue; }
      try {
        await send(entry);
      } catch (e) {
        if (!(e instanceof Refused)) { throw e; }
        if (later(e.problem)) {
          return why(e.problem);
        }
        await refused(entry, e.problem);
      }
      await changed();
    }
    return '';
  });
}

function why({ status, detail }) {
  if (status === 0) { return 'No network to the desk.'; }
  return status === 401 || status === 403 ? 'The desk asks you to sign in first.' : detail || 'The desk cannot take entries just now.';
}

/** Sends the photos of an entry that were not sent yet; what was sent before a network was lost stays sent. */
async function photosSent(entry) {
  const photos = await kept.photosOf(entry.id);
  for (const photo of photos) {
    if (!photo.hash) {
      photo.hash = await sendPhoto(photo.blob);
      await kept.sentPhoto(photo, photo.hash);
    }
  }
  return photos;
}

/** A report of done work as the desk takes it: its id, and each repair with the names of its photos. */
export async function report(entry) {
  const photos = await photosSent(entry);
  const of = (repair) => photos.filter((p) => p.repair === repair).map((p) => p.hash);
  return { entry: entry.id, on: entry.form.on, repairs: entry.form.repairs.map((r) => ({ ...r, photos: of(r.repair) })) };
}

async function send(entry) {
  const answer = entry.done ? await post(entry.done, await report(entry))
    : entry.finding ? await put(`/api/field/findings/${entry.id}`, { ...entry.form, made: entry.made })
    : await put(`/api/field/entries/${entry.id}`, { ...entry.form, made: entry.made, photos: (await photosSent(entry)).map((p) => p.hash) });
  await kept.arrived(entry, (now) => ({ ...now, state: 'arrived', said: answer.said, became: answer.became, key: answer.key, sent: new Date().toISOString() }));
}

/** Kept with the reason, for its owner to mend. */
async function refused(entry, problem) {
  await kept.change(entry.id, (now) => (now.mended !== entry.mended ? now
    : { ...now, state: 'refused', reason: problem.detail || 'The desk did not take it', field: problem.field || '' }));
}
