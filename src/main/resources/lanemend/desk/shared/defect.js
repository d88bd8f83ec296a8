// A defect's particulars, its repair with every number to press, and the form to add or change one.
import { el, plain, capital, say, unitsOf, showError, $ } from './page.js';
import { get, post, put, remove } from './api.js';
import { openDialog } from './dialog.js';
import { figure, figures } from './trace.js';
import { mark } from './marks.js';
import { chooseFields } from './both.js';

export const severity = (word) => el('span', {}, mark(word), capital(word));

/** Particulars as a list of pairs. */
export function particulars(d) {
  const pairs = [
    ['Place', `${d.route} milepost ${d.milepost}` + (d.milepostTo === d.milepost ? '' : ` to ${d.milepostTo}`)],
    ['Lane', laneWords(d.lane)], ['Severity', severity(d.severity)], ['Size', d.size],
    ['Status', capital(plain(d.status))], ['Found', `${d.foundOn}${d.foundBy ? ' by ' + d.foundBy : ''}`],
  ];
  if (d.note) { pairs.push(['Note', d.note]); }
  if (d.photo) { pairs.push(['Photo reference', d.photo]); }
  return el('dl', { class: 'pairs' }, ...pairs.flatMap(([k, v]) => [el('dt', {}, k), el('dd', {}, v)]));
}

export function laneWords(lane) {
  const side = lane.charAt(0) === 'L' ? 'left' : 'right';
  return lane.charAt(1) === '0' ? `${side} shoulder` : `${side} lane ${lane.charAt(1)}`;
}

/** The repair, filled in when the desk has answered; with choosing another treatment by hand. */
export function repair(id) {
  const place = el('div', {}, el('p', { class: 'soft' }, 'Working out the repair ...'));
  const path = `/api/defects/${encodeURIComponent(id)}`;
  const show = (r) => place.replaceChildren(
    el('h3', {}, 'Treatment: ' + r.treatment + (r.byHand ? ', chosen by hand' : '')),
    el('p', {}, r.reason + '.'),
    el('div', { class: 'acts' },
      el('button', { type: 'button', may: 'put /api/defects/{id}/treatment', onclick: () => choose(r) }, 'Choose another treatment'),
      r.byHand ? el('button', { type: 'button', may: 'delete /api/defects/{id}/treatment', onclick: () => settle(remove(path + '/treatment', r.version)) }, 'As the rules say') : null),
    ...(r.assumed.length ? [el('p', { class: 'soft' }, 'Assumed: ' + r.assumed.join('; ') + '.')] : []),
    figures(r.figures),
    el('h3', {}, 'Minutes by step'),
    el('dl', { class: 'pairs numbers' }, ...r.steps.flatMap((s) => [el('dt', {}, s.name),
      el('dd', {}, figure(s.minutes), ` \u00b1 ${s.spread}`)])),
    ...(r.layDown.length ? [el('h3', {}, 'Lay-down'), el('ol', {}, ...r.instructions.map((t) => el('li', {}, t))), figures(r.layDown)] : []),
    ...r.cautions.map((t) => el('p', { class: 'caution' }, t)));
  const settle = (answer) => answer.then((r) => {
    show(r);
    say(`Treatment: ${r.treatment}${r.byHand ? ', chosen by hand' : ', by the rules'}.`);
    document.dispatchEvent(new CustomEvent('treated'));
  }).catch((e) => say(e.message));
  // Somebody else may have chosen meanwhile: then both are shown, and what is picked is saved.
  const chosenBy = async (wish, version, before) => {
    try {
      return await put(path + '/treatment', wish, version);
    } catch (e) {
      if (!e.problem || e.problem.status !== 412) { throw e; }
      const theirs = e.problem.theirs;
      const choice = await chooseFields({ title: 'Somebody else chose meanwhile', detail: e.problem.detail, base: before, yours: wish, theirs,
        fields: [{ key: 'treatment', label: 'Treatment' }, { key: 'note', label: 'Why, for the crew' }] });
      if (!choice) { return get(path + '/repair'); }
      const merged = Object.fromEntries(['treatment', 'note'].map((k) => [k, choice[k] === 'theirs' ? theirs[k] : wish[k]]));
      return chosenBy(merged, theirs.version, theirs);
    }
  };
  const choose = (r) => {
    const error = el('div', { class: 'error', role: 'alert' });
    const form = el('form', { novalidate: true },
      el('div', { class: 'field' }, el('label', { for: 't-treatment' }, 'Treatment'),
        el('select', { id: 't-treatment', name: 'treatment' },
          ...r.treatments.map((t) => el('option', { value: t, selected: t === r.code }, capital(plain(t)))))),
      el('div', { class: 'field' }, el('label', { for: 't-note' }, 'Why, for the crew'),
        el('textarea', { id: 't-note', name: 'note', rows: '3', required: true })),
      error,
      el('div', { class: 'foot-row' },
        el('button', { type: 'button', onclick: () => close() }, 'Cancel'),
        el('button', { class: 'main' }, 'Choose it')));
    const { close } = openDialog('Choose the treatment of ' + id,
      el('p', {}, 'The rules say: ' + r.reason + '.'), form);
    form.addEventListener('submit', async (e) => {
      e.preventDefault();
      try {
        const wish = Object.fromEntries(new FormData(form));
        const now = await chosenBy(wish, r.version, { treatment: r.code, note: r.note });
        close();
        settle(Promise.resolve(now));
      } catch (problem) {
        if (!problem.problem) { throw problem; }
        showError(error, problem);
        $('#t-note', form).focus();
      }
    });
  };
  get(path + '/repair').then(show).catch((e) => place.replaceChildren(el('p', { class: 'error' }, e.message)));
  return place;
}

