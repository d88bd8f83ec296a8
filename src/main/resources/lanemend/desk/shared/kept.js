// What the phone keeps by itself, for the patrol page and for crew sheets: entries with their photos,
// the form at hand, the roads. An entry is a defect, with `finding` a
// finding, or with `done` (the address that takes it) a report of done work; its photos then name
// the repair they are of.

const NAME = 'lanemend-patrol';
let opened = null;

function open() {
  opened ??= new Promise((resolve, reject) => {
    const ask = indexedDB.open(NAME, 1);
    ask.onupgradeneeded = () => {
      ask.result.createObjectStore('entries', { keyPath: 'id' });
      ask.result.createObjectStore('photos', { keyPath: 'id' }).createIndex('entry', 'entry');
      ask.result.createObjectStore('rest');
    };
    ask.onsuccess = () => resolve(ask.result);
    ask.onerror = () => reject(new Error('This browser keeps nothing: leave its private mode, or make room on the phone.'));
  });
  return opened;
}

/** Runs work(stores...) in one transaction; resolves when it is on the disk. */
async function within(names, mode, work) {
  const db = await open();
  return new Promise((resolve, reject) => {
    const t = db.transaction(names, mode, mode === 'readwrite' ? { durability: 'strict' } : {});
    const answer = work(...names.map((n) => t.objectStore(n)));
    t.oncomplete = () => resolve(answer && answer.result);
    t.onabort = () => reject(new Error(`The phone could not keep it (${t.error ? t.error.message : 'no room'}). Nothing was lost of what was kept before.`));
  });
}

/** Entries in the order they were made. */
export const entries = async () =>
  (await within(['entries'], 'readonly', (s) => s.getAll())).sort((a, b) => a.made.localeCompare(b.made));

export const entry = (id) => within(['entries'], 'readonly', (s) => s.get(id));

export const photosOf = (id) => within(['photos'], 'readonly', (s) => s.index('entry').getAll(id))
  .then((all) => all.sort((a, b) => a.order - b.order));

/** Keeps an entry with these photos ({blob} or {hash}) in place of those it had, and drops the form it was made with. */
export const keep = (made, photos) => within(['entries', 'photos', 'rest'], 'readwrite', (e, p, rest) => {
  e.put(made);
  replace(p, made.id, photos);
  if (!made.done) { rest.delete('form'); }
});

function replace(store, id, photos) {
  const old = store.index('entry').getAllKeys(id);
  old.onsuccess = () => {
    old.result.forEach((key) => store.delete(key));
    photos.forEach((photo, order) => store.put({ id: `${id}/${order}`, entry: id, order, blob: photo.blob ?? null, hash: photo.hash ?? null, repair: photo.repair ?? null }));
  };
}

/** Changes an entry as it stands now; nothing when it is gone. */
export const change = (id, f) => within(['entries'], 'readwrite', (e) => {
  const ask = e.get(id);
  ask.onsuccess = () => { if (ask.result) { e.put(f(ask.result)); } };
});

/** A photo that was sent needs only its name. */
export const sentPhoto = (photo, hash) => within(['photos'], 'readwrite', (s) => s.put({ ...photo, hash }));

/** An entry that arrived needs its photos no longer; one that was mended meanwhile stays as it is. */
export const arrived = (sent, f) => within(['entries', 'photos'], 'readwrite', (e, p) => {
  const ask = e.get(sent.id);
  ask.onsuccess = () => {
    if (ask.result && ask.result.made === sent.made && ask.result.mended === sent.mended) {
      e.put(f(ask.result));
      replace(p, sent.id, []);
    }
  };
});

export const drop = (id) => within(['entries', 'photos'], 'readwrite', (e, p) => {
  e.delete(id);
  replace(p, id, []);
});

/** The form as it is being filled in: the camera may take the page's place meanwhile. */
export const form = () => within(['rest'], 'readonly', (s) => s.get('form'));
export const keepForm = (f) => within(['rest'], 'readwrite', (s) => s.put(f, 'form'));
export const dropForm = () => within(['rest'], 'readwrite', (s) => s.delete('form'));

export const county = () => within(['rest'], 'readonly', (s) => s.get('county'));
export const keepCounty = (c) => within(['rest'], 'readwrite', (s) => s.put(c, 'county'));
