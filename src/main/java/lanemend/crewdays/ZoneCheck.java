package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import lanemend.inventory.Place;
import lanemend.measure.Figure;
import lanemend.patching.PatchDesign;
import lanemend.patching.RoadSetting;
import lanemend.patching.traffic.TrafficApproach;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.ZoneWork;

/** Works one zone out again from its repairs; part of {@link PlanChecker}. */
final class ZoneCheck {
  /** Where crew and trucks drive to: the repair nearest the zone's middle. */
  final Place drivenTo;

  /** From first cone to last, trucks never waited for. */
  final double minutes;

  final double tonnes;
  final double delayPerHour;

  /** From the first cone to the first mix. */
  final double untilMix;

  /** From the first mix to the last. */
  final double mixSpan;

  /** Laying alone. */
  final double laying;

  /** Sum of the squares of all spreads, trucks never waited for. */
  final double squares;

  final List<LocalDate> due = new ArrayList<>();

  private final WorkZone zone;
  private final List<PatchDesign> raw;
  private final TrafficPlan control;
  private final double from;
  private final double to;
  private final double longest;

  ZoneCheck(
      PlanSettings plan, ZoneTraffic traffic, CrewPace pace, WorkZone zone, List<PatchDesign> raw) {
    this.zone = zone;
    this.raw = raw;
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    double mix = 0;
    double limit = Double.POSITIVE_INFINITY;
    RoadSetting fastest = raw.get(0).setting();
    for (PatchDesign r : raw) {
      low = Math.min(low, r.defect().place().fromAlongM());
      high = Math.max(high, r.defect().place().toAlongM());
      mix += r.tonnes();
      Double own = plan.maxZoneM().get(r.setting().roadClass());
      limit = own == null ? limit : Math.min(limit, own);
      double days = plan.dueDays().get(r.defect().severity());
      days *= plan.dueFactor().getOrDefault(r.setting().roadClass(), 1.0);
      due.add(r.defect().foundOn().plusDays(Math.round(days)));
      boolean faster = r.setting().postedKmh() > fastest.postedKmh();
      boolean busier =
          r.setting().postedKmh() == fastest.postedKmh() && r.setting().aadt() > fastest.aadt();
      fastest = faster || busier ? r.setting() : fastest;
    }
    from = low;
    to = high;
    tonnes = mix;
    longest = limit;
    drivenTo = nearest((low + high) / 2);
    // A zone is signed for before it is known whose it is.
    double designed = Work.of(raw, pace, 0, 0).designed;
    control = traffic.plan(ZoneWork.of(fastest, to - from, designed, raw));
    double turning = bothSides() ? control.turnOverMinutes() : 0;
    Work work = Work.of(raw, pace, plan.finish().setUpSpread(), turning);
    minutes = control.setUpMinutes() + work.minutes + control.takeDownMinutes();
    delayPerHour = control.delayVehicleHoursPerHour();
    untilMix = control.setUpMinutes() + work.firstMix;
    mixSpan = work.lastMix - work.firstMix;
    laying = work.laying;
    double ends = plan.finish().setUpSpread();
    squares =
        work.squares
            + Math.pow(ends * control.setUpMinutes(), 2)
            + Math.pow(ends * control.takeDownMinutes(), 2);
  }

  /**
   * What the crew does between set-up and take-down.
   *
   * @param minutes at the crew's own pace
   * @param designed minutes at the pace the repairs were designed for, without turning over
   * @param firstMix from the first repair's start to the first mix, NaN without mix
   * @param squares sum of the squares of the steps' spreads
   */
  private record Work(
      double minutes,
      double designed,
      double firstMix,
      double lastMix,
      double laying,
      double squares) {
    static Work of(List<PatchDesign> raw, CrewPace pace, double ends, double turning) {
      double clock = 0;
      double firstMix = Double.NaN;
      double lastMix = 0;
      double lay = 0;
      double spread = 0;
      double designed = 0;
      for (int i = 0; i < raw.size(); i++) {
        double moved =
            i == 0 ? 0 : shift(raw.get(i - 1).defect().place(), raw.get(i).defect().place());
        boolean across = i > 0 && isLeft(raw.get(i)) != isLeft(raw.get(i - 1));
        double ready = across ? moved + turning : moved;
        clock += ready;
        spread += Math.pow(ends * ready, 2);
        CrewPace.Ratio slower = pace.minutes().get(raw.get(i).choice().treatment());
        double by = slower == null ? 1 : slower.value();
        double steps =
            raw.get(i).steps().stream().mapToDouble(s -> Math.pow(s.spreadMinutes(), 2)).sum();
        spread += by * by * steps;
        double alone = raw.get(i).steps().stream().mapToDouble(s -> s.minutes().value()).sum();
        double work = by * alone;
        designed += moved + alone;
        double own = layMinutes(raw.get(i), alone) * by;
        if (raw.get(i).tonnes() > 0) {
          double start = clock + (work - own) / 2;
          firstMix = Double.isNaN(firstMix) ? start : firstMix;
          lastMix = start + own;
          lay += own;
        }
        clock += work;
      }
      return new Work(clock, designed, firstMix, lastMix, lay, spread);
    }
  }

