// A road's line on this side: along to place and back.

export class Road {
  constructor(answer) {
    Object.assign(this, answer);
  }

  /** [lat, lon] at along; null in a gap. */
  at(along) {
    for (const p of this.parts) {
      const n = p.along.length;
      if (along >= p.along[0] - 0.01 && along <= p.along[n - 1] + 0.01) {
        let low = 0;
        let high = n - 1;
        while (high - low > 1) {
          const middle = (low + high) >> 1;
          if (p.along[middle] <= along) { low = middle; } else { high = middle; }
        }
        const t = Math.min(1, Math.max(0, (along - p.along[low]) / (p.along[high] - p.along[low])));
        return [p.lat[low] + t * (p.lat[high] - p.lat[low]), p.lon[low] + t * (p.lon[high] - p.lon[low])];
      }
    }
    return null;
  }

  /** The points of a stretch, for a map to fit. */
  points(from, to) {
    const points = [];
    for (const along of [from, to]) {
      const at = this.at(along);
      if (at) { points.push(at); }
    }
    for (const p of this.parts) {
      for (let i = 0; i < p.along.length; i++) {
        if (p.along[i] >= from && p.along[i] <= to) { points.push([p.lat[i], p.lon[i]]); }
      }
    }
    return points;
  }

  /** The stretch that lies in a map's bounds, or null. */
  within(bounds) {
    let from = Infinity;
    let to = -Infinity;
    const take = (a) => { from = Math.min(from, a); to = Math.max(to, a); };
    for (const p of this.parts) {
      for (let i = 0; i + 1 < p.along.length; i++) {
        // A segment is looked at in eighths: near enough for what a screen shows.
        for (let t = 0; t <= 8; t++) {
          const lat = p.lat[i] + (t / 8) * (p.lat[i + 1] - p.lat[i]);
          const lon = p.lon[i] + (t / 8) * (p.lon[i + 1] - p.lon[i]);
          if (bounds.contains([lat, lon])) { take(p.along[i] + (t / 8) * (p.along[i + 1] - p.along[i])); }
        }
      }
    }
    return from < to ? [from, to] : null;
  }

  /** Milepost at along, as a number; exact between posts, for the ruler only. */
  miles(along) {
    const posts = this.posts;
    const MILE = 1609.344;
    if (posts.length === 0) { return along / MILE; }
    const first = posts[0];
    const last = posts[posts.length - 1];
    const down = posts.length > 1 && posts[1].back < first.ahead ? -1 : 1;
    if (along <= first.alongM) { return first.back - down * (first.alongM - along) / MILE; }
    if (along >= last.alongM) { return last.ahead + down * (along - last.alongM) / MILE; }
    const i = posts.findIndex((p) => p.alongM > along);
    const a = posts[i - 1];
    const b = posts[i];
    return a.ahead + ((along - a.alongM) / (b.alongM - a.alongM)) * (b.back - a.ahead);
  }
}
