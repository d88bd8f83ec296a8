package lanemend.web.sheet;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanProof;
import lanemend.crewdays.WorkWeather;
import lanemend.measure.Unit;
import lanemend.patching.RepairPart;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** The page that leads to every sheet of a plan. */
public final class SheetIndex {
  private final SheetContext context;
  private final Wording wording;

  public SheetIndex(SheetContext context) {
    this.context = context;
    this.wording = Wording.of(context.agency());
  }

  /**
   * A sheet's file name without its ending, such as {@code 2026-05-04-north}. Characters of the
   * crew's id that a file system may refuse are written as their code, so that two crews never
   * share a file.
   */
  public static String fileName(CrewDay day) {
    StringBuilder name = new StringBuilder(day.date() + "-");
    for (char c : day.crew().id().toCharArray()) {
      if (c < 128 && (Character.isLetterOrDigit(c) || c == '-')) {
        name.append(c);
      } else {
        name.append(String.format(Locale.ROOT, "_%04x", (int) c));
      }
    }
    return name.toString();
  }

  /** File name, without its ending, of the page that says how the sheet's numbers were reached. */
  public static String numbersFileName(CrewDay day) {
    return fileName(day) + "-numbers";
  }

  /** The index page: days by date and crew with links, then what was left out and why. */
  public String html(Plan plan) {
    return html(plan, Optional.empty());
  }

  /** As above, with what is proven of the plan's cost. */
  public String html(Plan plan, Optional<PlanProof> proof) {
    Xhtml page = SheetWriter.open(context.agency().name() + ": crew sheets", "");
    page.leaf("div", context.agency().name(), "class", "agency").leaf("h1", "Crew sheets");
    page.leaf("p", summary(plan));
    page.leaf(
        "p",
        "Cost is the planner's: crew, machines, trucks, mix and driving, and with them what road"
            + " users lose in delay and what repairs cost by being late.",
        "class",
        "fine");
    page.leaf("p", inTime(), "class", "fine");
    proof.ifPresent(
        p -> page.leaf("p", "Proven: " + p.words(plan.currency()) + ".", "class", "fine"));
    page.open("table", "class", "grid index").open("thead").open("tr");
    page.cells("th", "Date", "Crew", "Stops", "Repairs");
    page.cells("th", "Mix, " + wording.unitLabel(Unit.TONNE), "Trucks", "Leave", "Back", "Hours");
    page.cells("th", "In time", "Cost, " + plan.currency(), "Sheet").close().close().open("tbody");
    List<CrewDay> days =
        plan.days().stream()
            .sorted(Comparator.comparing(CrewDay::date).thenComparing(d -> d.crew().name()))
            .toList();
    days.forEach(d -> day(page, d));
    page.close().close();
    weather(page, plan);
    leftOut(page, plan);
    return page.done();
  }

  private String summary(Plan plan) {
    double tonnes = plan.days().stream().mapToDouble(CrewDay::tonnes).sum();
    long repairs = plan.days().stream().mapToLong(SheetIndex::repairs).sum();
    return plan.days().size()
        + (plan.days().size() == 1 ? " crew day, " : " crew days, ")
        + repairs
        + " repairs, "
        + wording.text(tonnes, Unit.TONNE)
        + " of mix, "
        + wording.text(plan.cost().doubleValue(), Unit.MONEY)
        + ".";
  }

  private void day(Xhtml page, CrewDay day) {
    String file = fileName(day);
    page.open("tr")
        .leaf("td", Wording.shortDate(day.date()), "class", "date")
        .leaf("td", day.crew().name());
    page.leaf("td", String.valueOf(day.stops().size()), "class", "num");
    page.leaf("td", String.valueOf(repairs(day)), "class", "num");
    page.leaf("td", wording.number(day.tonnes(), Unit.TONNE), "class", "num");
    page.leaf("td", String.valueOf(day.trucks()), "class", "num");
    page.leaf("td", wording.time(day.leaveYard()), "class", "num");
    page.leaf("td", wording.time(day.backAtYard()), "class", "num");
    page.leaf("td", wording.number(HeadPart.hours(day), Unit.HOUR), "class", "num");
    page.leaf("td", HeadPart.inTime(day, wording), "class", "num");
    page.leaf("td", cost(day), "class", "num");
    page.open("td").leaf("a", "page", "href", file + ".html").text(" ");
    page.leaf("a", "PDF", "href", file + ".pdf").text(" ");
    page.leaf("a", "numbers", "href", numbersFileName(day) + ".html").close().close();
  }

  private static long repairs(CrewDay day) {
    return day.stops().stream().mapToLong(s -> s.zone().repairs().size()).sum();
  }

  private String cost(CrewDay day) {
    return day.figures().stream()
        .filter(f -> f.name().equals(DayFigureName.COST))
        .map(f -> wording.number(f.value(), Unit.MONEY))
        .findFirst()
        .orElse("-");
  }

  private String inTime() {
    double asked = context.agency().plan().finish().probability();
    return "In time: the chance of being back inside the shift, by the spread of each step"
        + (asked > 0
            ? "; every day was asked for " + wording.text(100 * asked, Unit.PERCENT) + "."
            : "; none was asked for.");
  }

  /** Dates on which weather stops crews or hot mix, or that are kept free for lost days. */
  private void weather(Xhtml page, Plan plan) {
    List<WorkWeather.Outlook> told =
        WorkWeather.of(context.agency()).dates().stream()
            .filter(d -> d.use() != WorkWeather.Use.FULL)
            .filter(d -> context.agency().plan().workdays().contains(d.date().getDayOfWeek()))
            .toList();
    if (told.isEmpty()) {
      return;
    }
    Set<LocalDate> planned = plan.days().stream().map(CrewDay::date).collect(Collectors.toSet());
    page.leaf("h2", "Weather");
    page.leaf(
        "p", "A forecast is a forecast: the crew's own eye on the morning rules.", "class", "fine");
    page.open("table", "class", "grid").open("thead").open("tr");
    page.cells("th", "Date", "What it means").close().close().open("tbody");
    for (WorkWeather.Outlook day : told) {
      boolean again = !day.worked() && planned.contains(day.date());
      page.open("tr").leaf("td", Wording.shortDate(day.date()), "class", "date");
      page.leaf("td", day.reason() + (again ? "; crews are planned: plan again" : "")).close();
    }
    page.close().close();
  }

  private void leftOut(Xhtml page, Plan plan) {
    if (plan.leftOut().isEmpty()) {
      return;
    }
    page.leaf("h2", "Not planned: " + plan.leftOut().size());
    page.open("table", "class", "grid").open("thead").open("tr").cells("th", "Defect", "Why");
    page.close().close().open("tbody");
    for (Plan.LeftOut one : plan.leftOut()) {
      page.open("tr").cells("td", RepairPart.defectOf(one.defectId()), one.reason()).close();
    }
    page.close().close();
  }
}
