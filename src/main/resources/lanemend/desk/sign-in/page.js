// The first page of a desk with sign-in.
import { $, say } from '../shared/page.js';
import { session, signInForm, wanted, held } from '../shared/sign-in.js';

const then = wanted(new URLSearchParams(location.search).get('then'));
const go = (s) => location.replace(held(s) ? '/account' : then);
const { form, focus } = signInForm(go);
$('#form').append(form);
focus();
try {
  const now = await session();
  // A link from elsewhere comes without the cookie; whoever is signed in goes straight on.
  if (!now.signInOn || now.name) { go(now); }
} catch (e) {
  if (!e.problem) { throw e; }
  say(e.message);
}
document.documentElement.dataset.ready = 'true';
