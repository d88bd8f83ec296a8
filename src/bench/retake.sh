#!/usr/bin/env bash
# Takes the figures of docs/benchmarks.md anew. On a quiet machine; each line is about five minutes
# (kill: an hour). apt-get install postgresql-15 postgresql-15-postgis-3 first.
set -euo pipefail
cd "$(dirname "$0")/../.."
bench() { mvn -q -o -Pbench test-compile exec:java -Dexec.args="$*"; }
export MAVEN_OPTS="-Xmx6g"
case "${1:-}" in
  locate) bench locate 1 ;;
  snap) bench snap 100000 20000 ;;
  segment) bench segment 1000000 ;;
  segment-growth) MAVEN_OPTS="-Xmx12g" bench segment 10000000 ;;
  kill) bench kill 1000 ;;
  *) echo "one of: locate, snap, segment, segment-growth, kill" >&2; exit 64 ;;
esac
