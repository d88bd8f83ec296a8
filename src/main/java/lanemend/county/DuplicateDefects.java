package lanemend.county;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lanemend.exchange.ApartJson;
import lanemend.inventory.Defect;
import lanemend.inventory.DuplicatePair;
import lanemend.inventory.DuplicateRules;
import lanemend.inventory.Duplicates;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.store.Change;
import lanemend.store.HeldDefect;
import lanemend.store.Snapshot;
import lanemend.store.Stored;

/** Defects of a store that look like one seen twice, and what becomes of them. */
public final class DuplicateDefects {
  /** Key of the setting that holds pairs said to be two. */
  private static final String SETTING = "defects_apart";

  private final Network network;
  private final Duplicates duplicates;

  /** Looks on these roads. */
  public DuplicateDefects(Network network, Locator locator) {
    this.network = network;
    this.duplicates = new Duplicates(locator, DuplicateRules.STANDARD);
  }

  /** What is proposed, without the pairs somebody said are two. */
  public List<DuplicatePair> proposed(Snapshot store) {
    Set<ApartJson.Pair> apart = apart(store);
    return duplicates.find(store.defects().all()).stream()
        .filter(p -> !apart.contains(ApartJson.Pair.of(p.keep().id(), p.drop().id())))
        .toList();
  }

  /** A pair somebody named. */
  public DuplicatePair named(Snapshot store, String keepId, String dropId) {
    Defect keep = defect(store, keepId);
    Defect drop = defect(store, dropId);
    return duplicates
        .pair(keep, drop)
        .orElseThrow(
            () ->
                new NotReady(
                    keepId
                        + " and "
                        + dropId
                        + " cannot be one: another kind, side or road, or too far apart in place"
                        + " or time"));
  }

  private static Defect defect(Snapshot store, String id) {
    Defect d =
        store
            .defects()
            .find(id)
            .map(Stored::value)
            .orElseThrow(() -> new NotReady("there is no defect '" + id + "'"));
    return switch (d.status()) {
      case WITHDRAWN ->
          throw new NotReady(
              Duplicates.mergedInto(d)
                  .map(kept -> id + " was merged into " + kept + " already")
                  .orElse(id + " is withdrawn"));
      case DONE -> throw new NotReady(id + " is done: what comes after a repair is another defect");
      default -> d;
    };
  }

  public static Set<ApartJson.Pair> apart(Snapshot store) {
    return store.setting(SETTING).map(ApartJson::parse).orElse(Set.of());
  }

  public static void putApart(Change change, Set<ApartJson.Pair> pairs) {
    change.putSetting(SETTING, ApartJson.text(pairs));
  }

  /** Writes the kept defect with what the other adds, and withdraws the other. */
  public void merge(Change change, DuplicatePair pair) {
    Stored<Defect> keep = change.defects().find(pair.keep().id()).orElseThrow();
    Stored<Defect> drop = change.defects().find(pair.drop().id()).orElseThrow();
    change.defects().update(keep, duplicates.merged(pair));
    change.defects().update(drop, Duplicates.withdrawn(pair));
    FieldPhotos.move(change, pair.drop().id(), pair.keep().id());
    // A withdrawn defect waits for no overlay.
    for (Stored<HeldDefect> row : change.held().stored()) {
      if (row.value().defectId().equals(pair.drop().id())) {
        change.held().delete(row);
      }
    }
  }

  /** A line for a person. */
  public String text(DuplicatePair p) {
    return String.format(
        Locale.ROOT,
        "%s  %s  %.0f %%  %s %s, lane %s: %s",
        p.keep().id(),
        p.drop().id(),
        100 * p.belief(),
        p.keep().kind().name().toLowerCase(Locale.ROOT),
        place(p.keep()),
        p.keep().lane().code(),
        String.join(", ", p.reasons()));
  }

  private String place(Defect d) {
    Route route = network.route(d.place().routeId()).orElseThrow();
    return route.id() + " " + route.mileposts().at(d.place().middleAlongM()).text();
  }

  /** Sentences on the newcomers that look like what is there, or like each other. */
  public List<String> offered(Snapshot store, List<Defect> newcomers) {
    Set<String> fresh = newcomers.stream().map(Defect::id).collect(Collectors.toSet());
    List<String> notes = new ArrayList<>();
    for (DuplicatePair p : proposed(store)) {
      if (Stream.of(p.keep().id(), p.drop().id()).anyMatch(fresh::contains)) {
        notes.add(
            "may be one defect seen twice: "
                + text(p)
                + "; settle by 'duplicates merge "
                + p.keep().id()
                + " "
                + p.drop().id()
                + "' or 'duplicates apart ...'");
      }
    }
    return notes;
  }
}