  private Place nearest(double middle) {
    Place best = null;
    double least = Double.POSITIVE_INFINITY;
    for (PatchDesign r : raw) {
      Place p = r.defect().place();
      double off = Math.abs((p.fromAlongM() + p.toAlongM()) / 2 - middle);
      if (off < least) {
        least = off;
        best = p;
      }
    }
    return best;
  }

  private static double shift(Place a, Place b) {
    double metresPerMinute = Zones.SHIFT_KMH * 1000 / 60;
    double gap = Math.max(b.fromAlongM() - a.toAlongM(), a.fromAlongM() - b.toAlongM());
    return Zones.SHIFT_MINUTES + Math.max(0, gap) / metresPerMinute;
  }

  private static boolean isLeft(PatchDesign r) {
    return r.defect().lane().code().startsWith("L");
  }

  private boolean bothSides() {
    long left = raw.stream().filter(ZoneCheck::isLeft).count();
    return left > 0 && left < raw.size();
  }

  private static double layMinutes(PatchDesign r, double work) {
    double rate =
        r.figures().stream()
            .filter(f -> f.name().equals("laydown rate"))
            .mapToDouble(Figure::value)
            .findFirst()
            .orElse(0);
    double lay = rate > 0 ? 60 * r.tonnes() / rate : work;
    return Math.max(0.01, Math.min(lay, work));
  }

  /** Compares the zone as planned with the zone as it must be. */
  void run(Consumer<String> say) {
    String name = "zone " + zone.id();
    for (PatchDesign r : raw) {
      ZoneSide lies = isLeft(r) ? ZoneSide.LEFT : ZoneSide.RIGHT;
      if (!r.defect().place().routeId().equals(zone.routeId())
          || (zone.side() != ZoneSide.BOTH && lies != zone.side())) {
        say.accept(name + " holds " + r.defect().id() + " of another route or side");
      }
    }
    boolean both = bothSides();
    if (both) {
      mayBeOfBoth(name, say);
    } else if (zone.side() == ZoneSide.BOTH) {
      say.accept(name + " is given as of both sides and is of one");
    }
    for (int i = 1; i < raw.size(); i++) {
      double step =
          raw.get(i).defect().place().fromAlongM() - raw.get(i - 1).defect().place().fromAlongM();
      boolean back = isLeft(raw.get(i - 1)) && !isLeft(raw.get(i));
      boolean across = isLeft(raw.get(i - 1)) != isLeft(raw.get(i));
      if (back) {
        say.accept(name + " goes back to the side it had done");
      } else if (!across && (both && isLeft(raw.get(i)) ? -step : step) < 0) {
        say.accept(name + " does not go along the road");
      }
    }
    if (to - from > longest + 1e-6) {
      say.accept(name + " is " + (to - from) + " m long, longest allowed " + longest);
    }
    LocalDate first = due.stream().min(LocalDate::compareTo).orElseThrow();
    if (!first.equals(zone.dueOn())) {
      say.accept(name + " is given as due on " + zone.dueOn() + " and is due on " + first);
    }
    differs(say, name + " length", zone.lengthM(), to - from);
    differs(say, name + " mix", zone.tonnes(), tonnes);
    differs(say, name + " minutes", zone.workMinutes(), minutes);
  }

  /** Both sides: one lane each way, and both directions held at the ends, signed alike. */
  private void mayBeOfBoth(String name, Consumer<String> say) {
    for (PatchDesign r : raw) {
      if (r.setting().oneDirection() || r.setting().lanes() != 2) {
        say.accept(
            name
                + " takes both sides and "
                + r.defect().id()
                + " is not on a two-lane two-way road");
      }
    }
    Map<TrafficApproach, List<String>> met = new EnumMap<>(TrafficApproach.class);
    for (TrafficPlan.SignPlacement sign : control.signs()) {
      met.computeIfAbsent(sign.approach(), k -> new ArrayList<>())
          .add(sign.sign().code() + " " + sign.beforeWorkM());
    }
    String code = control.choice().situation().code();
    boolean held = code.equals("TA-10") || code.equals("TA-12");
    if (!held || met.size() != 2 || new HashSet<>(met.values()).size() != 1) {
      say.accept(
          name + " takes both sides under " + code + ", which does not hold and sign both ways");
    }
    if (!control.turnsOver()) {
      say.accept(name + " takes both sides where the closure is not to be turned over");
    }
    double clear = control.layout().taperM() + control.layout().bufferM();
    if (control.layout().closureM() < 2 * clear + to - from - 1e-6) {
      say.accept(name + " has flaggers or signs inside the closure of its second side");
    }
  }

  private static void differs(Consumer<String> say, String what, double said, double right) {
    if (!(Math.abs(said - right) <= 1e-6 * Math.max(1, Math.abs(right)))) {
      say.accept(what + " is given as " + said + " and comes to " + right);
    }
  }
}
