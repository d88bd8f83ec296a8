// Sends what waits, oldest first, when there is a network. Nothing is sent twice at once; what was
// sent and not answered is sent again under the same id, which the desk takes once.
import { put, Refused } from '../shared/api.js';
import { sendPhoto } from '../shared/photo.js';
import * as kept from './kept.js';

/** Answers of the desk that say 'not now' and not 'never'. */
const LATER = new Set([0, 401, 403, 408, 425, 429, 500, 502, 503, 504]);

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
        if (LATER.has(e.problem.status)) {
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

async function send(entry) {
  const photos = [];
  for (const photo of await kept.photosOf(entry.id)) {
    if (!photo.hash) {
      const hash = await sendPhoto(photo.blob);
      await kept.sentPhoto(photo, hash);
      photos.push(hash);
    } else {
      photos.push(photo.hash);
    }
  }
  const answer = await put(`/api/field/entries/${entry.id}`, { ...entry.form, made: entry.made, photos });
  await kept.arrived(entry, (now) => ({ ...now, state: 'arrived', said: answer.said, became: answer.became, key: answer.key, sent: new Date().toISOString() }));
}

/** Kept with the reason, for its owner to mend. */
async function refused(entry, problem) {
  await kept.change(entry.id, (now) => (now.mended !== entry.mended ? now
    : { ...now, state: 'refused', reason: problem.detail || 'The desk did not take it', field: problem.field || '' }));
}
