// Roads kept on the phone, and locating on them without a network, by the same rules as the desk.

const METRES_PER_MILE = 1609.344;
const EARTH_RADIUS_M = 6371008.8;
const RAD = Math.PI / 180;
/** Spread of what lies across a road about its centreline, and of a heading, as the desk has them. */
const ROAD_SPREAD_M = 3;
const HEADING_SPREAD_DEG = 30;
const HEADING_FLOOR = 0.02;
/** Nearer than this along one road two feet are one place. */
const ONE_PLACE_M = 150;
const POINTS = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'];

const sums = (steps, unit) => {
  let at = 0;
  return Float64Array.from(steps, (s) => { at += s; return at / unit; });
};

/** Roads as the desk sent them, ready to be searched. */
export function read(county) {
  return county.roads.map((r) => ({
    ...r,
    parts: r.parts.map((p) => ({ lon: sums(p.lon, 1e6), lat: sums(p.lat, 1e6), along: sums(p.along, 10) })),
    stretches: stretches(r),
  }));
}

/** Unbroken numbering between posts: {fromM, toM, from, to} in metres and miles. */
function stretches({ posts, lengthM }) {
  if (!posts.length) {
    return [{ fromM: 0, toM: lengthM, from: 0, to: lengthM / METRES_PER_MILE }];
  }
  const up = posts.length < 2 || posts[1][1] > posts[0][2] ? 1 : -1;
  const all = [];
  const [first] = posts;
  const last = posts[posts.length - 1];
  if (first[0] > 1e-6) {
    all.push({ fromM: 0, toM: first[0], from: first[1] - up * first[0] / METRES_PER_MILE, to: first[1] });
  }
  for (let i = 1; i < posts.length; i++) {
    all.push({ fromM: posts[i - 1][0], toM: posts[i][0], from: posts[i - 1][2], to: posts[i][1] });
  }
  if (lengthM - last[0] > 1e-6) {
    all.push({ fromM: last[0], toM: lengthM, from: last[2], to: last[2] + up * (lengthM - last[0]) / METRES_PER_MILE });
  }
  return all;
}

const alongOf = (s, miles) => s.fromM + (miles - s.from) * ((s.toM - s.fromM) / (s.to - s.from));

/** Every place of a number, by growing along: none, one or two. */
function places(road, miles) {
  const found = [];
  for (const s of road.stretches) {
    if (miles >= Math.min(s.from, s.to) - 1e-10 && miles <= Math.max(s.from, s.to) + 1e-10) {
      const along = Math.min(s.toM, Math.max(s.fromM, alongOf(s, miles)));
      if (!found.length || along - found[found.length - 1] > 1e-6) {
        found.push(along);
      }
    }
  }
  return found;
}

/** A place's milepost as to be written to lead back there, such as '12.400' or '12.400 back'. */
export function milepost(road, along) {
  const s = road.stretches.findLast((x) => x.fromM <= along) || road.stretches[0];
  const miles = s.from + (along - s.fromM) * ((s.to - s.from) / (s.toM - s.fromM));
  const all = places(road, miles);
  const side = all.length < 2 ? '' : Math.abs(all[0] - along) <= Math.abs(all[1] - along) ? ' back' : ' ahead';
  return miles.toFixed(3) + side;
}

/** What is wrong with a written milepost of a road, in a sentence; empty when nothing is. */
export function milepostTrouble(road, text) {
  const written = /^\s*(-?\d+(?:\.\d+)?)\s*(back|ahead)?\s*$/i.exec(text);
  if (!written) {
    return 'Write a milepost such as 12.4.';
  }
  const miles = Number(written[1]);
  const all = places(road, miles);
  if (all.length > 1 && !written[2]) {
    return `${written[1]} occurs twice on ${road.id}: write '${written[1]} back' or '${written[1]} ahead'.`;
  }
  if (all.length) {
    return '';
  }
  const ends = road.stretches.flatMap((s) => [s.from, s.to]);
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  // Half a written digit off an end still means the end.
  return miles >= low - 0.0005 && miles <= high + 0.0005 && places(road, Math.min(high, Math.max(low, miles))).length
    ? '' : `${road.id} has no milepost ${written[1]}; its mileposts run from ${low.toFixed(2)} to ${high.toFixed(2)}.`;
}

/**
 * Every place a point may be at, the most believed first:
 * {road, along, distanceM, right, bearing, belief}. Bearing is that of growing along.
 */
export function near(roads, { lon, lat, accuracyM, heading }, reachM) {
  const east = EARTH_RADIUS_M * RAD * Math.cos(lat * RAD);
  const north = EARTH_RADIUS_M * RAD;
  const found = [];
  for (const road of roads) {
    let feet = [];
    for (const part of road.parts) {
      for (let i = 1; i < part.lon.length; i++) {
        const ax = (part.lon[i - 1] - lon) * east;
        const ay = (part.lat[i - 1] - lat) * north;
        const bx = (part.lon[i] - lon) * east;
        const by = (part.lat[i] - lat) * north;
        if (Math.min(ax, bx) > reachM || Math.max(ax, bx) < -reachM || Math.min(ay, by) > reachM || Math.max(ay, by) < -reachM) {
          continue;
        }
        const dx = bx - ax;
        const dy = by - ay;
        const square = dx * dx + dy * dy;
        const t = square > 0 ? Math.min(1, Math.max(0, -(ax * dx + ay * dy) / square)) : 0;
        const distanceM = Math.hypot(ax + t * dx, ay + t * dy);
        if (distanceM <= reachM) {
          feet.push({ road, distanceM, along: part.along[i - 1] + t * (part.along[i] - part.along[i - 1]),
            right: dy * -ax - dx * -ay >= 0, bearing: (Math.atan2(dx, dy) / RAD + 360) % 360 });
        }
      }
    }
    feet = feet.sort((a, b) => a.distanceM - b.distanceM);
    const apart = [];
    for (const f of feet) {
      if (apart.every((a) => Math.abs(a.along - f.along) > ONE_PLACE_M)) {
        apart.push(f);
      }
    }
    found.push(...apart);
  }
  const spread = Math.hypot(accuracyM, ROAD_SPREAD_M);
  for (const f of found) {
    f.belief = Math.exp(-0.5 * (f.distanceM / spread) ** 2) * headingShare(f, heading);
  }
  const all = found.reduce((sum, f) => sum + f.belief, 0) || 1;
  found.forEach((f) => { f.belief /= all; });
  return found.sort((a, b) => b.belief - a.belief || a.distanceM - b.distanceM);
}

function headingShare(foot, heading) {
  if (heading === null || heading === undefined || Number.isNaN(heading)) {
    return 1;
  }
  let off = Math.abs(((heading - foot.bearing + 540) % 360) - 180);
  if (!foot.road.oneWay) {
    off = Math.min(off, 180 - off);
  }
  return HEADING_FLOOR + (1 - HEADING_FLOOR) * Math.exp(-0.5 * (off / HEADING_SPREAD_DEG) ** 2);
}

/** Where mileposts grow to at a place, as a point of the compass. */
export function growsTowards(foot) {
  const up = foot.road.stretches.every((s) => s.to >= s.from);
  return POINTS[Math.round(((foot.bearing + (up ? 0 : 180)) % 360) / 45) % 8];
}
