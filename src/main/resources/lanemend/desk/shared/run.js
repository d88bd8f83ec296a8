// Long work at the desk: started, watched and ended in the page's section #run.
import { get, post, remove } from './api.js';
import { $, showError } from './page.js';

const LOOK_MS = 400;
const goesOn = (run) => run.state === 'running' || run.state === 'ending';

export class LongRun {
  /**
   * address: of the run at the desk; begins: selector of the button that starts it; told: (run) => what it is at, in words;
   * share: (run) => 0 to 1; read: shows what is there once it has ended; ended: (run) => tells what came of it.
   */
  constructor({ address, begins, told, share = (run) => run.share, read = async () => {}, ended }) {
    Object.assign(this, { address, begins, told, share, read, ended });
    $('#run-stop').addEventListener('click', async () => {
      $('#run-stop').disabled = true;
      this.tell(await remove(address));
    });
  }

  /** Refused when the desk does not begin it; what comes after is shown in the page. */
  async start(wish) {
    this.watch(await post(this.address, wish));
  }

  /** Takes up a run that another page began. */
  async resume() {
    const run = await get(this.address);
    if (goesOn(run)) { this.watch(run); }
  }

  async watch(run) {
    try {
      await this.ended(await this.end(run));
    } catch (e) {
      if (!e.problem) { throw e; }
      showError($('#error'), e);
    }
  }

  async end(run) {
    $(this.begins).disabled = true;
    $('#run').hidden = false;
    $('#run-stop').disabled = false;
    let now = run;
    try {
      while (goesOn(now)) {
        this.tell(now);
        await new Promise((r) => setTimeout(r, LOOK_MS));
        now = await get(this.address);
      }
      $('#run-stop').disabled = true;
      await this.read();
    } finally {
      $(this.begins).disabled = false;
      $('#run').hidden = true;
    }
    return now;
  }

  tell(run) {
    if (!goesOn(run)) { return; }
    $('#run-share').value = this.share(run);
    const told = this.told(run);
    if ($('#run-told').textContent !== told) { $('#run-told').textContent = told; }
  }
}
