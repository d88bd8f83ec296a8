package lanemend.crewdays;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/**
 * Groups repairs by route and side and cuts the rows into work zones at least cost, both rows of a
 * two-lane road together. A zone costs its minutes from first cone to last at the rate of the
 * cheapest crew that does all its treatments, so that work a cheap crew could do alone is not
 * joined to a dear crew's for nothing, and the road-user delay while it stands; between zones the
 * crew drives.
 */
final class ZoneShaper {
  private record Row(String routeId, Side side) {}

  private final Agency agency;
  private final Zones zoning;
  private final CrewFit fit;

  /** {@link #leastRate} of each mix of treatments. */
  private final Map<Set<Treatment>, Double> rates = new ConcurrentHashMap<>();

  ZoneShaper(Agency agency, Zones zoning, CrewFit fit) {
    this.agency = agency;
    this.zoning = zoning;
    this.fit = fit;
  }

  /**
   * Work zones of all these repairs, each of which some crew can do alone in a day.
   *
   * @param places each defect's row in the legs
   */
  List<WorkZone> shape(List<PatchDesign> repairs, Map<String, Integer> places) {
    return shape(repairs, places, Stage.quiet());
  }

  /** The same, with somebody who hears how far it is. */
  List<WorkZone> shape(List<PatchDesign> repairs, Map<String, Integer> places, Stage stage) {
    Map<Row, List<PatchDesign>> rows = new LinkedHashMap<>();
    repairs.stream()
        .sorted(Zones.ALONG)
        .forEach(
            r ->
                rows.computeIfAbsent(
                        new Row(r.defect().place().routeId(), r.defect().lane().side()),
                        key -> new ArrayList<>())
                    .add(r));
    List<Row> all = List.copyOf(rows.keySet());
    Map<Row, List<WorkZone>> zones = new ConcurrentHashMap<>();
    stage.each(
        all.size(),
        i -> {
          Row row = all.get(i);
          Row across = new Row(row.routeId(), row.side() == Side.LEFT ? Side.RIGHT : Side.LEFT);
          if (!together(rows.get(row), rows.get(across))) {
            zones.put(row, cut(rows.get(row), places));
          } else if (row.side() == Side.RIGHT) {
            cut(rows.get(row), rows.get(across), places)
                .forEach(
                    z ->
                        zones
                            .computeIfAbsent(z.side() == ZoneSide.LEFT ? across : row, this::none)
                            .add(z));
          }
        });
    return all.stream().flatMap(row -> zones.getOrDefault(row, List.of()).stream()).toList();
  }

  private List<WorkZone> none(Row row) {
    return new ArrayList<>();
  }

  /** True where some zone might take repairs of both rows. */
  private static boolean together(List<PatchDesign> row, List<PatchDesign> across) {
    return across != null
        && row.stream().anyMatch(r -> r.setting().twoLaneTwoWay())
        && across.stream().anyMatch(r -> r.setting().twoLaneTwoWay());
  }

  private List<WorkZone> cut(List<PatchDesign> row, Map<String, Integer> places) {
    return ZoneFormer.cut(row.size(), rowCost(row, places)).stream()
        .map(span -> zoning.zone(row.subList(span.rightFrom(), span.rightTo())))
        .toList();
  }

  private List<WorkZone> cut(
      List<PatchDesign> right, List<PatchDesign> left, Map<String, Integer> places) {
    return ZoneFormer.cut(
            right.size(),
            rowCost(right, places),
            left.size(),
            rowCost(left, places),
            new SidesCost(right, left, places))
        .stream()
        .map(span -> zoning.zone(repairs(span, right, left)))
        .toList();
  }

  private static List<PatchDesign> repairs(
      ZoneFormer.Span span, List<PatchDesign> right, List<PatchDesign> left) {
    return Zones.inOrder(
        right.subList(span.rightFrom(), span.rightTo()),
        left.subList(span.leftFrom(), span.leftTo()));
  }

  /** What a zone of these repairs costs; infinite where no crew can do it. */
  private double cost(WorkZone zone, Map<String, Integer> places) {
    List<PatchDesign> repairs = zone.repairs();
    CrewFit.Verdict verdict = fit.best(zone, places.get(Zones.anchor(repairs).defect().id()));
    return verdict.obstacle() == CrewFit.Obstacle.NONE ? standing(zone) : Double.POSITIVE_INFINITY;
  }

