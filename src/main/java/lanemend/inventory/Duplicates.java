package lanemend.inventory;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.network.Candidate;
import lanemend.network.Lane;
import lanemend.network.Locator;
import lanemend.network.RoadPoint;
import lanemend.network.Side;
import lanemend.network.SnapHint;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.hprtree.HPRtree;

/**
 * Finds defects that were recorded twice: same kind, overlapping or nearly so in the same lane,
 * near in time. Routes that run together are one road. Evidence is added up in bits as record
 * linkage does (Fellegi and Sunter, "A Theory for Record Linkage", Journal of the American
 * Statistical Association 64, 1969): each agreement counts the logarithm of how much more often it
 * occurs among true pairs than among others. The bits themselves are common practice, no source.
 */
public final class Duplicates {
  private static final Set<DefectStatus> LIVE =
      EnumSet.of(DefectStatus.OPEN, DefectStatus.PLANNED, DefectStatus.DEFERRED_TO_OVERLAY);

  /** Of pairs this near, one in four is one defect, before anything else is looked at. */
  private static final double PRIOR_BITS = -1.6;

  /** Routes within this of each other lie on one road. */
  private static final double SAME_ROAD_M = 3;

  /** How far to each side of the middle a road must be shared, or it is a mere crossing. */
  private static final double SHARED_M = 10;

  private static final String NOTE = "duplicate of ";

  private final Locator locator;
  private final DuplicateRules rules;

  public Duplicates(Locator locator, DuplicateRules rules) {
    this.locator = locator;
    this.rules = rules;
  }

  /** Every pair that looks like one defect, most believed first; done and withdrawn are passed. */
  public List<DuplicatePair> find(List<Defect> defects) {
    Map<DefectKind, HPRtree> trees = new HashMap<>();
    for (Defect d : defects) {
      if (LIVE.contains(d.status())) {
        trees.computeIfAbsent(d.kind(), k -> new HPRtree()).insert(box(d, 0), d);
      }
    }
    List<DuplicatePair> pairs = new ArrayList<>();
    for (Defect d : defects) {
      if (LIVE.contains(d.status())) {
        for (Object near : trees.get(d.kind()).query(box(d, rules.reachM()))) {
          Defect other = (Defect) near;
          if (BEST_TO_KEEP.compare(d, other) < 0) {
            pair(d, other).filter(p -> p.belief() >= rules.least()).ifPresent(pairs::add);
          }
        }
      }
    }
    pairs.sort(
        Comparator.comparingDouble((DuplicatePair p) -> -p.belief())
            .thenComparing(p -> p.keep().id())
            .thenComparing(p -> p.drop().id()));
    return pairs;
  }

  /** What the job has gone furthest with, then what was found first. */
  private static final Comparator<Defect> BEST_TO_KEEP =
      Comparator.comparingInt((Defect d) -> progress(d.status()))
          .thenComparing(Defect::foundOn)
          .thenComparing(Defect::id);

  private static int progress(DefectStatus status) {
    return switch (status) {
      case PLANNED -> 0;
      case DEFERRED_TO_OVERLAY -> 1;
      default -> 2;
    };
  }

  private static Envelope box(Defect d, double reach) {
    Envelope box = new Envelope(d.place().x(), d.place().x(), d.place().y(), d.place().y());
    box.expandBy(reach + (d.place().toAlongM() - d.place().fromAlongM()) / 2);
    return box;
  }

  /** Where a defect lies on another's route. */
  private record Onto(double fromM, double toM, Side side) {}

