import { county, Refused } from './api.js';
import { openChanges } from './changes.js';
import { $, say } from './page.js';

const button = $('#theme');

function show() {
  button.setAttribute('aria-pressed', String(document.documentElement.dataset.theme === 'dark'));
}

button.addEventListener('click', () => {
  const now = document.documentElement.dataset.theme === 'dark' ? 'light' : 'dark';
  document.documentElement.dataset.theme = now;
  localStorage.setItem('lanemend.theme', now);
  show();
  document.dispatchEvent(new CustomEvent('theme'));
});
show();

county()
  .then((c) => { $('#county').textContent = c.name; })
  .catch((e) => { if (e instanceof Refused) { say(e.message); } else { throw e; } });

$('#changes').addEventListener('click', () => openChanges().catch((e) => say(e.message)));
