package lanemend.renewal.overlay;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Predicate;
import lanemend.inventory.DistressKind;
import lanemend.inventory.Severity;
import lanemend.inventory.SurveyedDistress;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.overlay.ConditionIndex.Curves;
import lanemend.renewal.overlay.ConditionIndex.Distress;
import lanemend.renewal.overlay.ConditionIndex.Observed;

/**
 * The condition of a section by the sample units of its latest survey.
 *
 * @param areaM2 of the section
 * @param index of the section; empty where a curve is missing
 * @param wanted sample units for an index within 5 points at 95 %, and how many the section has
 * @param left sample units of earlier surveys or of an earlier surface, which do not count
 * @param missing curves, each once
 */
public record SectionCondition(
    List<Sample> samples,
    double areaM2,
    Optional<Figure> index,
    Wanted wanted,
    int left,
    List<String> missing,
    String source) {

  /** Samples this much older than the section's newest belong to an earlier survey. */
  private static final int ONE_SURVEY_DAYS = 365;

  /** Spread of the index among samples that the standard takes at first for asphalt. */
  private static final double SPREAD = 10;

  private static final double ERROR = 5;

  /** One sample unit. */
  public record Sample(
      String name,
      SurveyedDistress.Unit unit,
      List<SurveyedDistress> found,
      ConditionIndex.Result result) {
    public Sample {
      found = List.copyOf(found);
    }
  }

  /** How many samples to survey of how many. */
  public record Wanted(int samples, int of) {}

  public SectionCondition {
    samples = List.copyOf(samples);
    missing = List.copyOf(missing);
  }

  /**
   * The condition of a section.
   *
   * @param survey rows whose sample has its middle on the section
   * @param ofThisSurface false for a sample that was walked before its surface was laid
   * @return empty when no survey of this surface was made
   */
  public static Optional<SectionCondition> of(
      List<SurveyedDistress> survey,
      double areaM2,
      Predicate<SurveyedDistress.Unit> ofThisSurface,
      Curves curves) {
    Map<String, List<SurveyedDistress>> visits = new LinkedHashMap<>();
    for (SurveyedDistress d : survey) {
      visits
          .computeIfAbsent(d.unit().surveyedOn() + " " + d.sample(), v -> new ArrayList<>())
          .add(d);
    }
    Optional<LocalDate> newest =
        survey.stream().map(d -> d.unit().surveyedOn()).max(LocalDate::compareTo);
    if (newest.isEmpty()) {
      return Optional.empty();
    }
    LocalDate oldest = newest.get().minusDays(ONE_SURVEY_DAYS);
    Map<String, Sample> samples = new LinkedHashMap<>();
    visits.values().stream()
        .filter(v -> v.get(0).unit().surveyedOn().isAfter(oldest))
        .filter(v -> ofThisSurface.test(v.get(0).unit()))
        .sorted((a, b) -> a.get(0).unit().surveyedOn().compareTo(b.get(0).unit().surveyedOn()))
        .forEach(v -> samples.put(v.get(0).sample(), sample(v, curves)));
    if (samples.isEmpty()) {
      return Optional.empty();
    }
    TreeSet<String> missing = new TreeSet<>();
    samples.values().forEach(s -> missing.addAll(s.result().missing()));
    List<Sample> all =
        samples.values().stream()
            .sorted((a, b) -> Double.compare(a.unit().fromAlongM(), b.unit().fromAlongM()))
            .toList();
    return Optional.of(
        new SectionCondition(
            all,
            areaM2,
            missing.isEmpty() ? Optional.of(index(all, areaM2, curves)) : Optional.empty(),
            wanted(all, areaM2),
            visits.size() - all.size(),
            List.copyOf(missing),
            curves.source()));
  }

  private static Sample sample(List<SurveyedDistress> visit, Curves curves) {
    SurveyedDistress.Unit unit = visit.get(0).unit();
    List<Observed> observed =
        visit.stream()
            .filter(d -> d.kind() != DistressKind.NONE)
            .map(
                d ->
                    new Observed(
                        new Distress(d.kind(), d.severity()),
                        ConditionIndex.density(
                            d.kind(), d.quantity(), unit.areaM2(), curves.inFeet())))
            .toList();
    return new Sample(visit.get(0).sample(), unit, visit, ConditionIndex.of(observed, curves));
  }

  /**
   * Samples at random stand for all of the section that no additional sample covers; additional
   * ones stand for themselves.
   */
  private static Figure index(List<Sample> samples, double areaM2, Curves curves) {
    double random = 0;
    double randomM2 = 0;
    double additional = 0;
    double additionalM2 = 0;
    for (Sample s : samples) {
      double pci = s.result().index().orElseThrow();
      if (s.unit().additional()) {
        additional += pci * s.unit().areaM2();
        additionalM2 += s.unit().areaM2();
      } else {
        random += pci * s.unit().areaM2();
        randomM2 += s.unit().areaM2();
      }
    }
    double rest = Math.max(0, areaM2 - additionalM2);
    boolean both = randomM2 > 0 && rest > 0;
    double value =
        randomM2 == 0
            ? additional / additionalM2
            : both
                ? (random / randomM2 * rest + additional) / (rest + additionalM2)
                : (random + additional) / (randomM2 + additionalM2);
    List<Figure.Input> inputs = new ArrayList<>();
    for (Sample s : samples) {
      inputs.add(
          new Figure.Input(
              "index of " + s.name() + (s.unit().additional() ? ", additional" : ""),
              s.result().index().orElseThrow(),
              Unit.RATIO));
      inputs.add(new Figure.Input("area of " + s.name(), s.unit().areaM2(), Unit.SQUARE_METER));
    }
    inputs.add(new Figure.Input("section", areaM2, Unit.SQUARE_METER));
    return new Figure(
        "condition index",
        value,
        Unit.RATIO,
        "mean of samples at random by area, for what no additional sample covers; additional"
            + " samples for their own area",
        inputs,
        "ASTM D6433 (section's mean from memory; sample's steps read in theses that restate them);"
            + " curves: "
            + curves.source());
  }

  /** {@code n = N s2 / (e2 / 4 (N - 1) + s2)}, up to the whole (D6433 equation 1, read). */
  private static Wanted wanted(List<Sample> samples, double areaM2) {
    double mean = samples.stream().mapToDouble(s -> s.unit().areaM2()).average().orElseThrow();
    double all = Math.max(samples.size(), Math.rint(areaM2 / mean));
    double s2 = SPREAD * SPREAD;
    double n = all * s2 / (ERROR * ERROR / 4 * (all - 1) + s2);
    return new Wanted((int) Math.ceil(n - 1e-9), (int) all);
  }

  /** First and last day of the survey. */
  public LocalDate[] days() {
    TreeSet<LocalDate> days = new TreeSet<>();
    samples.forEach(s -> days.add(s.unit().surveyedOn()));
    return new LocalDate[] {days.first(), days.last()};
  }

  /** Percent of the section's area that was walked. */
  public double coveredPercent() {
    double m2 = samples.stream().mapToDouble(s -> s.unit().areaM2()).sum();
    return Math.min(100, 100 * m2 / areaM2);
  }

  /**
   * Cracking as the samples show it, for the layer table. The standard measures longitudinal and
   * transverse cracks together and by length: all count as transverse, a foot wide.
   */
  public CrackSurvey cracks() {
    return new CrackSurvey(
        percent(DistressKind.ALLIGATOR_CRACKING, Severity.LOW),
        percent(DistressKind.ALLIGATOR_CRACKING, Severity.MEDIUM),
        percent(DistressKind.ALLIGATOR_CRACKING, Severity.HIGH),
        percent(DistressKind.LONGITUDINAL_TRANSVERSE_CRACKING, Severity.MEDIUM)
            + percent(DistressKind.LONGITUDINAL_TRANSVERSE_CRACKING, Severity.HIGH),
        percent(DistressKind.LONGITUDINAL_TRANSVERSE_CRACKING, Severity.HIGH),
        false);
  }

  private double percent(DistressKind kind, Severity severity) {
    double sum = 0;
    double m2 = 0;
    for (Sample s : samples) {
      m2 += s.unit().areaM2();
      for (SurveyedDistress d : s.found()) {
        if (d.kind() == kind && d.severity() == severity) {
          sum += ConditionIndex.density(kind, d.quantity(), 1, true);
        }
      }
    }
    return sum / m2;
  }
}
