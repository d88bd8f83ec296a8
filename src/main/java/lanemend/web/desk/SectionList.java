package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import lanemend.county.CountyRenewal;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.SectionCondition;

/** Proposed sections chosen and sorted as a request asks. */
final class SectionList {
  /** Rows from {@code from}, of {@code total} that are chosen. */
  record Rows(int total, int from, List<SectionView> rows) {}

  private final CountyRenewal study;

  SectionList(CountyRenewal study) {
    this.study = study;
  }

  Rows rows(Context c) {
    List<ProposedSection> chosen = new ArrayList<>(chosen(c));
    String sort = c.queryParam("sort");
    if (sort != null && !sort.isBlank()) {
      chosen.sort(order(sort));
    }
    Slice<ProposedSection> shown = Slice.of(c, chosen, 500);
    return new Rows(
        chosen.size(),
        shown.from(),
        shown.rows().stream().map(s -> SectionView.of(s, study)).toList());
  }

  /** By road, by what became of it, and by any words of its line. */
  List<ProposedSection> chosen(Context c) {
    String route = c.queryParam("route");
    String state = c.queryParam("state");
    String words = c.queryParam("words");
    SectionState wanted =
        state == null || state.isBlank()
            ? null
            : DeskWords.read(SectionState.class, "state", state);
    return study.proposal().all().stream()
        .filter(s -> route == null || route.isBlank() || s.cluster().routeId().equals(route))
        .filter(s -> wanted == null || SectionState.of(s.decision()) == wanted)
        .filter(s -> words == null || says(s, words))
        .toList();
  }

  private static boolean says(ProposedSection s, String words) {
    String line =
        (s.id()
                + " "
                + SectionState.words(s.decision())
                + " "
                + s.decision().map(d -> d.decision().by() + " " + d.decision().reason()).orElse(""))
            .toLowerCase(Locale.ROOT);
    return line.contains(words.strip().toLowerCase(Locale.ROOT));
  }

  private Comparator<ProposedSection> order(String sort) {
    boolean down = sort.startsWith("-");
    String column = down ? sort.substring(1) : sort;
    Comparator<ProposedSection> place =
        Comparator.comparing((ProposedSection s) -> s.cluster().routeId())
            .thenComparingDouble(ProposedSection::fromAlongM);
    Comparator<ProposedSection> by =
        switch (column) {
          case "place" -> place;
          case "length" -> number(s -> s.toAlongM() - s.fromAlongM());
          case "flag" -> number(s -> s.cluster().repairs() / s.cluster().expected());
          case "chance" -> number(s -> s.cluster().tested() ? s.cluster().pValue() : 2);
          case "next" ->
              number(s -> s.forecast().horizons().get(SectionView.YEARS - 1).repairs().mean());
          case "overlay" ->
              number(
                  s ->
                      s.overlay()
                          .design()
                          .flatMap(OverlayDesign::chosen)
                          .map(o -> o.thickness().value())
                          .orElse(Double.NaN));
          case "cost" -> costing(c -> c.overlayCost().value());
          case "crossover" -> costing(c -> crossover(c.lifeCycle()));
          case "condition" ->
              number(
                  s ->
                      s.overlay()
                          .condition()
                          .flatMap(SectionCondition::index)
                          .map(f -> f.value())
                          .orElse(Double.NaN));
          case "program" -> Comparator.comparing(s -> SectionView.program(s, study.proposal()));
          case "state" -> Comparator.comparing(s -> SectionState.words(s.decision()));
          default ->
              throw new Problem(
                  Problem.Kind.BAD_REQUEST,
                  "'"
                      + column
                      + "' is no column to sort by; there are place, length, flag, chance, next,"
                      + " overlay, cost, crossover, condition, program and state");
        };
    return (down ? by.reversed() : by).thenComparing(place);
  }

  /** Ties of the year go by the chance of it, the surest first. */
  private static double crossover(LifeCycle life) {
    int n = life.crossoverChance().length;
    return life.crossoverYear() == LifeCycle.NEVER
        ? n + 2 - life.crossoverChance()[n - 1]
        : life.crossoverYear() + 1 - life.crossoverChance()[life.crossoverYear() - 1];
  }

  private static Comparator<ProposedSection> number(ToDoubleFunction<ProposedSection> value) {
    return Comparator.comparingDouble(value);
  }

  private static Comparator<ProposedSection> costing(ToDoubleFunction<OverlayCase.Costing> value) {
    return number(s -> s.overlay().costing().map(value::applyAsDouble).orElse(Double.NaN));
  }
}
