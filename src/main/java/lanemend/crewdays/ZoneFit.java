package lanemend.crewdays;

import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.routing.DayClock;
import lanemend.crewdays.routing.ZoneSupply;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/**
 * One work zone on every kind of day. What depends on the zone alone, on its plant or on how trucks
 * supply it is worked out once and shared by the kinds: an agency of many crews has hundreds. For
 * one thread.
 */
final class ZoneFit {
  private final CrewFit fit;
  private final WorkZone zone;
  private final int place;

  /** Treatments done at the zone, and those that take mix, as {@link CrewFit#bits}. */
  private final Set<Treatment> treatments;

  private final Set<Treatment> withMix;
  private final Set<Equipment> equipment;
  private final DayClock clock = new DayClock();

  /** By {@link CrewFit#paceAs}, {@link CrewFit#turnAs} and {@link CrewFit#suppliedAs}. */
  private final Paced[] paced;

  private final Double[] turn;

  private final Trucked[] trucked;

  /** How trucks supply the zone; null supplies when no size of load keeps the mix window. */
  private record Trucked(
      TruckFleet.Haulage haulage, TruckFleet.Supply trucking, ZoneSupply supply) {}

  /** The zone at a crew's pace, {@code laying} null when it takes no mix. */
  private record Paced(WorkZone zone, TruckFleet.Laying laying, double ready, double spread) {}

  ZoneFit(CrewFit fit, WorkZone zone, int place) {
    this.fit = fit;
    this.zone = zone;
    this.place = place;
    treatments = CrewFit.bits(zone.treatments());
    withMix =
        CrewFit.bits(
            zone.repairs().stream()
                .filter(r -> r.tonnes() > 0)
                .map((PatchDesign r) -> r.choice().treatment())
                .toList());
    equipment = zone.equipment();
    paced = new Paced[fit.paces()];
    turn = new Double[fit.turns()];
    trucked = new Trucked[fit.supplies()];
  }

  /** The best answer over all kinds. */
  CrewFit.Verdict best() {
    CrewFit.Verdict best =
        new CrewFit.Verdict(CrewFit.Obstacle.TREATMENT, null, Double.POSITIVE_INFINITY, Double.NaN);
    for (int k = 0; k < fit.kinds().size(); k++) {
      CrewKind kind = fit.kinds().get(k);
      CrewFit.OnKind on = on(k);
      CrewFit.Obstacle obstacle = on.obstacle();
      if (obstacle.compareTo(CrewFit.Obstacle.NO_DAY) > 0) {
        CrewFit.Obstacle dates = fit.dates(k, equipment);
        obstacle = dates.compareTo(obstacle) < 0 ? dates : obstacle;
      }
      if (obstacle == CrewFit.Obstacle.NONE) {
        return new CrewFit.Verdict(obstacle, kind, on.dayMinutes(), on.chance());
      }
      int order = obstacle.compareTo(best.obstacle());
      if (order > 0 || (order == 0 && on.dayMinutes() < best.dayMinutes())) {
        best = new CrewFit.Verdict(obstacle, kind, on.dayMinutes(), on.chance());
      }
    }
    return best;
  }

  /** One kind of day with this zone, dates apart. */
  CrewFit.OnKind on(int k) {
    CrewKind kind = fit.kinds().get(k);
    if (!fit.does(k).containsAll(treatments)) {
      return CrewFit.OnKind.no(CrewFit.Obstacle.TREATMENT);
    }
    TruckFleet.Laying laying = paced(k).laying();
    double out = fit.outMinutes(k, place);
    double back = fit.backMinutes(k, place);
    if (!Double.isFinite(out) || !Double.isFinite(back)) {
      return CrewFit.OnKind.no(
          laying != null && kind.plant() == null
              ? CrewFit.Obstacle.NO_TRUCKS
              : CrewFit.Obstacle.NO_ROAD_FROM_YARD);
    }
    if (laying == null) {
      return alone(k, null, null, out, back);
    }
    if (kind.plant() == null) {
      return CrewFit.OnKind.no(CrewFit.Obstacle.NO_TRUCKS);
    }
    if (!fit.serves(k).containsAll(withMix)) {
      return CrewFit.OnKind.no(CrewFit.Obstacle.OTHER_MIX);
    }
    Trucked by = trucked(k);
    if (!Double.isFinite(by.haulage().cycleMinutes()) || !Double.isFinite(fit.firstTrip(k))) {
      return CrewFit.OnKind.no(CrewFit.Obstacle.NO_ROAD_FROM_PLANT);
    }
    if (zone.tonnes() > kind.plant().dailyTonnes()) {
      return CrewFit.OnKind.no(CrewFit.Obstacle.TONNES);
    }
    if (by.trucking() == null) {
      return CrewFit.OnKind.no(CrewFit.Obstacle.MIX_WINDOW);
    }
    return alone(k, by.supply(), by.trucking(), out, back);
  }

