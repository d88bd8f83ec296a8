// The strip: a road laid out straight by milepost, with what lies on it in its lane.
import { token } from '../shared/page.js';
import { trace } from '../shared/marks.js';
import { palette, paint } from './tiles.js';

const LEFT = 92;
const RIGHT = 16;
const RULER = 26;
const MIDDLE = RULER + 84;

export class Strip {
  /** pick(defect id or null, along), point(along or null), move([from, to]) are called back. */
  constructor(canvas, { pick, point, move }) {
    Object.assign(this, { canvas, pick, point, move });
    this.colours = palette();
    this.range = [0, 1];
    this.cursor = null;
    this.chosen = null;
    new ResizeObserver(() => this.draw()).observe(canvas);
    this.listen();
  }

  set(road, data) {
    this.road = road;
    this.data = data;
    this.draw();
  }

  show(from, to) {
    const length = this.road ? this.road.lengthM : 1;
    const width = Math.min(length, Math.max(60, to - from));
    const start = Math.max(0, Math.min((from + to - width) / 2, length - width));
    this.range = [start, start + width];
    this.draw();
  }

  recolour() {
    this.colours = palette();
    this.draw();
  }

  x(along) {
    return LEFT + ((along - this.range[0]) / (this.range[1] - this.range[0])) * (this.width - LEFT - RIGHT);
  }

  along(x) {
    return this.range[0] + ((x - LEFT) / (this.width - LEFT - RIGHT)) * (this.range[1] - this.range[0]);
  }

  listen() {
    const { canvas } = this;
    let held = null;
    canvas.addEventListener('pointerdown', (e) => {
      held = { x: e.offsetX, range: [...this.range], moved: false };
      canvas.setPointerCapture(e.pointerId);
    });
    canvas.addEventListener('pointermove', (e) => {
      if (!this.road) { return; }
      if (held && Math.abs(e.offsetX - held.x) > 4) {
        held.moved = true;
        const per = (held.range[1] - held.range[0]) / (this.width - LEFT - RIGHT);
        const by = (held.x - e.offsetX) * per;
        this.show(held.range[0] + by, held.range[1] + by);
        return;
      }
      const along = this.along(e.offsetX);
      this.point(along >= 0 && along <= this.road.lengthM ? along : null);
      this.cursor = along;
      this.draw();
    });
    canvas.addEventListener('pointerup', (e) => {
      if (held && this.road) {
        if (held.moved) { this.move(this.range); } else { this.press(e.offsetX, e.offsetY); }
      }
      held = null;
    });
    canvas.addEventListener('pointerleave', () => { this.cursor = null; this.point(null); this.draw(); });
    canvas.addEventListener('wheel', (e) => {
      if (!this.road || !e.ctrlKey) { return; }
      e.preventDefault();
      this.zoom(e.deltaY > 0 ? 1.4 : 1 / 1.4, this.along(e.offsetX));
    }, { passive: false });
  }

  zoom(by, about = (this.range[0] + this.range[1]) / 2) {
    const [from, to] = this.range;
    this.show(about - (about - from) * by, about + (to - about) * by);
    this.move(this.range);
  }

  step(by) {
    const width = this.range[1] - this.range[0];
    this.show(this.range[0] + by * width, this.range[1] + by * width);
    this.move(this.range);
  }

  press(x, y) {
    const d = this.data.defects;
    let best = null;
    let least = 12;
    for (let i = 0; i < d.id.length; i++) {
      const far = Math.hypot(this.x((d.from[i] + d.to[i]) / 2) - x, this.laneY(d.lane[i]) - y);
      if (far < least) { least = far; best = i; }
    }
    const along = Math.min(this.road.lengthM, Math.max(0, best === null ? this.along(x) : (d.from[best] + d.to[best]) / 2));
    this.pick(best === null ? null : d.id[best], along);
  }

  /** Lanes outward from the centreline, left above and right below. */
  laneY(lane) {
    const n = Math.min(3, Number(lane.charAt(1)) || 0.4);
    return MIDDLE + (lane.charAt(0) === 'L' ? -1 : 1) * (n * 22 - 9);
  }

  draw() {
    const { canvas } = this;
    const scale = window.devicePixelRatio || 1;
    this.width = canvas.clientWidth;
    const height = canvas.clientHeight;
    if (!this.width) { return; }
    canvas.width = this.width * scale;
    canvas.height = height * scale;
    const c = canvas.getContext('2d');
    c.setTransform(scale, 0, 0, scale, 0, 0);
    c.clearRect(0, 0, this.width, height);
    c.font = `12px ${token('--font')}`;
    c.textBaseline = 'middle';
    if (!this.road || !this.data) {
      c.fillStyle = this.colours.soft;
      c.fillText('Choose a road to see it laid out by milepost.', LEFT, height / 2);
      return;
    }
    this.ground(c);
    c.save();
    c.beginPath();
    c.rect(LEFT - 8, 0, this.width - LEFT - RIGHT + 16, height);
    c.clip();
    this.ruler(c);
    const of = (state) => this.data.sections.filter((s) => s.state === state);
    this.stretches(c, of('candidate'), RULER + 6, this.colours.section, [7, 4], 8);
    this.stretches(c, of('accepted'), RULER + 6, this.colours.section, [], 11);
    this.stretches(c, of('accepted'), RULER + 6, this.colours.panel, [], 3);
    this.stretches(c, of('rejected'), RULER + 6, this.colours.section, [2, 6], 10);
    this.stretches(c, this.data.zones, RULER + 24, this.colours.zone, []);
    this.marks(c);
    this.cursors(c, height);
    c.restore();
  }

