package lanemend.store;

import java.sql.ResultSet;
import java.time.LocalDate;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/**
 * Settles entries of the review list. All open entries of one event are settled with the one that
 * was looked at. Throws {@link StoreException} when the entry cannot be settled that way.
 */
public final class Reviewing {
  private final Change change;
  private final String who;
  private final LocalDate today;

  /**
   * @param who settles
   */
  public Reviewing(Change change, String who, LocalDate today) {
    this.change = change;
    this.who = who;
    this.today = today;
  }

  /** A stretch of a route of today, with what was entered for it. */
  public record Spot(String routeId, double fromAlongM, double toAlongM, Entered entered) {}

  /** The open entry of this number. */
  private Stored<ReviewEntry> open(long number) {
    Stored<ReviewEntry> entry =
        change.review().stored().stream()
            .filter(e -> e.row() == number)
            .findFirst()
            .orElseThrow(() -> new StoreException("the review list has no entry " + number));
    if (!entry.value().open()) {
      throw new StoreException(
          "entry "
              + number
              + " was settled on "
              + entry.value().settledOn()
              + " by "
              + entry.value().settledBy());
    }
    return entry;
  }

  /** It is right as it is. */
  public ReviewEntry accept(long number, String note) {
    ReviewEntry entry = open(number).value();
    boolean lost =
        change.review().stored().stream()
            .map(Stored::value)
            .anyMatch(e -> e.open() && sameRow(e, entry) && !e.onRoad());
    if (lost) {
      throw new StoreException(
          entry.table()
              + " '"
              + entry.key()
              + "' lies on no road of today: place it on one, or withdraw it");
    }
    settle(entry, "accepted", note);
    return entry;
  }

  /** It no longer stands: a defect is withdrawn, a fact ends, anything else leaves the road. */
  public ReviewEntry withdraw(long number, String note) {
    ReviewEntry entry = open(number).value();
    if (entry.table().equals(Tables.ATTRIBUTE.name())) {
      change.endAttribute(row(change.attributes(), entry), today);
    } else {
      if (entry.table().equals(Tables.DEFECT.name())) {
        Stored<Defect> row = row(change.defects(), entry);
        change.defects().update(row, row.value().withStatus(DefectStatus.WITHDRAWN));
      }
      leaveRoad(entry);
    }
    settle(entry, "withdrawn", note);
    return entry;
  }

  private void leaveRoad(ReviewEntry entry) {
    boolean left = former(entry).stream().anyMatch(f -> f.value().leftRoad());
    boolean stays = entry.table().equals(Tables.DEFECT.name());
    if (left || stays) {
      return;
    }
    FormerPlace.Stretch at = stretch(entry);
    change
        .formerPlaces()
        .insert(new FormerPlace(entry.table(), entry.row(), entry.key(), at, today, false, true));
  }

  /** Where the row says that it lies, on the edition of today. */
  private FormerPlace.Stretch stretch(ReviewEntry entry) {
    Session session = change.session();
    if (!ReviewCheck.mayBeListed(entry.table())) {
      throw gone(entry);
    }
    String sql =
        "SELECT route_id, from_along_m, to_along_m FROM " + entry.table() + " WHERE fid = ?";
    return session.run(
        () -> {
          try (ResultSet r = session.statement(sql, entry.row()).executeQuery()) {
            if (!r.next()) {
              throw gone(entry);
            }
            String route = r.getString(1);
            int edition =
                change.soFar().route(route).map(x -> x.value().edition().number()).orElse(1);
            return new FormerPlace.Stretch(route, edition, r.getDouble(2), r.getDouble(3));
          }
        });
  }

  /** It lies here. */
  public ReviewEntry place(long number, Spot spot, String note) {
    ReviewEntry entry = open(number).value();
    RoadLine line = change.line(spot.routeId());
    double[] xy = line.at((spot.fromAlongM() + spot.toAlongM()) / 2);
    Place place =
        new Place(spot.routeId(), spot.fromAlongM(), spot.toAlongM(), xy[0], xy[1], spot.entered());
    switch (entry.table()) {
      case "defect" -> {
        Stored<Defect> row = row(change.defects(), entry);
        change.defects().update(row, RoadEditing.at(row.value(), place, false));
      }
      case "finding" -> {
        Stored<Finding> row = row(change.findings(), entry);
        change.findings().update(row, RoadEditing.at(row.value(), place, false));
      }
      case "patch" -> {
        Stored<PastPatch> row = row(change.patches(), entry);
        change.patches().update(row, RoadEditing.at(row.value(), place, false));
      }
      case "road_attribute" -> {
        Stored<RoadAttribute> row = row(change.attributes(), entry);
        RoadAttribute a = row.value();
        change
            .attributes()
            .update(
                row,
                new RoadAttribute(
                    spot.routeId(),
                    spot.fromAlongM(),
                    spot.toAlongM(),
                    a.name(),
                    a.value(),
                    a.validFrom(),
                    a.validTo(),
                    spot.entered()));
      }
      case "renewal_decision" -> decision(entry, spot);
      default ->
          throw new StoreException(
              entry.table()
                  + " '"
                  + entry.key()
                  + "' is placed by its own import: accept, or"
                  + " withdraw it and bring it in anew");
    }
    backOnRoad(entry);
    settle(entry, "placed", note);
    return entry;
  }

  /** Its former places no longer say that it left the road. */
  private void backOnRoad(ReviewEntry entry) {
    for (Stored<FormerPlace> f : former(entry)) {
      FormerPlace was = f.value();
      if (was.leftRoad()) {
        change
            .formerPlaces()
            .update(
                f,
                new FormerPlace(
                    was.table(),
                    was.row(),
                    was.key(),
                    was.at(),
                    was.validTo(),
                    was.turned(),
                    false));
      }
    }
  }

  private void decision(ReviewEntry entry, Spot spot) {
    Stored<DecidedSection> row = row(change.decisions(), entry);
    EngineerDecision d = row.value().decision();
    if (!(spot.fromAlongM() < spot.toAlongM())) {
      throw new StoreException("a decision needs a stretch: give both mileposts");
    }
    EngineerDecision moved = d.between(spot.fromAlongM(), spot.toAlongM());
    change
        .decisions()
        .update(row, new DecidedSection(spot.routeId(), moved, row.value().overlayYear()));
  }

  private List<Stored<FormerPlace>> former(ReviewEntry entry) {
    return change.formerPlaces().stored().stream()
        .filter(f -> f.value().table().equals(entry.table()) && f.value().row() == entry.row())
        .toList();
  }

  private static <T> Stored<T> row(EditableRows<T> rows, ReviewEntry entry) {
    return rows.stored().stream()
        .filter(r -> r.row() == entry.row())
        .findFirst()
        .orElseThrow(() -> gone(entry));
  }

  private static StoreException gone(ReviewEntry entry) {
    return new StoreException(entry.table() + " '" + entry.key() + "' is not there any more");
  }

  private void settle(ReviewEntry entry, String how, String note) {
    for (Stored<ReviewEntry> e : change.review().stored()) {
      if (e.value().open() && sameRow(e.value(), entry)) {
        change.review().update(e, e.value().settled(how, who, today, note));
      }
    }
  }

  private static boolean sameRow(ReviewEntry a, ReviewEntry b) {
    return a.table().equals(b.table()) && a.row() == b.row();
  }
}