  private Paced paced(int k) {
    int as = fit.paceAs(k);
    if (paced[as] == null) {
      WorkZone own = Zones.paced(zone, fit.kinds().get(k).crew().pace());
      paced[as] =
          new Paced(own, Zones.laying(own), Zones.readyMinutes(own), fit.finish().ofZone(own));
    }
    return paced[as];
  }

  private Trucked trucked(int k) {
    int as = fit.suppliedAs(k);
    if (trucked[as] == null) {
      int wait = fit.turnAs(k);
      if (turn[wait] == null) {
        turn[wait] = fit.turnMinutes(k, paced(k).laying(), place);
      }
      TruckFleet.Haulage haulage = fit.haulage(k, place, turn[wait]);
      Optional<TruckFleet.Supply> trucking =
          Double.isFinite(haulage.cycleMinutes())
              ? TruckFleet.supply(fit.kinds().get(k).trucks(), paced(k).laying(), haulage)
              : Optional.empty();
      trucked[as] =
          new Trucked(
              haulage,
              trucking.orElse(null),
              trucking.map(s -> supplied(paced(k), haulage, s)).orElse(null));
    }
    return trucked[as];
  }

  private static ZoneSupply supplied(Paced own, TruckFleet.Haulage haulage, TruckFleet.Supply s) {
    return new ZoneSupply(
        haulage.haulMinutes() + haulage.dumpMinutes(),
        haulage.returnMinutes() + haulage.loaderMinutes(),
        own.ready(),
        own.laying().spanMinutes() + s.waitMinutes(),
        s.loads(),
        own.zone().tonnes());
  }

  private CrewFit.OnKind alone(
      int k, ZoneSupply supply, TruckFleet.Supply trucking, double out, double back) {
    WorkZone own = paced(k).zone();
    double service = own.workMinutes() + (trucking == null ? 0 : trucking.waitMinutes());
    clock.begin(fit.mixDay(k));
    boolean open = clock.visit(out, service, supply);
    double day = clock.end(back);
    FinishChance finish = fit.finish();
    FinishChance.Minutes minutes =
        FinishChance.Minutes.NONE
            .plus(out, finish.ofDrive(out))
            .plus(service, variance(k, trucking))
            .plus(back, finish.ofDrive(back))
            .waiting(clock.waited());
    int shift = fit.kinds().get(k).crew().shiftMinutes();
    CrewFit.Obstacle obstacle = CrewFit.Obstacle.NONE;
    double chance = Double.NaN;
    if (!open) {
      obstacle = CrewFit.Obstacle.PLANT_HOURS;
    } else if (day > shift) {
      obstacle = CrewFit.Obstacle.SHIFT;
    } else if (!finish.keeps(minutes, shift)) {
      obstacle = CrewFit.Obstacle.CHANCE;
      chance = finish.within(minutes, shift);
    }
    return new CrewFit.OnKind(obstacle, service, supply, trucking, day, chance, own);
  }

  /** Variance of the minutes at the zone; {@code trucking} is null for one without mix. */
  double variance(int k, TruckFleet.Supply trucking) {
    return paced(k).spread()
        + (trucking == null ? 0 : fit.finish().ofTruckWait(trucking.waitMinutes()));
  }
}
