package lanemend.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.inventory.edit.EventFate;
import lanemend.inventory.edit.RoadEvent;
import lanemend.network.Route;
import lanemend.network.edit.Image;
import lanemend.network.edit.RoadEdit;

/**
 * What an edit of roads does to each event, as CSV: a line for each stretch it lies on afterwards.
 */
public final class EditExport {
  private static final List<String> COLUMNS =
      List.of(
          "kind",
          "event",
          "outcome",
          "why",
          "look",
          "route_before",
          "milepost_before",
          "milepost_to_before",
          "route_after",
          "milepost_after",
          "milepost_to_after");

  private EditExport() {}

  /**
   * Writes the file, replacing it.
   *
   * @throws ExchangeException when it cannot be written
   */
  public static void csv(Path target, RoadEdit edit, List<EventFate> fates) {
    List<List<Object>> rows = new ArrayList<>();
    for (EventFate fate : fates) {
      List<Object> before = before(edit, fate);
      if (fate.now().isEmpty()) {
        rows.add(with(before, "", "", ""));
      }
      for (Image now : fate.now()) {
        Route route = edit.after(now.routeId()).orElseThrow();
        rows.add(
            with(
                before,
                now.routeId(),
                route.mileposts().at(now.fromM()).text(),
                route.mileposts().at(now.toM()).text()));
      }
    }
    CsvOut.write(target, COLUMNS, rows);
  }

  private static List<Object> before(RoadEdit edit, EventFate fate) {
    RoadEvent e = fate.event();
    Route route = edit.before(e.routeId()).orElseThrow();
    return List.of(
        e.kind().name().toLowerCase(Locale.ROOT),
        e.value().isEmpty() ? e.key() : e.key() + " = " + e.value(),
        fate.outcome().words(),
        fate.why(),
        fate.look(),
        e.routeId(),
        route.mileposts().at(e.fromAlongM()).text(),
        route.mileposts().at(e.toAlongM()).text());
  }

  private static List<Object> with(List<Object> before, Object... after) {
    List<Object> row = new ArrayList<>(before);
    row.addAll(List.of(after));
    return row;
  }
}
