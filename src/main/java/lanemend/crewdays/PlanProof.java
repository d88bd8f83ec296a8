package lanemend.crewdays;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lanemend.crewdays.routing.DayKind;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.KeptDays;
import lanemend.crewdays.routing.LowerBound;
import lanemend.patching.PatchDesign;

/**
 * How far a plan is at most from the cheapest one of the same work zones that keeps to what is
 * settled by hand: a cost that none of them goes below.
 *
 * @param cost of the plan with what it leaves out priced in as the search prices it
 * @param leftOutPrice the part of {@code cost} that is such a price and no money
 * @param bound no plan of these zones costs less, what it leaves out priced in alike
 * @param rounds of the method that found the bound
 */
public record PlanProof(double cost, double leftOutPrice, double bound, int rounds) {
  /** Rounds at most. */
  private static final int ROUNDS = 600;

  /**
   * Steps one round may take at most: crew days x ways to run one x work zones x half minutes of a
   * shift. A few seconds; of more than one round much comes, of less nothing.
   */
  private static final double MOST_STEPS = 5e9;

  private static final String NAME = "proof";

  /** The plan costs at most this share of its cost more than the best plan. */
  public double gap() {
    return cost <= 0 ? 0 : Math.max(0, (cost - bound) / cost);
  }

  /** What is proven, in a sentence or two. */
  public String words(String currency) {
    String counted =
        leftOutPrice > 0
            ? String.format(
                Locale.ROOT,
                ", with what is left out counted as %,.0f %s in both",
                leftOutPrice,
                currency)
            : "";
    return String.format(
        Locale.ROOT,
        "no plan of these work zones costs less than %,.0f %s, so at most %.1f %% of this one's cost"
            + " could be saved%s",
        bound,
        currency,
        100 * gap(),
        counted);
  }

  /**
   * Looks for a bound on the cost of a plan.
   *
   * @param repairs of every defect that waits; the plan's are among them
   * @param seconds at most, the first round apart
   * @param stop may end the search early; the bound so far counts
   * @return empty when the plan is too large for it, or ended before there was any bound
   */
  public static Optional<PlanProof> of(
      Haul haul,
      Agency agency,
      ZoneTraffic traffic,
      HandRules rules,
      List<PatchDesign> repairs,
      Assignment kept,
      double seconds,
      PlanProgress stop) {
    PlanBase base = PlanBase.of(haul, agency, traffic, rules, kept);
    if (steps(base, kept) > MOST_STEPS) {
      return Optional.empty();
    }
    try {
      return Optional.of(bound(base, repairs, kept, seconds, stop));
    } catch (PlanStopped e) {
      return Optional.empty();
    }
  }

  /** Steps of one round. */
  private static double steps(PlanBase base, Assignment kept) {
    double days = 0;
    for (CrewKind kind : base.kinds()) {
      days += base.calendar().worked(kind.crew()).size() * 2.0 * kind.crew().shiftMinutes();
    }
    return days * kept.days().stream().mapToInt(d -> d.zones().size()).sum();
  }

  private static PlanProof bound(
      PlanBase base,
      List<PatchDesign> repairs,
      Assignment kept,
      double seconds,
      PlanProgress stop) {
    Map<String, PatchDesign> byId = new HashMap<>();
    repairs.forEach(r -> byId.put(r.defect().id(), r));
    List<WorkZone> more = new NewZones(base).shape(repairs, kept.defectIds());
    PlanState state = new PlanState(base, kept, byId, more, LocalDate.MIN, stop);
    DayProblem p = state.problem;
    KeptDays days = new KeptDays(p, state.seq, state.kind);
    double[] prices = p.skipCost().clone();
    double cost = 0;
    for (int s = 0; s < state.seq.length; s++) {
      double day = days.cost(s);
      cost += day;
      share(p, state.kind[s], s, state.seq[s], day, prices);
    }
    double leftOut = 0;
    for (int z = 0; z < state.zones.size(); z++) {
      leftOut += state.home[z] < 0 ? p.skipCost()[z] : 0;
    }
    LowerBound.Bound bound =
        LowerBound.of(
            p,
            cost + leftOut,
            prices,
            state.seq,
            ROUNDS,
            seconds,
            (share, best) -> stop.at(NAME, share, best));
    return new PlanProof(cost + leftOut, leftOut, Math.max(0, bound.cost()), bound.rounds());
  }

  /** Splits the cost of a day over its stops: what is a stop's own, and the rest by minutes. */
  private static void share(
      DayProblem p, int kind, int slot, int[] stops, double cost, double[] prices) {
    DayKind k = p.kinds()[kind];
    int date = p.slots()[slot].date();
    double[] own = new double[stops.length];
    double minutes = 0;
    double rest = cost;
    for (int i = 0; i < stops.length; i++) {
      double service = p.service()[kind][stops[i]];
      own[i] =
          p.stopCost()[kind][stops[i]] + p.late()[date][stops[i]] + k.costPerMinute() * service;
      minutes += service;
      rest -= own[i];
    }
    for (int i = 0; i < stops.length; i++) {
      prices[stops[i]] = own[i] + rest * p.service()[kind][stops[i]] / Math.max(1e-9, minutes);
    }
    if (!Double.isFinite(cost)) {
      Arrays.stream(stops).forEach(c -> prices[c] = p.skipCost()[c]);
    }
  }
}