  /**
   * What speaks for two defects being one; empty where they cannot be: another kind, side, road or
   * too far apart.
   */
  public Optional<DuplicatePair> pair(Defect keep, Defect drop) {
    if (keep.kind() != drop.kind() || keep.id().equals(drop.id())) {
      return Optional.empty();
    }
    Optional<Onto> onto = onto(drop, keep.place().routeId());
    if (onto.isEmpty() || onto.get().side() != keep.lane().side()) {
      return Optional.empty();
    }
    Onto at = onto.get();
    double apart =
        Math.max(keep.place().fromAlongM() - at.toM(), at.fromM() - keep.place().toAlongM());
    long days = Math.abs(ChronoUnit.DAYS.between(keep.foundOn(), drop.foundOn()));
    if (apart > rules.reachM() || days > rules.daysApart()) {
      return Optional.empty();
    }
    List<String> reasons = new ArrayList<>();
    double bits = PRIOR_BITS + place(keep, at, apart, reasons) + sizes(keep, drop, reasons);
    bits += lanes(keep.lane(), drop.lane(), reasons) + severities(keep, drop, reasons);
    bits += sightings(keep, drop, apart, days, reasons);
    double belief = 1 / (1 + Math.pow(2, -bits));
    return Optional.of(new DuplicatePair(keep, drop, at.fromM(), at.toM(), belief, reasons));
  }

  private Optional<Onto> onto(Defect d, String routeId) {
    Place p = d.place();
    if (p.routeId().equals(routeId)) {
      return Optional.of(new Onto(p.fromAlongM(), p.toAlongM(), d.lane().side()));
    }
    Optional<Double> middle = alongOn(p, 0, routeId);
    Optional<Double> before = alongOn(p, -SHARED_M, routeId);
    Optional<Double> after = alongOn(p, SHARED_M, routeId);
    if (middle.isEmpty() || before.isEmpty() || after.isEmpty()) {
      return Optional.empty();
    }
    double half = (p.toAlongM() - p.fromAlongM()) / 2;
    boolean sameWay = after.get() > before.get();
    Side other = d.lane().side() == Side.LEFT ? Side.RIGHT : Side.LEFT;
    return Optional.of(
        new Onto(
            Math.max(0, middle.get() - half),
            middle.get() + half,
            sameWay ? d.lane().side() : other));
  }

  private Optional<Double> alongOn(Place p, double off, String routeId) {
    Optional<RoadPoint> at = locator.pointAt(p.routeId(), p.middleAlongM() + off, 0);
    if (at.isEmpty()) {
      return Optional.empty();
    }
    return locator.candidates(at.get().x(), at.get().y(), SAME_ROAD_M, SnapHint.NONE).stream()
        .filter(c -> c.place().routeId().equals(routeId))
        .min(Comparator.comparingDouble(Candidate::distanceM))
        .map(c -> c.place().alongM());
  }

  private static double place(Defect keep, Onto at, double apart, List<String> reasons) {
    if (apart >= 0) {
      reasons.add(String.format(Locale.ROOT, "%.0f m apart along the road", apart));
      return apart < 5 ? 1.5 : apart < 12 ? 0.5 : -0.5;
    }
    double kept = keep.place().toAlongM() - keep.place().fromAlongM();
    double shorter = Math.min(kept, at.toM() - at.fromM());
    double share = shorter == 0 ? 1 : Math.min(1, -apart / shorter);
    reasons.add(String.format(Locale.ROOT, "overlapping by %.0f %%", 100 * share));
    return share >= 0.5 ? 3 : 2;
  }

  private static double sizes(Defect a, Defect b, List<String> reasons) {
    double alike = ratio(a.lengthM(), b.lengthM()) * ratio(a.widthM(), b.widthM());
    if (alike >= 0.6) {
      reasons.add("sizes alike");
      return 2;
    }
    if (alike >= 0.3) {
      return 0.5;
    }
    reasons.add("sizes differ");
    return alike >= 0.12 ? -1 : -3;
  }

  private static double ratio(double a, double b) {
    return Math.max(a, b) == 0 ? 1 : Math.min(a, b) / Math.max(a, b);
  }

  private static double lanes(Lane a, Lane b, List<String> reasons) {
    if (a.number() == b.number()) {
      reasons.add("same lane");
      return 0;
    }
    reasons.add("another lane of the same side");
    return -2.5;
  }

