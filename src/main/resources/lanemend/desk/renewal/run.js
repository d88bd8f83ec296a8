// The study: started, watched, ended.
import { get, post, remove } from '../shared/api.js';
import { $ } from '../shared/page.js';

const LOOK_MS = 400;

export class Study {
  constructor(ended) {
    this.ended = ended;
    $('#run-stop').addEventListener('click', async () => {
      $('#run-stop').disabled = true;
      await remove('/api/renewal/run');
    });
  }

  async start() {
    await this.watch(await post('/api/renewal/run'));
  }

  async watch(run) {
    $('#study').disabled = true;
    $('#run').hidden = false;
    $('#run-stop').disabled = false;
    let now = run;
    while (now.state === 'running') {
      $('#run-share').value = now.share;
      const told = `Studying: ${now.stage}`;
      if ($('#run-told').textContent !== told) { $('#run-told').textContent = told; }
      await new Promise((r) => setTimeout(r, LOOK_MS));
      now = await get('/api/renewal/run');
    }
    $('#study').disabled = false;
    $('#run').hidden = true;
    await this.ended(now);
  }
}
