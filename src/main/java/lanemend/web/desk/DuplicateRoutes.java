package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import lanemend.county.County;
import lanemend.county.DuplicateDefects;
import lanemend.exchange.ApartJson;
import lanemend.inventory.Defect;
import lanemend.inventory.DuplicatePair;
import lanemend.store.Change;
import lanemend.store.Stored;

/** Defects that may be one recorded twice, and what somebody says of them. */
final class DuplicateRoutes implements Area {
  private static final int MOST = 200;

  private final CurrentCounty county;

  DuplicateRoutes(CurrentCounty county) {
    this.county = county;
  }

  /** Two that look like one; the one to keep first. */
  record Pair(DefectView keep, DefectView drop, double belief, List<String> reasons) {}

  /** Pairs, the most believed first, and how many there are in all. */
  record Pairs(int total, List<Pair> pairs) {}

  /** What to do with two, by their versions as read. */
  record Settle(String keep, long keepVersion, String drop, long dropVersion) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/duplicates", c -> c.json(proposed()));
    api.post("/api/duplicates/merge", this::merge);
    api.post("/api/duplicates/apart", this::apart);
  }

  private static DuplicateDefects finder(County now) {
    return new DuplicateDefects(now.network(), now.locator());
  }

  private Pairs proposed() {
    County now = county.get();
    List<DuplicatePair> all = county.read(s -> finder(now).proposed(s));
    Map<String, Stored<Defect>> rows = new HashMap<>();
    now.defectRows().forEach(r -> rows.put(r.value().id(), r));
    List<Pair> shown =
        all.stream()
            .filter(p -> rows.containsKey(p.keep().id()) && rows.containsKey(p.drop().id()))
            .limit(MOST)
            .map(
                p ->
                    new Pair(
                        DefectView.of(rows.get(p.keep().id()), now),
                        DefectView.of(rows.get(p.drop().id()), now),
                        p.belief(),
                        p.reasons()))
            .toList();
    return new Pairs(all.size(), shown);
  }

  private void merge(Context c) {
    Settle settle = Api.body(c, Settle.class);
    County now = county.get();
    county
        .store()
        .write(
            Caller.name(c),
            "desk: merge " + settle.drop() + " into " + settle.keep(),
            change -> {
              check(change, settle.keep(), settle.keepVersion(), now);
              check(change, settle.drop(), settle.dropVersion(), now);
              DuplicateDefects finder = finder(now);
              finder.merge(change, finder.named(change.soFar(), settle.keep(), settle.drop()));
            });
    c.json(DefectView.of(DefectRows.of(county.get(), settle.keep()), county.get()));
  }

  private static void check(Change change, String id, long version, County now) {
    Stored<Defect> row = DefectRows.of(change, id);
    if (row.version() != version) {
      throw new Problem(
              Problem.Kind.STALE, "defect " + id + " was changed by somebody else meanwhile")
          .with("theirs", DefectView.of(row, now));
    }
  }

  private void apart(Context c) {
    Settle settle = Api.body(c, Settle.class);
    County now = county.get();
    DefectRows.of(now, settle.keep());
    DefectRows.of(now, settle.drop());
    county
        .store()
        .write(
            Caller.name(c),
            "desk: " + settle.keep() + " and " + settle.drop() + " are two",
            change -> {
              Set<ApartJson.Pair> pairs =
                  new java.util.LinkedHashSet<>(DuplicateDefects.apart(change.soFar()));
              pairs.add(ApartJson.Pair.of(settle.keep(), settle.drop()));
              DuplicateDefects.putApart(change, pairs);
            });
    c.json(new TreeSet<>(Set.of(settle.keep(), settle.drop())));
  }
}