  ground(c) {
        const from = Math.max(LEFT, this.x(0));
    const to = Math.min(this.width - RIGHT, this.x(this.road.lengthM));
    c.fillStyle = this.colours.sunk;
    c.fillRect(from, MIDDLE - 38, to - from, 76);
    c.setLineDash([10, 8]);
    c.lineWidth = 2;
    c.strokeStyle = this.colours.edge;
    c.beginPath();
    c.moveTo(from, MIDDLE);
    c.lineTo(to, MIDDLE);
    c.stroke();
    c.setLineDash([]);
    c.fillStyle = this.colours.ink;
    const names = [['milepost', 12], ['sections', RULER + 11], ['work zones', RULER + 29], ['left lanes', MIDDLE - 20], ['right lanes', MIDDLE + 20], ['past patches', MIDDLE + 51]];
    for (const [text, y] of names) { c.fillText(text, 4, y); }
  }

  ruler(c) {
    const [from, to] = this.range;
    const miles = (to - from) / 1609.344;
    const step = [0.01, 0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10, 20].find((s) => (s / miles) * (this.width - LEFT) > 56) || 50;
    c.strokeStyle = this.colours.edge;
    c.fillStyle = this.colours.ink;
    c.lineWidth = 1;
    c.textAlign = 'center';
    const cuts = [0, ...this.road.posts.map((p) => p.alongM), this.road.lengthM];
    for (let i = 0; i + 1 < cuts.length; i++) {
      const a = Math.max(from, cuts[i]);
      const b = Math.min(to, cuts[i + 1]);
      if (b - a < 0.01) { continue; }
      const ma = this.road.miles(a + 0.005);
      const mb = this.road.miles(b - 0.005);
      const low = Math.min(ma, mb);
      const high = Math.max(ma, mb);
      for (let m = Math.ceil((low - 1e-5) / step) * step; m <= high + 1e-5; m += step) {
        const along = a + ((m - ma) / (mb - ma)) * (b - a);
        const x = this.x(along);
        c.beginPath();
        c.moveTo(x, RULER - 7);
        c.lineTo(x, RULER);
        c.stroke();
        c.fillText(m.toFixed(step < 0.1 ? 2 : step < 1 ? 1 + (step === 0.25) : 0), x, 10);
      }
    }
    c.textAlign = 'left';
    for (const post of this.road.posts) {
      if (post.back !== post.ahead) {
        c.fillStyle = this.colours.high;
        c.fillRect(this.x(post.alongM) - 1, 0, 2, RULER);
      }
    }
  }

  stretches(c, all, y, colour, dash, width = 7) {
    c.strokeStyle = colour;
    c.lineWidth = width;
    c.setLineDash(dash);
    for (const s of all) {
      const from = this.x(s.from);
      c.beginPath();
      c.moveTo(from, y + 5);
      c.lineTo(Math.max(from + 3, this.x(s.to)), y + 5);
      c.stroke();
    }
    c.setLineDash([]);
  }

  marks(c) {
    const d = this.data.defects;
    const patchY = MIDDLE + 45;
    c.fillStyle = this.colours.patch;
    for (const along of this.data.patches) {
      const x = this.x(along);
      if (x > LEFT - 8 && x < this.width) { c.fillRect(x - 1, patchY, 2, 12); }
    }
    for (let i = 0; i < d.id.length; i++) {
      const from = this.x(d.from[i]);
      const to = this.x(d.to[i]);
      if (to < LEFT - 10 || from > this.width) { continue; }
      const y = this.laneY(d.lane[i]);
      if (to - from > 14) {
        c.fillStyle = this.colours[['low', 'medium', 'high'][d.severity[i]]];
        c.globalAlpha = 0.45;
        c.fillRect(from, y - 4, to - from, 8);
        c.globalAlpha = 1;
      }
      const x = (from + to) / 2;
      if (d.status[i] === 'open' || d.status[i] === 'planned') {
        c.beginPath();
        trace(c, d.severity[i], x, y, 5.5);
        paint(c, d.severity[i], this.colours);
      } else {
        c.strokeStyle = this.colours.soft;
        c.lineWidth = 1.5;
        c.beginPath();
        c.moveTo(x - 3, y - 3);
        c.lineTo(x + 3, y + 3);
        c.moveTo(x + 3, y - 3);
        c.lineTo(x - 3, y + 3);
        c.stroke();
      }
      if (d.id[i] === this.chosen) {
        c.strokeStyle = token('--focus');
        c.lineWidth = 2.5;
        c.strokeRect(x - 10, y - 10, 20, 20);
      }
    }
  }

  cursors(c, height) {
    for (const [along, colour] of [[this.place, token('--focus')], [this.cursor, this.colours.soft]]) {
      if (along !== null && along !== undefined) {
        c.fillStyle = colour;
        c.fillRect(this.x(along) - 1, RULER - 8, 2, height);
      }
    }
  }
}