  private double standing(WorkZone zone) {
    return crewRate(zone.repairs()) * zone.workMinutes() / 60
        + CountyProblem.delayCost(agency.plan(), zone, zone.workMinutes());
  }

  private double crewRate(List<PatchDesign> repairs) {
    Set<Treatment> work = EnumSet.noneOf(Treatment.class);
    for (PatchDesign repair : repairs) {
      work.add(repair.choice().treatment());
    }
    return rates.computeIfAbsent(work, this::leastRate);
  }

  /** The cheapest crew that does all of it, an hour; infinite when none does. */
  private double leastRate(Set<Treatment> work) {
    return agency.crews().stream()
        .filter(crew -> crew.does().containsAll(work))
        .mapToDouble(crew -> crew.costPerHour().doubleValue())
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** What spans of one row cost. */
  ZoneFormer.ZoneCost rowCost(List<PatchDesign> row, Map<String, Integer> places) {
    return new RowCost(row, places);
  }

  private final class RowCost implements ZoneFormer.ZoneCost {
    private final List<PatchDesign> row;
    private final Map<String, Integer> places;

    RowCost(List<PatchDesign> row, Map<String, Integer> places) {
      this.row = row;
      this.places = places;
    }

    @Override
    public double zone(int from, int to) {
      if (hopeless(from, to)) {
        return Double.POSITIVE_INFINITY;
      }
      return cost(zoning.zone(row.subList(from, to)), places);
    }

    @Override
    public double link(int at) {
      PatchDesign before = row.get(at - 1);
      PatchDesign after = row.get(at);
      double km =
          Math.max(0, after.defect().place().fromAlongM() - before.defect().place().toAlongM())
              / 1000;
      double hours = km / (after.setting().postedKmh() * agency.plan().truckSpeedFactor());
      return crewRate(List.of(after)) * hours + km * agency.plan().costPerKm().doubleValue();
    }

    @Override
    public boolean hopeless(int from, int to) {
      List<PatchDesign> repairs = row.subList(from, to);
      return tooMuch(repairs);
    }
  }

  /** Too long for a zone, or no crew does all of it. */
  private boolean tooMuch(List<PatchDesign> repairs) {
    double length = Zones.endAlongM(repairs) - Zones.fromAlongM(repairs);
    return length > zoning.maxLengthM(repairs) || Double.isInfinite(crewRate(repairs));
  }

  private final class SidesCost implements ZoneFormer.BothCost {
    private final List<PatchDesign> right;
    private final List<PatchDesign> left;
    private final Map<String, Integer> places;

    /** No zone of any class of road here is longer, metres. */
    private final double longest;

    SidesCost(List<PatchDesign> right, List<PatchDesign> left, Map<String, Integer> places) {
      this.right = right;
      this.left = left;
      this.places = places;
      longest =
          Stream.concat(right.stream(), left.stream())
              .mapToDouble(r -> zoning.maxLengthM(List.of(r)))
              .max()
              .orElseThrow();
    }

    @Override
    public double zone(ZoneFormer.Span span, double apart) {
      List<PatchDesign> all = repairs(span, right, left);
      double work = all.stream().mapToDouble(PatchDesign::minutes).sum();
      if (crewRate(all) * work / 60 >= apart) {
        return Double.POSITIVE_INFINITY;
      }
      WorkZone zone = zoning.zone(all);
      // Whether some day has room for it takes longest to find out.
      return zone.traffic().turnsOver() && standing(zone) < apart
          ? cost(zone, places)
          : Double.POSITIVE_INFINITY;
    }

    @Override
    public boolean hopeless(ZoneFormer.Span span) {
      List<PatchDesign> all = repairs(span, right, left);
      return all.stream().anyMatch(r -> !r.setting().twoLaneTwoWay()) || tooMuch(all);
    }

    @Override
    public boolean leftBeyond(int of, int to) {
      return from(left.get(to)) > from(right.get(of)) + longest;
    }

    @Override
    public boolean rightBeyond(int of, int to) {
      return from(right.get(to)) > from(left.get(of)) + longest;
    }

    private static double from(PatchDesign repair) {
      return repair.defect().place().fromAlongM();
    }
  }
}