  private static double severities(Defect a, Defect b, List<String> reasons) {
    int steps = Math.abs(a.severity().compareTo(b.severity()));
    if (steps == 2) {
      reasons.add("low against high");
      return -2;
    }
    return steps == 0 ? 0.5 : 0;
  }

  /** A patrol that writes two rows on one day means two defects, unless it is one row twice. */
  private static double sightings(
      Defect a, Defect b, double apart, long days, List<String> reasons) {
    if (!a.photo().isEmpty() && a.photo().equals(b.photo())) {
      reasons.add("one photo");
      return 5;
    }
    if (days > 0 || !a.foundBy().equalsIgnoreCase(b.foundBy())) {
      reasons.add(days == 0 ? "found on one day by another" : "found " + days + " days apart");
      return days <= 15 ? 1 : 0.5;
    }
    boolean twice =
        apart <= 0
            && a.lengthM() == b.lengthM()
            && a.widthM() == b.widthM()
            && a.depthM() == b.depthM()
            && a.severity() == b.severity();
    reasons.add(twice ? "the same row twice" : "found on one patrol");
    return twice ? 1 : -4;
  }

  /**
   * The kept defect with what the dropped one adds: both extents, the worst severity, the greatest
   * width and depth, the earliest day, both photos and notes.
   */
  public Defect merged(DuplicatePair pair) {
    Defect keep = pair.keep();
    Defect drop = pair.drop();
    Place place = union(keep.place(), pair.dropFromM(), pair.dropToM());
    double grown =
        (place.toAlongM() - place.fromAlongM())
            - Math.max(
                keep.place().toAlongM() - keep.place().fromAlongM(),
                pair.dropToM() - pair.dropFromM());
    return new Defect(
        keep.id(),
        keep.kind(),
        keep.severity().compareTo(drop.severity()) >= 0 ? keep.severity() : drop.severity(),
        place,
        keep.lane(),
        Math.max(keep.lengthM(), drop.lengthM()) + Math.max(0, grown),
        Math.max(keep.widthM(), drop.widthM()),
        Math.max(keep.depthM(), drop.depthM()),
        keep.foundOn().isBefore(drop.foundOn()) ? keep.foundOn() : drop.foundOn(),
        together(keep.foundBy(), drop.foundBy()),
        together(keep.photo(), drop.photo()),
        keep.status(),
        together(keep.note(), drop.note().isEmpty() ? "" : drop.id() + ": " + drop.note()));
  }

  private Place union(Place kept, double fromM, double toM) {
    double from = Math.min(kept.fromAlongM(), fromM);
    double to = Math.max(kept.toAlongM(), toM);
    if (from == kept.fromAlongM() && to == kept.toAlongM()) {
      return kept;
    }
    Optional<RoadPoint> middle = locator.pointAt(kept.routeId(), (from + to) / 2, 0);
    // What was entered no longer says where it lies; what is worked out takes its place.
    return new Place(
        kept.routeId(),
        from,
        to,
        middle.map(RoadPoint::x).orElse(kept.x()),
        middle.map(RoadPoint::y).orElse(kept.y()),
        new Entered(kept.routeId(), null, null, null, null));
  }

  private static String together(String a, String b) {
    return b.isEmpty() || a.equalsIgnoreCase(b) ? a : a.isEmpty() ? b : a + "; " + b;
  }

  /** The dropped defect as it stays on record. */
  public static Defect withdrawn(DuplicatePair pair) {
    Defect d = pair.drop();
    String note = NOTE + pair.keep().id();
    return d.withStatus(DefectStatus.WITHDRAWN)
        .withNote(d.note().isEmpty() ? note : note + "; " + d.note());
  }

  /** The id of the defect a withdrawn one was merged into. */
  public static Optional<String> mergedInto(Defect d) {
    if (d.status() != DefectStatus.WITHDRAWN || !d.note().startsWith(NOTE)) {
      return Optional.empty();
    }
    int end = d.note().indexOf(';');
    return Optional.of(d.note().substring(NOTE.length(), end < 0 ? d.note().length() : end));
  }
}
