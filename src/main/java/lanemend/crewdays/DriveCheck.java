package lanemend.crewdays;

import java.util.ArrayList;
import java.util.List;
import lanemend.inventory.Place;

/**
 * The drives of a plan, found again over the roads; part of {@link PlanChecker}. Those between
 * bases and stops are found for the whole plan at once, as bases are few; those from stop to stop
 * day by day.
 */
final class DriveCheck {
  private final Agency agency;
  private final Haul haul;
  private final Haul.Legs out;
  private final Haul.Legs back;
  private final Haul.Legs bases;

  /**
   * @param stops of every day of the plan, one after the other
   */
  DriveCheck(Agency agency, Haul haul, List<Place> stops) {
    this.agency = agency;
    this.haul = haul;
    List<Haul.Place> from = new ArrayList<>();
    agency.yards().forEach(y -> from.add(new Haul.Place("yard", y.x(), y.y(), "", 0)));
    agency.plants().forEach(p -> from.add(new Haul.Place("plant", p.x(), p.y(), "", 0)));
    List<Haul.Place> to = places(stops);
    out = haul.between(from, to);
    back = haul.between(to, from);
    bases = haul.between(from, from);
  }

  private static List<Haul.Place> places(List<Place> stops) {
    List<Haul.Place> places = new ArrayList<>();
    for (Place p : stops) {
      double middle = (p.fromAlongM() + p.toAlongM()) / 2;
      places.add(new Haul.Place("zone", p.x(), p.y(), p.routeId(), middle));
    }
    return places;
  }

  /**
   * Drives of one day at legal speed: yard, stops in order, then the plant.
   *
   * @param plant null on a day without mix
   * @param first number of the day's first stop among those of the plan
   */
  Haul.Legs of(Crew crew, Plant plant, List<Place> stops, int first) {
    int n = stops.size();
    double[][] minutes = new double[n + 2][n + 2];
    double[][] km = new double[n + 2][n + 2];
    List<Haul.Place> places = places(stops);
    Haul.Legs among = haul.between(places, places);
    for (int i = 0; i < n; i++) {
      System.arraycopy(among.minutes()[i], 0, minutes[i + 1], 1, n);
      System.arraycopy(among.km()[i], 0, km[i + 1], 1, n);
    }
    int yard = yard(crew);
    base(yard, 0, first, n, minutes, km);
    if (plant != null) {
      int at = agency.yards().size() + agency.plants().indexOf(plant);
      base(at, n + 1, first, n, minutes, km);
      minutes[0][n + 1] = bases.minutes()[yard][at];
      km[0][n + 1] = bases.km()[yard][at];
    }
    return new Haul.Legs(minutes, km);
  }

  private int yard(Crew crew) {
    int yard = 0;
    while (!agency.yards().get(yard).id().equals(crew.yardId())) {
      yard++;
    }
    return yard;
  }

  private void base(int base, int at, int first, int n, double[][] minutes, double[][] km) {
    for (int i = 0; i < n; i++) {
      minutes[at][i + 1] = out.minutes()[base][first + i];
      km[at][i + 1] = out.km()[base][first + i];
      minutes[i + 1][at] = back.minutes()[first + i][base];
      km[i + 1][at] = back.km()[first + i][base];
    }
  }
}
