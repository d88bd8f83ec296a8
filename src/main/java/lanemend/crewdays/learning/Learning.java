package lanemend.crewdays.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.LearnedFactors;
import lanemend.patching.Treatment;

/**
 * What done work teaches: the mean of actual over designed minutes and mix by treatment and crew,
 * and of the cost of a crew's hour, each with its 90 % interval. Repairs count by their log ratio,
 * those far off only up to a fence ({@link Fence}); crews and treatments are pulled together by
 * {@link Pooling}. Nothing is proposed where nothing was recorded.
 *
 * @param proposals by measure, treatment and crew, the agency's before its crews'
 * @param pulled repairs beyond the fence
 * @param compared repairs that could be compared, by measure
 * @param without repairs that could not, by measure and reason
 */
public record Learning(
    List<Proposal> proposals,
    List<Pulled> pulled,
    Map<Measure, Integer> compared,
    Map<Measure, Map<String, Integer>> without) {
  private static final double TAIL = 0.05;

  public Learning {
    proposals = List.copyOf(proposals);
    pulled = List.copyOf(pulled);
  }

  /**
   * A repair far from the others of its treatment and crew.
   *
   * @param ratio actual over designed
   * @param countedAs the ratio as it counts
   */
  public record Pulled(
      Measure measure,
      String id,
      Treatment treatment,
      String crewId,
      LocalDate on,
      double ratio,
      double countedAs) {}

  /** The proposal of this key. */
  public Optional<Proposal> proposal(String key) {
    return proposals.stream().filter(p -> p.key().equals(key)).findFirst();
  }

  /**
   * Learns.
   *
   * @param inForce factors accepted before
   */
  public static Learning from(List<DoneRepair> done, LearnedFactors inForce) {
    List<Proposal> proposals = new ArrayList<>();
    List<Pulled> pulled = new ArrayList<>();
    Map<Measure, Integer> compared = new EnumMap<>(Measure.class);
    Map<Measure, Map<String, Integer>> without = new EnumMap<>(Measure.class);
    for (Measure measure : Measure.values()) {
      Comparison c = Comparison.of(measure, done);
      List<Fence.Kept> kept = Fence.around(c.ratios());
      compared.put(measure, kept.size());
      without.put(measure, c.without());
      kept.stream().filter(Fence.Kept::pulled).map(k -> pulled(measure, k)).forEach(pulled::add);
      proposals.addAll(new OfMeasure(measure, kept, inForce).proposals());
    }
    return new Learning(proposals, pulled, compared, without);
  }

  private static Pulled pulled(Measure measure, Fence.Kept k) {
    Comparison.Ratio r = k.ratio();
    return new Pulled(
        measure, r.id(), r.treatment(), r.crewId(), r.on(), Math.exp(r.log()), Math.exp(k.log()));
  }

  /** One measure's records, by treatment and crew. */
  private static final class OfMeasure {
    private final Measure measure;
    private final LearnedFactors inForce;
    private final Noise noise;
    private final Map<String, Map<String, List<Fence.Kept>>> byTreatment = new LinkedHashMap<>();
    private final List<String> treatments = new ArrayList<>();
    private final List<String> crews = new ArrayList<>();

    OfMeasure(Measure measure, List<Fence.Kept> kept, LearnedFactors inForce) {
      this.measure = measure;
      this.inForce = inForce;
      noise = new Noise(kept);
      kept.stream()
          .sorted(
              Comparator.comparing(
                  (Fence.Kept k) -> k.ratio().treatment(),
                  Comparator.nullsFirst(Comparator.naturalOrder())))
          .forEach(
              k ->
                  byTreatment
                      .computeIfAbsent(String.valueOf(k.ratio().treatment()), t -> new TreeMap<>())
                      .computeIfAbsent(k.ratio().crewId(), c -> new ArrayList<>())
                      .add(k));
      treatments.addAll(byTreatment.keySet());
      byTreatment.values().stream()
          .flatMap(m -> m.keySet().stream())
          .distinct()
          .forEach(crews::add);
    }

    List<Proposal> proposals() {
      List<Pooling.Cell> cells = new ArrayList<>();
      List<List<Pooling.Term>> asked = new ArrayList<>();
      List<List<Fence.Kept>> behind = new ArrayList<>();
      List<String> whose = new ArrayList<>();
      for (String treatment : treatments) {
        int t = treatments.indexOf(treatment);
        Map<String, List<Fence.Kept>> byCrew = byTreatment.get(treatment);
        List<Fence.Kept> all = byCrew.values().stream().flatMap(List::stream).toList();
        List<Pooling.Term> agency = new ArrayList<>();
        asked.add(agency);
        behind.add(all);
        whose.add("");
        for (Map.Entry<String, List<Fence.Kept>> crew : byCrew.entrySet()) {
          int c = crews.indexOf(crew.getKey());
          int n = crew.getValue().size();
          cells.add(new Pooling.Cell(t, c, mean(crew.getValue()), noise.ofMean(treatment, n)));
          agency.add(new Pooling.Term(t, c, (double) n / all.size()));
          if (!crew.getKey().isEmpty()) {
            asked.add(List.of(new Pooling.Term(t, c, 1)));
            behind.add(crew.getValue());
            whose.add(crew.getKey());
          }
        }
      }
      List<Proposal> proposals = new ArrayList<>();
      if (cells.isEmpty()) {
        return proposals;
      }
      List<Pooling.Belief> beliefs = new Pooling(cells).of(asked);
      for (int i = 0; i < asked.size(); i++) {
        proposals.add(proposal(whose.get(i), behind.get(i), beliefs.get(i)));
      }
      return proposals;
    }

    private Proposal proposal(String crew, List<Fence.Kept> behind, Pooling.Belief mean) {
      Treatment treatment = behind.get(0).ratio().treatment();
      String name = String.valueOf(treatment);
      double lift = noise.variance(name) / 2;
      Pooling.Belief logOfMean = mean.plus(lift, noise.ofLift(name));
      return new Proposal(
          measure,
          treatment,
          crew,
          inForce.inForce(measure, treatment, crew),
          Math.exp(logOfMean.mean()),
          Math.exp(logOfMean.quantile(TAIL)),
          Math.exp(logOfMean.quantile(1 - TAIL)),
          Math.exp(mean(behind) + lift),
          behind.size(),
          behind.stream().map(k -> k.ratio().on()).min(Comparator.naturalOrder()).orElseThrow(),
          behind.stream().map(k -> k.ratio().on()).max(Comparator.naturalOrder()).orElseThrow(),
          measure != Measure.MIX || crew.isEmpty());
    }

    private static double mean(List<Fence.Kept> kept) {
      return kept.stream().mapToDouble(Fence.Kept::log).average().orElseThrow();
    }
  }
}