/** What happened to it, newest first, in a dialog. */
export async function openHistory(id) {
  const past = await get(`/api/defects/${encodeURIComponent(id)}/history`);
  openDialog('What happened to ' + id, ...past.reverse().flatMap((p) => [
    el('h3', {}, `${p.at.replace('T', ' ').slice(0, 16)}, ${p.who}: ${p.why}`),
    p.fields.length
      ? el('ul', {}, ...p.fields.map((f) => el('li', {}, `${plain(f.name)}: ${f.before || 'nothing'} → ${f.after || 'nothing'}`)))
      : el('p', {}, { insert: 'Added.', update: 'Changed.', delete: 'Removed.' }[p.action]),
  ]));
}

const LABELS = {
  lane: 'Lane (side and number from the centreline; 0 is the shoulder)', foundOn: 'Found on', foundBy: 'Found by',
};

/**
 * Opens the form. {@code given} is a defect to change, or a new one's place
 * {route, milepost, lon, lat}. {@code done(defect)} is called with what was stored.
 */
export function openForm(county, given, done) {
  const changes = given.id !== undefined;
  const u = unitsOf(county);
  const error = el('div', { class: 'error', role: 'alert' });
  const input = (name, label, more = {}) => el('div', { class: 'field' },
    el('label', { for: 'f-' + name }, label), el('input', { id: 'f-' + name, name, value: given[name] ?? '', ...more }));
  const select = (name, label, values, chosen) => el('div', { class: 'field' },
    el('label', { for: 'f-' + name }, label),
    el('select', { id: 'f-' + name, name }, ...values.map((v) => el('option', { value: v, selected: v === chosen }, capital(plain(v))))));
  const routes = el('datalist', { id: 'f-roads' }, ...county.routes.map((r) => el('option', { value: r.id })));
  const size = (name, label, unit) => input(name, `${label}, ${unit}`, { type: 'number', min: '0', step: 'any', required: true });
  const form = el('form', { class: 'defect-form', novalidate: true },
    el('div', { class: 'row' },
      input('route', 'Road', { list: 'f-roads', required: true, autocomplete: 'off' }),
      input('milepost', 'Milepost', { required: true, autocomplete: 'off' }),
      select('lane', 'Lane', ['R1', 'R2', 'R3', 'R0', 'L1', 'L2', 'L3', 'L0'], given.lane || 'R1')),
    el('div', { class: 'row' },
      select('kind', 'Kind', county.kinds, given.kind || 'pothole'),
      select('severity', 'Severity', county.severities, given.severity || 'medium'),
      select('status', 'Status', county.statuses, given.status || 'open')),
    el('div', { class: 'row' }, size('length', 'Length', u.length), size('width', 'Width', u.length), size('depth', 'Depth', u.depth)),
    el('div', { class: 'row' },
      input('foundOn', LABELS.foundOn, { type: 'date' }), input('foundBy', LABELS.foundBy)),
    el('div', { class: 'field' }, el('label', { for: 'f-note' }, 'Note'),
      el('textarea', { id: 'f-note', name: 'note', rows: '2' }, given.note || '')),
    routes, error,
    el('div', { class: 'foot-row' },
      el('button', { type: 'button', onclick: () => close() }, 'Cancel'),
      el('button', { class: 'main' }, changes ? 'Save' : 'Add defect')));
  const { close } = openDialog(changes ? 'Change ' + given.id : 'Add a defect', form);

  const read = () => {
    const d = Object.fromEntries(new FormData(form));
    const moved = d.route !== given.route || d.milepost !== given.milepost;
    const byPoint = given.lon !== undefined && !changes && !moved;
    return {
      route: moved || !changes ? d.route : null,
      milepost: (moved || !changes) && !byPoint ? d.milepost : null,
      lon: byPoint ? given.lon : null, lat: byPoint ? given.lat : null,
      lane: d.lane, kind: d.kind, severity: d.severity, status: d.status,
      length: number(d.length), width: number(d.width), depth: number(d.depth),
      foundOn: d.foundOn || null, foundBy: d.foundBy, photo: given.photo || '', note: d.note,
    };
  };
  const number = (text) => (text === '' ? null : Number(text));
  const save = async (version, body = read(), before = given) => {
    showError(error, null);
    for (const e of form.elements) { e.removeAttribute('aria-invalid'); }
    try {
      const stored = changes
        ? await put('/api/defects/' + encodeURIComponent(given.id), body, version)
        : await post('/api/defects', body);
      close();
      say(changes ? `${stored.id} is saved.` : `${stored.id} is added at ${stored.route} milepost ${stored.milepost}.`);
      done(stored);
    } catch (e) {
      if (e.problem && e.problem.status === 412) {
        await twoVersions(e.problem, body, before);
        return;
      }
      showError(error, e);
      const field = e.problem && form.elements.namedItem(e.problem.field ?? '');
      if (field) { field.setAttribute('aria-invalid', 'true'); field.focus(); }
    }
  };
  const place = (d) => `${d.route} milepost ${d.milepost}`;
  const twoVersions = async ({ detail, theirs }, mine, before) => {
    const moved = mine.route !== null;
    const choice = await chooseFields({
      title: 'Somebody else changed it', detail,
      base: { ...before, place: place(before) }, yours: { ...mine, place: place(moved ? mine : before) }, theirs: { ...theirs, place: place(theirs) },
      fields: ['place', 'lane', 'kind', 'severity', 'status', 'length', 'width', 'depth', 'foundOn', 'foundBy', 'photo', 'note']
        .map((key) => ({ key, label: { foundOn: 'Found on', foundBy: 'Found by' }[key] || capital(key) })) });
    if (!choice) {
      close();
      done(theirs);
      return;
    }
    const merged = { ...mine };
    for (const key of Object.keys(mine)) {
      if (choice[key] === 'theirs') { merged[key] = theirs[key]; }
    }
    if (choice.place === 'yours') {
      const there = moved ? mine : before;
      Object.assign(merged, { route: there.route, milepost: there.milepost });
    } else {
      Object.assign(merged, { route: null, milepost: null });
    }
    await save(theirs.version, merged, theirs);
  };
  form.addEventListener('submit', (e) => { e.preventDefault(); save(given.version); });
  $('#f-' + (given.milepost ? 'length' : 'route'), form).focus();
}
