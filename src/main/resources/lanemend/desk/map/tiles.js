// The map's layer: squares of 512 pixels drawn on canvas from what the desk hands out for them.
// A square is drawn once; panning only moves it.
import { GridLayer, Browser } from '../shared/leaflet.js';
import { get } from '../shared/api.js';
import { token } from '../shared/page.js';
import { trace } from '../shared/marks.js';

const SIZE = 512;
const EXTENT = 4096;
const WIDTHS = { freeway: 4, arterial: 3, collector: 2, local: 1.4, connector: 1 };

/** Colours of the theme at hand, read once for a redraw. */
export function palette() {
  const names = ['road', 'road-strong', 'ink', 'paper', 'panel', 'low', 'medium', 'high', 'zone', 'section', 'patch', 'soft', 'sunk', 'edge'];
  return Object.fromEntries(names.map((n) => [n, token('--' + n)]));
}

export const CountyLayer = GridLayer.extend({
  options: { tileSize: SIZE, keepBuffer: 3, updateWhenIdle: false, updateInterval: 60, minZoom: 5, maxZoom: 20 },

  initialize(options) {
    GridLayer.prototype.initialize.call(this, options);
    this.held = new Map();
    this.colours = palette();
    this.on('tileunload', (e) => this.drop(e.coords));
  },

  /** Shows another state of the county; nothing is asked for that is the same. */
  set(options) {
    Object.assign(this.options, options);
    this.redraw();
  },

  recolour() {
    this.colours = palette();
    for (const tile of this.held.values()) {
      if (tile.data) {
        this.draw(tile.canvas, tile.data, tile.zoom);
      }
    }
  },

  createTile(coords, done) {
    const canvas = document.createElement('canvas');
    const scale = Browser.retina ? 2 : 1;
    canvas.width = canvas.height = SIZE * scale;
    canvas.style.width = canvas.style.height = SIZE + 'px';
    const stop = new AbortController();
    const tile = { canvas, stop, zoom: coords.z };
    this.held.set(this._tileCoordsToKey(coords), tile);
    const { version, show, where } = this.options;
    get(`/api/tiles/${version}/${coords.z - 1}/${coords.x}/${coords.y}`, { show, where }, { signal: stop.signal })
      .then((data) => {
        tile.data = data;
        this.draw(canvas, data, coords.z);
        done(null, canvas);
      })
      .catch((e) => { if (e.name !== 'AbortError') { done(e, canvas); } });
    return canvas;
  },

  drop(coords) {
    const key = this._tileCoordsToKey(coords);
    const tile = this.held.get(key);
    if (tile) {
      tile.stop.abort();
      this.held.delete(key);
    }
  },

  /** The defect nearest to a point of the map, within so many pixels. */
  defectNear(latlng, reach) {
    const zoom = this._tileZoom;
    const at = this._map.project(latlng, zoom);
    const x = Math.floor(at.x / SIZE);
    const y = Math.floor(at.y / SIZE);
    const tile = this.held.get(`${x}:${y}:${zoom}`);
    const d = tile && tile.data && tile.data.defects;
    if (!d) {
      return null;
    }
    const px = (at.x / SIZE - x) * EXTENT;
    const py = (at.y / SIZE - y) * EXTENT;
    let best = null;
    let least = (reach * EXTENT) / SIZE;
    for (let i = 0; i < d.id.length; i++) {
      const far = Math.hypot(d.x[i] - px, d.y[i] - py);
      if (far < least) {
        least = far;
        best = d.id[i];
      }
    }
    return best;
  },

  draw(canvas, data, zoom) {
    const c = canvas.getContext('2d');
    const k = SIZE / EXTENT;
    c.setTransform(canvas.width / SIZE, 0, 0, canvas.width / SIZE, 0, 0);
    c.clearRect(0, 0, SIZE, SIZE);
    c.lineJoin = c.lineCap = 'round';
    this.roads(c, k, data.roads || [], zoom);
    this.sections(c, k, data.sections || []);
    this.bands(c, k, data.zones || [], this.colours.zone, 7, []);
    this.patches(c, k, data.patches);
    this.names(c, k, data.roads || [], zoom);
    this.posts(c, k, data.posts, zoom);
    this.cells(c, k, data.cells);
    this.defects(c, k, data.defects, zoom);
  },

  roads(c, k, roads, zoom) {
    const grow = zoom < 11 ? 0.7 : zoom < 14 ? 1 : 1.8;
    for (const roadClass of ['connector', 'local', 'collector', 'arterial', 'freeway']) {
      c.beginPath();
      for (const road of roads) {
        if (road.roadClass === roadClass) {
          road.lines.forEach((l) => line(c, k, l));
        }
      }
      c.lineWidth = WIDTHS[roadClass] * grow;
      c.strokeStyle = roadClass === 'connector' || roadClass === 'local' ? this.colours.road : this.colours['road-strong'];
      c.stroke();
    }
  },

  /** Each road's name once in a square, upright beside its longest piece. */
  names(c, k, roads, zoom) {
    if (zoom < 10) {
      return;
    }
    c.font = `600 12px ${token('--font')}`;
    c.textBaseline = 'middle';
    c.textAlign = 'center';
    const taken = [];
    for (const road of roads) {
      const weight = WIDTHS[road.roadClass];
      if (!road.route || (zoom < 12 && weight < 3) || (zoom < 13 && weight < 2)) {
        continue;
      }
      const longest = road.lines.reduce((a, b) => (b.length > a.length ? b : a));
      const i = 2 * Math.floor(longest.length / 4);
      const x = longest[i] * k;
      const y = longest[i + 1] * k - 11;
      const half = c.measureText(road.route).width / 2 + 5;
      const inside = x - half > 2 && x + half < SIZE - 2 && y > 10 && y < SIZE - 10;
      if (!inside || taken.some((t) => Math.abs(t[0] - x) < half + t[2] && Math.abs(t[1] - y) < 20)) {
        continue;
      }
      taken.push([x, y, half]);
      c.fillStyle = this.colours.panel;
      c.strokeStyle = this.colours['road-strong'];
      c.lineWidth = 1;
      c.beginPath();
      c.rect(x - half, y - 9, 2 * half, 18);
      c.fill();
      c.stroke();
      c.fillStyle = this.colours.ink;
      c.fillText(road.route, x, y);
    }
    c.textAlign = 'left';
  },

  bands(c, k, stretches, colour, width, dash) {
    c.save();
    c.globalAlpha = 0.62;
    c.lineCap = 'butt';
    c.setLineDash(dash);
    c.lineWidth = width;
    c.strokeStyle = colour;
    c.beginPath();
    stretches.forEach((s) => s.lines.forEach((l) => line(c, k, l)));
    c.stroke();
    c.restore();
  },

  /** Each state in a pattern of its own: dashes are open, a double bar settled, thin bars across given up. */
  sections(c, k, all) {
    const of = (state) => all.filter((s) => s.state === state);
    this.bands(c, k, of('candidate'), this.colours.section, 11, [9, 6]);
    this.bands(c, k, of('accepted'), this.colours.section, 13, []);
    this.bands(c, k, of('accepted'), this.colours.paper, 4, []);
    this.bands(c, k, of('rejected'), this.colours.section, 14, [3, 9]);
  },

  patches(c, k, p) {
    if (!p) {
      return;
    }
    c.fillStyle = this.colours.patch;
    for (let i = 0; i < p.x.length; i++) {
      c.fillRect(p.x[i] * k - 2, p.y[i] * k - 2, 4, 4);
    }
  },

  posts(c, k, p, zoom) {
    if (!p) {
      return;
    }
    c.font = `600 11px ${token('--font')}`;
    c.textBaseline = 'middle';
    const taken = [];
    for (let i = 0; i < p.x.length; i++) {
      const x = p.x[i] * k;
      const y = p.y[i] * k;
      c.fillStyle = this.colours.ink;
      c.fillRect(x - 1.5, y - 4, 3, 8);
      const room = zoom >= 12 && !taken.some((t) => Math.abs(t[0] - x) < 34 && Math.abs(t[1] - y) < 15);
      if (room) {
        taken.push([x, y]);
        c.lineWidth = 3;
        c.strokeStyle = this.colours.paper;
        c.strokeText(p.text[i], x + 5, y);
        c.fillText(p.text[i], x + 5, y);
      }
    }
  },

  defects(c, k, d, zoom) {
    if (!d) {
      return;
    }
    const r = zoom < 12 ? 4 : zoom < 15 ? 5 : 6.5;
    for (const severity of [0, 1, 2]) {
      c.beginPath();
      for (let i = 0; i < d.id.length; i++) {
        const waits = d.status[i] === 'open' || d.status[i] === 'planned';
        if (d.severity[i] === severity && waits) {
          trace(c, severity, d.x[i] * k, d.y[i] * k, r);
        }
      }
      paint(c, severity, this.colours);
    }
    // What no longer waits is a small cross, whatever it was.
    c.beginPath();
    for (let i = 0; i < d.id.length; i++) {
      if (d.status[i] !== 'open' && d.status[i] !== 'planned') {
        const x = d.x[i] * k;
        const y = d.y[i] * k;
        c.moveTo(x - 3, y - 3);
        c.lineTo(x + 3, y + 3);
        c.moveTo(x + 3, y - 3);
        c.lineTo(x - 3, y + 3);
      }
    }
    c.lineWidth = 1.5;
    c.strokeStyle = this.colours.soft;
    c.stroke();
  },

  cells(c, k, cells) {
    if (!cells) {
      return;
    }
    for (let i = 0; i < cells.x.length; i++) {
      const severity = cells.high[i] > 0 ? 2 : cells.medium[i] > 0 ? 1 : 0;
      c.beginPath();
      trace(c, severity, cells.x[i] * k, cells.y[i] * k, Math.min(9, 2.5 + 1.4 * Math.log2(1 + cells.n[i])));
      paint(c, severity, this.colours);
    }
  },
});

export function paint(c, severity, colours) {
  const colour = colours[['low', 'medium', 'high'][severity]];
  if (severity === 0) {
    c.lineWidth = 2.2;
    c.strokeStyle = colour;
    c.stroke();
    return;
  }
  c.fillStyle = colour;
  c.fill();
  c.lineWidth = 1;
  c.strokeStyle = colours.ink;
  c.stroke();
}

function line(c, k, xy) {
  c.moveTo(xy[0] * k, xy[1] * k);
  for (let i = 2; i < xy.length; i += 2) {
    c.lineTo(xy[i] * k, xy[i + 1] * k);
  }
}
