package lanemend.inventory;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Which facts hold on a day. Where two of one name lie over each other and one began later, the
 * later one stands there in place of the older for as long as it holds: a new count, or a speed
 * limit for the time of a work site. Facts that began together are left over each other; which of
 * them counts is said by {@link RoadAttributes} and {@link Segmentation}. A fact without a first
 * day began with the road ({@link LocalDate#EPOCH}).
 */
public final class FactsInTime {

  private static final double SLACK_M = 2;

  private FactsInTime() {}

  private record Key(String routeId, String name) {}

  /** The facts in force on a day, older ones cut where a later one stands. */
  public static List<RoadAttribute> on(List<RoadAttribute> facts, LocalDate day) {
    Map<Key, List<RoadAttribute>> groups = new LinkedHashMap<>();
    Map<Key, LocalDate> begun = new HashMap<>();
    boolean alike = true;
    List<RoadAttribute> holding = new ArrayList<>();
    for (RoadAttribute fact : facts) {
      if (fact.holdsOn(day)) {
        holding.add(fact);
        Key key = new Key(fact.routeId(), fact.name());
        groups.computeIfAbsent(key, k -> new ArrayList<>()).add(fact);
        LocalDate first = begun.putIfAbsent(key, since(fact));
        alike &= first == null || first.equals(since(fact));
      }
    }
    if (alike) {
      return holding;
    }
    List<RoadAttribute> cut = new ArrayList<>();
    groups.values().forEach(group -> cut.addAll(cut(group)));
    return cut;
  }

  /**
   * Those of the facts read that say another thing, somewhere along their stretch, than facts at
   * hand of the same name do there.
   */
  public static List<RoadAttribute> notSaid(List<RoadAttribute> atHand, List<RoadAttribute> read) {
    Map<Key, Map<String, Covered>> said = new HashMap<>();
    for (RoadAttribute fact : atHand) {
      said.computeIfAbsent(new Key(fact.routeId(), fact.name()), k -> new HashMap<>())
          .computeIfAbsent(fact.value(), v -> new Covered())
          // Lines read again may differ by what joining their ends does.
          .add(fact.fromAlongM() - SLACK_M, fact.toAlongM() + SLACK_M);
    }
    return read.stream()
        .filter(
            fact -> {
              Covered same =
                  said.getOrDefault(new Key(fact.routeId(), fact.name()), Map.of())
                      .get(fact.value());
              return same == null || !same.uncovered(fact).isEmpty();
            })
        .toList();
  }

  private static LocalDate since(RoadAttribute fact) {
    return fact.validFrom() == null ? LocalDate.EPOCH : fact.validFrom();
  }

  private static List<RoadAttribute> cut(List<RoadAttribute> group) {
    TreeMap<LocalDate, List<RoadAttribute>> byDay = new TreeMap<>(Comparator.reverseOrder());
    group.forEach(f -> byDay.computeIfAbsent(since(f), d -> new ArrayList<>()).add(f));
    List<RoadAttribute> kept = new ArrayList<>();
    Covered covered = new Covered();
    for (List<RoadAttribute> sameDay : byDay.values()) {
      // Facts cut at one place begin there together: the one that started last is to come last.
      sameDay.sort(Comparator.comparingDouble(RoadAttribute::fromAlongM));
      sameDay.forEach(f -> kept.addAll(covered.uncovered(f)));
      sameDay.forEach(f -> covered.add(f.fromAlongM(), f.toAlongM()));
    }
    kept.sort(Comparator.comparingDouble(RoadAttribute::fromAlongM));
    return kept;
  }

  /** Stretches under later facts: ends by starts, none touching another. */
  private static final class Covered {
    private final TreeMap<Double, Double> ends = new TreeMap<>();

    List<RoadAttribute> uncovered(RoadAttribute fact) {
      List<RoadAttribute> pieces = new ArrayList<>();
      double from = fact.fromAlongM();
      do {
        Map.Entry<Double, Double> over = ends.floorEntry(from);
        if (over != null && over.getValue() > from) {
          from = over.getValue();
          continue;
        }
        Double next = ends.higherKey(from);
        double to = next == null ? fact.toAlongM() : Math.min(fact.toAlongM(), next);
        boolean whole = from == fact.fromAlongM() && to == fact.toAlongM();
        pieces.add(whole ? fact : fact.over(fact.routeId(), from, to));
        from = to;
      } while (from < fact.toAlongM());
      return pieces;
    }

    void add(double fromM, double toM) {
      double from = fromM;
      double to = toM;
      Map.Entry<Double, Double> before = ends.floorEntry(from);
      if (before != null && before.getValue() >= from) {
        from = before.getKey();
        to = Math.max(to, before.getValue());
      }
      Map<Double, Double> inside = ends.subMap(from, true, to, true);
      for (double end : inside.values()) {
        to = Math.max(to, end);
      }
      inside.clear();
      if (to > from) {
        ends.put(from, to);
      }
    }
  }
}
