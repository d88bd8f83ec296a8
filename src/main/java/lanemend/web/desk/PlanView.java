package lanemend.web.desk;

import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeMap;
import lanemend.county.County;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Crew;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanComparison;
import lanemend.crewdays.PlanProof;
import lanemend.crewdays.WorkWeather;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.RepairPart;
import lanemend.web.page.Wording;

/**
 * The kept plan as the calendar shows it.
 *
 * @param state stands for the plan and what is settled by hand; changes name it in {@code If-Match}
 * @param today crew days before it are past
 * @param asked chance of being back inside the shift that every day was asked for, per cent
 * @param ready null, or a sentence saying what is missing for a plan
 * @param proof what is proven of the cost of the plan that is kept, also of one changed by hand;
 *     null where nothing is
 */
record PlanView(
    String state,
    long version,
    String ready,
    LocalDate firstDay,
    LocalDate lastDay,
    LocalDate today,
    String currency,
    double asked,
    Totals totals,
    Proof proof,
    List<CrewView> crews,
    List<Date> dates,
    List<Day> days,
    List<LeftOut> leftOut,
    List<Rule> rules) {

  /** What a plan comes to, as read. */
  record Totals(
      int crewDays, int zones, int repairs, int leftOut, String mix, String driven, String cost) {
    static Totals of(PlanComparison.Totals t, Wording words) {
      return new Totals(
          t.crewDays(),
          t.zones(),
          t.repairs(),
          t.leftOut(),
          words.text(t.tonnes(), Unit.TONNE),
          words.text(1000 * t.driveKm(), Unit.ROAD_METER),
          money(t.cost().doubleValue(), words));
    }
  }

  /** How far the plan's cost is at most from the cheapest, in words and as a figure. */
  record Proof(String said, Trace gap) {
    static Proof of(PlanProof p, Agency agency) {
      return new Proof(
          p.words(agency.plan().currency()),
          Trace.of(
              new Figure(
                  "proven gap of the plan's cost",
                  100 * p.gap(),
                  Unit.PERCENT,
                  "(cost - bound) / cost",
                  List.of(
                      new Figure.Input("cost of the plan", p.cost(), Unit.MONEY),
                      new Figure.Input(
                          "of it a price on what is left out", p.leftOutPrice(), Unit.MONEY),
                      new Figure.Input(
                          "no plan of these zones costs less than", p.bound(), Unit.MONEY),
                      new Figure.Input("rounds of the bound", p.rounds(), Unit.COUNT)),
                  "Lagrangian bound over crew days; docs/method.md"),
              agency.units()));
    }
  }

  /** A crew. */
  record CrewView(String id, String name, String shift, int shiftMinutes) {
    static CrewView of(Crew crew, Wording words) {
      return new CrewView(
          crew.id(),
          crew.name(),
          words.time(crew.shiftStart())
              + " to "
              + words.time(crew.shiftStart().plusMinutes(crew.shiftMinutes())),
          crew.shiftMinutes());
    }
  }

  /**
   * A date of the calendar.
   *
   * @param use {@code full}, {@code no_hot_mix}, {@code kept_free}, {@code lost}, or {@code off}
   *     where the agency does not work
   * @param why in words, or empty
   * @param off crews that do not work although the agency does, with why
   */
  record Date(LocalDate date, String weekday, String use, String why, List<Off> off) {}

  /** A crew's day off. */
  record Off(String crew, String why) {}

  /**
   * A crew day in short.
   *
   * @param finish chance of being back inside the shift, per cent; null when no figure says so
   * @param minutesUsed from the start of the shift until back at the yard
   * @param locked why it is locked, or null
   */
  record Day(
      LocalDate date,
      String crew,
      int stops,
      int repairs,
      String mix,
      double tonnes,
      int trucks,
      Double finish,
      long minutesUsed,
      int shiftMinutes,
      String leave,
      String back,
      String cost,
      String locked) {

    static Day of(CrewDay d, County county, Wording words) {
      return new Day(
          d.date(),
          d.crew().id(),
          d.stops().size(),
          d.stops().stream().mapToInt(s -> s.zone().repairs().size()).sum(),
          words.text(d.tonnes(), Unit.TONNE),
          d.tonnes(),
          d.trucks(),
          d.finishProbability().isPresent()
              ? Math.rint(1000 * d.finishProbability().getAsDouble()) / 10
              : null,
          Math.round(60 * figure(d, DayFigureName.HOURS)),
          d.crew().shiftMinutes(),
          words.time(d.leaveYard()),
          words.time(d.backAtYard()),
          money(figure(d, DayFigureName.COST), words),
          county.handRules().locked(d.crew().id(), d.date()).map(HandRule::reason).orElse(null));
    }

    private static double figure(CrewDay d, String name) {
      return d.figures().stream()
          .filter(f -> f.name().equals(name))
          .mapToDouble(f -> f.value())
          .findFirst()
          .orElse(0);
    }
  }

  /** A repair that is on no crew day. */
  record LeftOut(
      String id, String label, String defect, String place, String severity, String why) {}

  /** Something settled by hand. */
  record Rule(
      String kind, String defect, String crew, LocalDate date, String words, String reason) {
    static Rule of(HandRule r) {
      return new Rule(
          DeskWords.code(r.kind()), r.defectId(), r.crewId(), r.date(), r.words(), r.reason());
    }
  }

  /** The plan of a county whose agency is known; without days where nothing is planned yet. */
  static PlanView of(
      County county, LocalDate today, String ready, String state, Optional<PlanProof> proof) {
    Agency agency = county.agency();
    Wording words = Wording.of(agency);
    Plan plan = ready == null ? county.plan() : null;
    List<Day> days =
        plan == null ? List.of() : plan.days().stream().map(d -> Day.of(d, county, words)).toList();
    LocalDate first = agency.plan().firstDay();
    return new PlanView(
        state,
        county.lastChange(),
        ready,
        first,
        first.plusDays(agency.plan().calendarDays() - 1L),
        today,
        agency.plan().currency(),
        100 * agency.plan().finish().probability(),
        plan == null ? null : Totals.of(PlanComparison.Totals.of(plan), words),
        proof.filter(p -> plan != null).map(p -> Proof.of(p, agency)).orElse(null),
        agency.crews().stream().map(c -> CrewView.of(c, words)).toList(),
        dates(county, agency, days),
        days,
        plan == null ? List.of() : leftOut(plan, county),
        county.handRules().all().stream().map(Rule::of).toList());
  }

  private static List<Date> dates(County county, Agency agency, List<Day> days) {
    WorkWeather weather = WorkWeather.of(agency);
    TreeMap<LocalDate, WorkWeather.Outlook> all = new TreeMap<>();
    weather.dates().forEach(d -> all.put(d.date(), d));
    days.forEach(d -> all.computeIfAbsent(d.date(), weather::on));
    List<Date> dates = new ArrayList<>();
    for (WorkWeather.Outlook sky : all.values()) {
      LocalDate date = sky.date();
      boolean weekend = !agency.plan().workdays().contains(date.getDayOfWeek());
      boolean closed = agency.plan().blackout().contains(date);
      String why = weekend ? "not a workday" : closed ? "the agency does not work" : sky.reason();
      List<Off> off = new ArrayList<>();
      for (Crew crew : agency.crews()) {
        if (!weekend && !closed && crew.daysOff().contains(date)) {
          off.add(
              new Off(
                  crew.id(),
                  county
                      .handRules()
                      .closed(crew.id(), date)
                      .map(HandRule::reason)
                      .orElse("day off")));
        }
      }
      dates.add(
          new Date(
              date,
              date.getDayOfWeek().getDisplayName(TextStyle.SHORT, Locale.US),
              weekend || closed ? "off" : DeskWords.code(sky.use()),
              why,
              off));
    }
    return dates;
  }

  static List<LeftOut> leftOut(Plan plan, County county) {
    TreeMap<String, Defect> byId = new TreeMap<>();
    county.defects().forEach(d -> byId.put(d.id(), d));
    List<LeftOut> rows = new ArrayList<>();
    for (Plan.LeftOut one : plan.leftOut()) {
      String id = RepairPart.defectOf(one.defectId());
      Optional<Defect> defect = Optional.ofNullable(byId.get(id));
      rows.add(
          new LeftOut(
              one.defectId(),
              RepairPart.label(one.defectId()),
              id,
              defect.map(d -> place(county, d)).orElse(""),
              defect.map(d -> DeskWords.code(d.severity())).orElse("low"),
              one.reason()));
    }
    return rows;
  }

  /** Whole units of money: a plan's cost is an estimate. */
  private static String money(double amount, Wording words) {
    return String.format(Locale.US, "%,.0f %s", amount, words.currency());
  }

  /** Route and milepost of a defect. */
  static String place(County county, Defect d) {
    return d.place().routeId()
        + " "
        + milepost(county, d.place().routeId(), d.place().fromAlongM());
  }

  static String milepost(County county, String routeId, double alongM) {
    return county.network().route(routeId).map(r -> r.mileposts().at(alongM).text()).orElse("");
  }
}
