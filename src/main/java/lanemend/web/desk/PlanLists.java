package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;
import lanemend.county.County;
import lanemend.crewdays.Plan;
import lanemend.inventory.Severity;

/** Lists of the plan, chosen and sorted as a request asks; files and pages have the same rows. */
final class PlanLists {
  private PlanLists() {}

  /** A reason with how many repairs are left out for it. */
  record Reason(String why, int repairs) {}

  /**
   * Rows from {@code from}, of {@code total} that are chosen.
   *
   * @param reasons of all that is left out, the commonest first
   */
  record LeftOutRows(int total, int from, List<Reason> reasons, List<PlanView.LeftOut> rows) {}

  static LeftOutRows leftOutRows(County now, Context c) {
    if (now.assignment().days().isEmpty()) {
      return new LeftOutRows(0, 0, List.of(), List.of());
    }
    List<PlanView.LeftOut> all = PlanView.leftOut(now.plan(), now);
    TreeMap<String, Integer> counts = new TreeMap<>();
    all.forEach(r -> counts.merge(r.why(), 1, Integer::sum));
    List<PlanView.LeftOut> rows = new ArrayList<>(chosen(all, c));
    String sort = c.queryParam("sort");
    if (sort != null && !sort.isBlank()) {
      rows.sort(order(sort));
    }
    Slice<PlanView.LeftOut> shown = Slice.of(c, rows, 500);
    return new LeftOutRows(
        rows.size(),
        shown.from(),
        counts.entrySet().stream()
            .map(e -> new Reason(e.getKey(), e.getValue()))
            .sorted(Comparator.comparingInt(Reason::repairs).reversed())
            .toList(),
        shown.rows());
  }

  /** The plan with only the chosen ones among what is left out. */
  static Plan leftOut(County now, Context c) {
    Set<String> chosen = new HashSet<>();
    chosen(PlanView.leftOut(now.plan(), now), c).forEach(r -> chosen.add(r.id()));
    Plan plan = now.plan();
    return new Plan(
        plan.days(),
        plan.leftOut().stream().filter(l -> chosen.contains(l.defectId())).toList(),
        plan.cost(),
        plan.currency());
  }

  private static List<PlanView.LeftOut> chosen(List<PlanView.LeftOut> all, Context c) {
    String why = c.queryParam("why");
    String severity = c.queryParam("severity");
    String words = c.queryParam("words");
    return all.stream()
        .filter(r -> why == null || why.isBlank() || r.why().equals(why))
        .filter(r -> severity == null || severity.isBlank() || r.severity().equals(severity))
        .filter(r -> words == null || says(r, words))
        .toList();
  }

  private static boolean says(PlanView.LeftOut r, String words) {
    return (r.label() + " " + r.place() + " " + r.severity() + " " + r.why())
        .toLowerCase(Locale.ROOT)
        .contains(words.strip().toLowerCase(Locale.ROOT));
  }

  private static Comparator<PlanView.LeftOut> order(String sort) {
    boolean down = sort.startsWith("-");
    Comparator<PlanView.LeftOut> by =
        switch (down ? sort.substring(1) : sort) {
          case "label" -> Comparator.comparing(PlanView.LeftOut::label);
          case "place" -> Comparator.comparing(PlanView.LeftOut::place);
          case "severity" ->
              Comparator.comparing(r -> Severity.valueOf(r.severity().toUpperCase(Locale.ROOT)));
          case "why" -> Comparator.comparing(PlanView.LeftOut::why);
          default ->
              throw new Problem(
                  Problem.Kind.BAD_REQUEST,
                  "'"
                      + sort
                      + "' is no column to sort by; there are label, place, severity and why");
        };
    return (down ? by.reversed() : by).thenComparing(PlanView.LeftOut::label);
  }

  /** The plan with only the days of a crew and from a date on, where these are asked for. */
  static Plan days(Plan plan, Context c) {
    String crew = c.queryParam("crew");
    String from = c.queryParam("from");
    LocalDate first = from == null || from.isBlank() ? LocalDate.MIN : date(from);
    return new Plan(
        plan.days().stream()
            .filter(d -> crew == null || crew.isBlank() || d.crew().id().equals(crew))
            .filter(d -> !d.date().isBefore(first))
            .toList(),
        plan.leftOut(),
        plan.cost(),
        plan.currency());
  }

  private static LocalDate date(String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeParseException e) {
      throw new Problem(
          Problem.Kind.BAD_REQUEST, "'from' is '" + text + "', expected a date as 2026-05-04");
    }
  }
}
