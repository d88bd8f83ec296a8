#!/usr/bin/env bash
# Time and memory of `plan` as counties grow; docs/method.md quotes it. apt-get install time first.
#   src/bench/growth.sh make FOLDER SIZE...   an invented county of each size, imported, in FOLDER/SIZE
#   src/bench/growth.sh plan FOLDER SIZE...   plans a copy of each; CSV, a row a size
# LANEMEND: how to run the program, for another heap or class path.
set -euo pipefail
lanemend=${LANEMEND:-java -Xmx1600m -jar target/lanemend.jar}
what=$1 folder=$2
shift 2

make_one() {
  local county=$folder/$1/county store=$folder/$1/work
  mkdir -p "$folder/$1"
  $lanemend sample --defects "$1" --out "$county"
  $lanemend import roads "$county/roads.geojson" --work "$store" --speed-unit mph \
    --field class=road_class --field speed=posted_mph --field lane_width_ft=lane_ft
  local kind
  for kind in posts attributes; do
    $lanemend import "$kind" "$county/$kind.csv" --work "$store"
  done
  $lanemend import agency "$county/agency.json" --work "$store"
  for kind in defects findings patches forecast; do
    $lanemend import "$kind" "$county/$kind.csv" --work "$store"
  done
}

plan_one() {
  local copy said days=()
  copy=$(mktemp -d)
  cp "$folder/$1/work/lanemend.gpkg" "$copy"
  [ "$1" -lt 3000 ] || days=(--days 70)
  said=$(/usr/bin/time -f '%e,%U,%S,%M' -o "$copy/time" \
    $lanemend plan --proof 0 "${days[@]}" --work "$copy" 2>/dev/null | grep '^plan')
  echo "$1,$(cat "$copy/time"),\"$said\",\"load $(cut -d' ' -f1 /proc/loadavg)\""
  rm -r "$copy"
}

[ "$what" = make ] || echo "defects,clock_s,user_s,system_s,peak_kb,plan,load"
for size in "$@"; do
  "${what}_one" "$size"
done
