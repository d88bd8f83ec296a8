package lanemend.crewdays;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/**
 * Groups repairs by route and side and cuts each row into work zones at least cost. A zone costs
 * its set-up, take-down and shifts between patches at the crew's rate and the road-user delay while
 * it stands; between zones the crew drives. The work itself is the same however it is cut.
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
    List<List<PatchDesign>> all = List.copyOf(rows.values());
    List<List<WorkZone>> zones = new ArrayList<>(Collections.nCopies(all.size(), List.of()));
    stage.each(all.size(), i -> zones.set(i, cut(all.get(i), places)));
    return zones.stream().flatMap(List::stream).toList();
  }

  private List<WorkZone> cut(List<PatchDesign> row, Map<String, Integer> places) {
    return ZoneFormer.cut(row.size(), rowCost(row, places)).stream()
        .map(span -> zoning.zone(row.subList(span[0], span[1])))
        .toList();
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
      List<PatchDesign> repairs = row.subList(from, to);
      WorkZone zone = zoning.zone(repairs);
      CrewFit.Verdict verdict = fit.best(zone, places.get(Zones.anchor(repairs).defect().id()));
      if (verdict.obstacle() != CrewFit.Obstacle.NONE) {
        return Double.POSITIVE_INFINITY;
      }
      double work = repairs.stream().mapToDouble(PatchDesign::minutes).sum();
      return crewRate(repairs) * (zone.workMinutes() - work) / 60
          + CountyProblem.delayCost(agency.plan(), zone, zone.workMinutes());
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
      double length = Zones.endAlongM(repairs) - repairs.get(0).defect().place().fromAlongM();
      return length > zoning.maxLengthM(repairs) || Double.isInfinite(crewRate(repairs));
    }

    private double crewRate(List<PatchDesign> repairs) {
      Set<Treatment> work = EnumSet.noneOf(Treatment.class);
      for (PatchDesign repair : repairs) {
        work.add(repair.choice().treatment());
      }
      return rates.computeIfAbsent(work, ZoneShaper.this::leastRate);
    }
  }
}
