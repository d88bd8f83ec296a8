package lanemend.crewdays;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * One way to run a crew's day: with which plant and how many trucks.
 *
 * @param plant null on a day without mix
 * @param trucks 0 on a day without mix
 * @param windowShare share of the plant's mix window that the day's cold and wind leave
 */
record CrewKind(Crew crew, Plant plant, int trucks, double windowShare) {

  /** Every way the agency can run a day: for each crew, without mix and by plant and trucks. */
  static List<CrewKind> all(Agency agency) {
    return all(agency, WorkWeather.of(agency));
  }

  static List<CrewKind> all(Agency agency, WorkWeather weather) {
    SortedSet<Double> shares = new TreeSet<>();
    for (WorkWeather.Outlook day : weather.dates()) {
      if (day.hotMix()) {
        shares.add(day.windowShare());
      }
    }
    if (shares.isEmpty()) {
      shares.add(1.0);
    }
    List<CrewKind> kinds = new ArrayList<>();
    for (Crew crew : agency.crews()) {
      kinds.add(new CrewKind(crew, null, 0, 1));
      for (Plant plant : agency.plants()) {
        for (double share : plant.isStockpile() ? new TreeSet<>(Set.of(1.0)) : shares) {
          for (int trucks = 1; trucks <= crew.trucks(); trucks++) {
            kinds.add(new CrewKind(crew, plant, trucks, share));
          }
        }
      }
    }
    return kinds;
  }

  /**
   * The number among {@code kinds} of the kind of a decided day, or -1; where the weather has
   * turned since, the nearest there is.
   */
  static int of(List<CrewKind> kinds, Assignment.Day day, WorkWeather weather) {
    int found = -1;
    for (int k = 0; k < kinds.size(); k++) {
      CrewKind kind = kinds.get(k);
      String plant = kind.plant == null ? "" : kind.plant.id();
      if (kind.crew.id().equals(day.crewId())
          && plant.equals(day.plantId())
          && kind.trucks == day.trucks()) {
        found = found < 0 || kind.suits(weather.on(day.date())) ? k : found;
      }
    }
    return found;
  }

  /** True when a day of such weather can be run this way. */
  boolean suits(WorkWeather.Outlook day) {
    return plant == null
        || plant.isStockpile()
        || (day.hotMix() && Math.abs(day.windowShare() - windowShare) < 1e-9);
  }

  /** Minutes from loading until the mix must be laid. */
  double windowMinutes() {
    return plant.mixWindowMinutes() * windowShare;
  }

  /** Crew and trucks for an hour. */
  BigDecimal costPerHour(PlanSettings settings) {
    return crew.costPerHour().add(settings.truckCostPerHour().multiply(BigDecimal.valueOf(trucks)));
  }
}
