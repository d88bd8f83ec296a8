package lanemend.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lanemend.exchange.EventLocator;
import lanemend.inventory.edit.EventFate;
import lanemend.network.ProjectedCrs;
import lanemend.network.edit.RoadEdit;
import lanemend.network.edit.RoadEditor;
import lanemend.store.Store;

/**
 * Posts that come when defects, findings or patches lie on the roads already. What was entered by
 * milepost was read off the signs, whatever the store took them for: it moves to where the posts
 * say, as when posts are corrected.
 */
final class LatePosts {
  private final Store store;
  private final String who;

  LatePosts(Store store, String who) {
    this.store = store;
    this.who = who;
  }

  IntakeResult take(Path file, EventLocator.PlacedPosts placed) {
    ProjectedCrs crs = ProjectedCrs.fromWkt(store.crsWkt());
    LocalDate today = LocalDate.now(ZoneId.systemDefault());
    RoadEdit edit;
    try {
      edit =
          store.read(
              s ->
                  new RoadEditor(s.network(), s.lastEditions(), crs, today)
                      .recalibrate(placed.byRoute(), false, true));
    } catch (IllegalArgumentException e) {
      throw new Refusal(e.getMessage());
    }
    List<EventFate> fates = new ArrayList<>();
    store.write(
        who,
        "import posts " + file,
        change -> {
          fates.addAll(change.edit(edit));
          change.recordImport(IntakeResult.runOf("posts", file, placed.read()));
        });
    List<String> notes = new ArrayList<>(edit.notes());
    fates.stream()
        .filter(EventFate::needsLook)
        .forEach(f -> notes.add("to look at: " + f.event().key() + ": " + f.look()));
    Map<String, Long> counts =
        fates.stream()
            .collect(
                Collectors.groupingBy(
                    f -> f.outcome().words(), TreeMap::new, Collectors.counting()));
    return new IntakeResult(
        "posts",
        placed.read().rows().size(),
        placed.read().problems(),
        notes,
        edit.after().size()
            + " routes have other mileposts from "
            + today
            + " on; of what lies on them "
            + counts.entrySet().stream()
                .map(e -> String.format(Locale.ROOT, "%,d %s", e.getValue(), e.getKey()))
                .collect(Collectors.joining(", ")));
  }
}
