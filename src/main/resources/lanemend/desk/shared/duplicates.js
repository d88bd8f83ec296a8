// Defects that may be one recorded twice: merged, or said to be two.
import { get, post } from './api.js';
import { el, say, plain, capital } from './page.js';
import { openDialog } from './dialog.js';
import { severity } from './defect.js';

/** Opens the list; {@code done()} is called after each one that is settled. */
export async function openDuplicates(done) {
  const answer = await get('/api/duplicates');
  const list = el('ul', { class: 'plain' });
  const told = el('p', { role: 'status' });
  const tell = () => {
    const n = list.children.length;
    told.textContent = n ? `${n} pair${n === 1 ? '' : 's'} to look at, the likeliest first.` : 'No two defects look like one.';
  };
  const side = (d, word) => el('div', {},
    el('strong', {}, `${word} ${d.id}`), ' ', severity(d.severity),
    el('div', {}, `${capital(plain(d.kind))}, ${d.size}; ${d.route} ${d.milepost}, found ${d.foundOn}${d.foundBy ? ' by ' + d.foundBy : ''}`));
  for (const p of answer.pairs) {
    const item = el('li', { class: 'panel' });
    const settle = async (how, sentence) => {
      try {
        await post('/api/duplicates/' + how, {
          keep: p.keep.id, keepVersion: p.keep.version, drop: p.drop.id, dropVersion: p.drop.version });
        item.remove();
        tell();
        say(sentence);
        done();
      } catch (e) {
        say(e.message);
      }
    };
    item.append(
      side(p.keep, 'Keep'), side(p.drop, 'Merge in'),
      el('p', { class: 'soft' }, `Belief that they are one: ${Math.round(100 * p.belief)} %; ${p.reasons.join(', ')}.`),
      el('div', { class: 'row' },
        el('button', { type: 'button', class: 'main', may: 'post /api/duplicates/merge', onclick: () => settle('merge', `${p.drop.id} is merged into ${p.keep.id}.`) },
          'Merge', el('span', { class: 'unseen' }, ` ${p.drop.id} into ${p.keep.id}`)),
        el('button', { type: 'button', may: 'post /api/duplicates/apart', onclick: () => settle('apart', `${p.keep.id} and ${p.drop.id} stay two.`) },
          'They are two', el('span', { class: 'unseen' }, `: ${p.keep.id} and ${p.drop.id}`))));
    list.append(item);
  }
  tell();
  openDialog('Recorded twice?', told, list);
}
