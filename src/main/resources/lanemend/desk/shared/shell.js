import { county, Refused } from './api.js';
import { openChanges } from './changes.js';
import { $, may, say } from './page.js';
import { openSignIn, signOut } from './sign-in.js';

// What the page's own HTML has for others only.
for (const e of document.querySelectorAll('[data-may]')) { e.hidden = !may(e.dataset.may); }

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

if (may('get /api/county')) {
  county()
    .then((c) => { $('#county').textContent = c.name; })
    .catch((e) => { if (e instanceof Refused) { say(e.message); } else { throw e; } });
}

$('#changes').hidden = !may('get /api/changes');
$('#changes').addEventListener('click', () => openChanges().catch((e) => say(e.message)));

document.addEventListener('signed-out', openSignIn);
const out = $('#sign-out');
if (out) { out.addEventListener('click', () => signOut().catch((e) => say(e.message))); }

// A page that is long in coming says so, instead of showing empty frames as if there were nothing.
const root = document.documentElement;
const slow = setTimeout(() => { $('#loading').textContent = 'Reading what is to be shown …'; }, 600);
function arrived() {
  if (root.dataset.ready !== 'true') { return; }
  clearTimeout(slow);
  $('#loading').textContent = '';
  watch.disconnect();
}
const watch = new MutationObserver(arrived);
watch.observe(root, { attributes: true, attributeFilter: ['data-ready'] });
arrived();
