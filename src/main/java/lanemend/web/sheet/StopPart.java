package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.ZoneSide;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.network.CalibrationPost;
import lanemend.network.MilepostMap;
import lanemend.patching.FigureName;
import lanemend.patching.LayDownPlan;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.WorkStep;
import lanemend.patching.traffic.SituationChoice;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** One stop: where, the strip, each repair, how it is laid, traffic control, cautions. */
final class StopPart {
  private final Xhtml page;
  private final SheetContext context;
  private final Wording wording;
  private final Whereabouts where;
  private final CrewDay.Stop stop;
  private final WorkZone zone;
  private final int number;
  private final List<Approach> approaches;

  StopPart(Xhtml page, CrewDay.Stop stop, int number, SheetContext context) {
    this.page = page;
    this.context = context;
    this.wording = Wording.of(context.agency());
    this.where = Whereabouts.of(context);
    this.stop = stop;
    this.zone = stop.zone();
    this.number = number;
    this.approaches = Approach.of(zone, where.milepostsGrow(zone));
  }

  void write(Set<String> saidBefore) {
    page.open("div", "class", "stop-head");
    heading();
    int before = 0;
    for (WorkZone phase : zone.phases()) {
      ZoneStrip.draw(page, phase, number, before, approaches, context);
      before += phase.repairs().size();
    }
    page.leaf("p", caption(), "class", "fine");
    page.close();
    bothSides();
    repairs();
    layDowns();
    trafficControl();
    assumed();
    cautions(saidBefore);
  }

  private void heading() {
    page.open("table", "class", "bar").open("tr");
    page.leaf("td", String.valueOf(number), "class", "big");
    page.open("td");
    page.leaf(
        "h2",
        zone.routeId()
            + ", milepost "
            + where.mileposts(zone.routeId(), zone.fromAlongM(), zone.toAlongM()));
    String setUp = wording.text(zone.traffic().setUpMinutes(), Unit.MINUTE);
    String takeDown = wording.text(zone.traffic().takeDownMinutes(), Unit.MINUTE);
    page.leaf(
        "div",
        Wording.capital(where.side(zone))
            + ". "
            + wording.text(zone.lengthM(), Unit.METER)
            + " long.");
    page.leaf(
        "div",
        "Set up "
            + setUp
            + ", take down "
            + takeDown
            + ", cone to cone "
            + wording.text(zone.workMinutes(), Unit.MINUTE)
            + ". Due "
            + Wording.dayOfYear(zone.dueOn())
            + ".");
    page.leaf("div", posts());
    page.close();
    page.open("td", "class", "right");
    page.leaf(
        "div",
        wording.time(stop.arrive()) + " to " + wording.time(stop.depart()),
        "class",
        "times");
    page.leaf("div", wording.text(stop.driveMinutes(), Unit.MINUTE) + " drive to here");
    if (stop.firstLoadLeavesPlant() != null) {
      page.leaf("div", "first load leaves plant " + wording.time(stop.firstLoadLeavesPlant()));
    }
    page.close().close().close();
  }

  /** What a drawing is of: the stop, or its second side. */
  static String title(int stop, int before) {
    return "stop " + stop + (before > 0 ? ", the other side" : "");
  }

  /** Which side comes first, the turning over as a step of its own, then the other side. */
  private void bothSides() {
    if (zone.side() != ZoneSide.BOTH) {
      return;
    }
    List<WorkZone> phases = zone.phases();
    int first = phases.get(0).repairs().size();
    page.open("div", "class", "keep");
    page.leaf("h3", "Both sides under one set-up");
    page.open("ol", "class", "sides");
    page.leaf("li", side(phases.get(0), 0, "First") + " Its lane is closed as set up.");
    page.open("li").leaf("b", "Turn the closure over").text(turnOver()).close();
    page.leaf("li", side(phases.get(1), first, "Then") + " Take down after it.");
    page.close().close();
  }

  private String side(WorkZone phase, int before, String when) {
    int last = before + phase.repairs().size() - 1;
    String ids = Wording.repairId(number, before);
    if (last > before) {
      ids += " to " + Wording.repairId(number, last);
    }
    return when + " the " + where.side(phase) + ": " + ids + ".";
  }

  private String turnOver() {
    String minutes = wording.text(zone.traffic().turnOverMinutes(), Unit.MINUTE);
    return ", "
        + minutes
        + ": hold traffic at both ends, see that the closure is empty, move taper, buffer and"
        + " devices to the other lane, then crew and machines; let traffic go by turns again when"
        + " the last device stands. Signs and the people or signals at the ends stay where they"
        + " are. See the cautions; the agency and local rules decide whether it may be done.";
  }

  /** The posts a driver passes just before and after, or that there are none. */
  private String posts() {
    MilepostMap mileposts = where.route(zone.routeId()).mileposts();
    if (!mileposts.calibrated()) {
      return "No posts on this route: mileposts are miles from its start.";
    }
    List<String> texts = new ArrayList<>();
    mileposts.posts().stream()
        .filter(p -> p.alongM() <= zone.fromAlongM())
        .reduce((a, b) -> b)
        .ifPresent(p -> texts.add(post(p, zone.fromAlongM() - p.alongM(), "before")));
    mileposts.posts().stream()
        .filter(p -> p.alongM() >= zone.toAlongM())
        .findFirst()
        .ifPresent(p -> texts.add(post(p, p.alongM() - zone.toAlongM(), "past")));
    return texts.isEmpty() ? "" : "Post " + String.join(", post ", texts) + ".";
  }

  private String post(CalibrationPost post, double awayM, String which) {
    double miles = which.equals("before") ? post.aheadMiles() : post.backMiles();
    String number = ZoneStrip.shortMiles(miles);
    return number + " is " + wording.text(awayM, Unit.ROAD_METER) + " " + which + " the zone";
  }

  private String caption() {
    String unit = wording.unitLabel(Unit.METER);
    String heading = where.heading(zone);
    return "Milepost strip"
        + (heading.isEmpty() ? "" : ", " + heading + " is to the right")
        + ". To scale along the road between the double strokes; lanes, tapers and signs outside"
        + " them are a scheme, distances in "
        + unit
        + ". Severity: solid H high, hatched M medium, outlined L low. Numbered diamonds: signs of"
        + " the list below.";
  }

  private void repairs() {
    page.open("table", "class", "grid repairs").open("thead").open("tr");
    page.cells("th", "Repair", "Milepost, lane", "Defect and size", "Treatment");
    for (String number :
        new String[] {
          "Mix, " + wording.unitLabel(Unit.TONNE),
          "Tack, " + wording.unitLabel(Unit.LITER),
          "Lifts",
          "Passes",
          "Minutes"
        }) {
      page.leaf("th", number, "class", "num");
    }
    page.close().close();
    List<PatchDesign> repairs = zone.repairs();
    for (int i = 0; i < repairs.size(); i++) {
      page.open("tbody");
      repair(repairs.get(i), Wording.repairId(number, i));
      page.close();
    }
    page.close();
  }

  private void repair(PatchDesign repair, String id) {
    Defect defect = repair.defect();
    page.open("tr");
    page.open("td", "class", "id")
        .leaf("b", id)
        .empty("br")
        .leaf("span", RepairPart.label(defect.id()), "class", "fine")
        .close();
    page.open("td").text(where.mileposts(defect.place())).empty("br");
    page.text("lane " + defect.lane().code()).close();
    page.open("td").text(Wording.capital(Wording.words(defect.kind())) + ", ");
    page.leaf("b", Wording.words(defect.severity())).empty("br").text(size(defect)).close();
    page.open("td").leaf("b", Wording.capital(Wording.words(repair.choice().treatment())));
    page.close();
    figure(repair, FigureName.MIX, "num");
    figure(repair, FigureName.TACK, "num");
    figure(repair, FigureName.LIFTS, "num");
    figure(repair, FigureName.PASSES, "num");
    page.leaf("td", wording.number(repair.minutes(), Unit.MINUTE), "class", "num");
    page.close();
    page.open("tr", "class", "why").leaf("td", "").open("td", "colspan", "8");
    page.leaf("span", "Why: ", "class", "name")
        .text(Wording.sentence(repair.choice().reason()) + " ");
    page.leaf("span", "Steps: ", "class", "name").text(steps(repair));
    if (!defect.note().isBlank()) {
      page.empty("br").leaf("span", "Patrol's note: ", "class", "name").text(defect.note());
    }
    page.close().close();
  }

  private void figure(PatchDesign repair, String name, String cssClass) {
    String text =
        repair
            .figure(name)
            .filter(f -> f.value() != 0)
            .map(f -> wording.number(f.value(), f.unit()))
            .orElse("-");
    page.leaf("td", text, "class", cssClass);
  }

  private String size(Defect defect) {
    String size = wording.size(defect.lengthM()) + " x " + wording.size(defect.widthM());
    return defect.depthM() > 0
        ? size + ", " + wording.text(defect.depthM(), Unit.THICKNESS_METER) + " deep"
        : size;
  }

  private String steps(PatchDesign repair) {
    List<String> texts = new ArrayList<>();
    double variance = 0;
    for (WorkStep step : repair.steps()) {
      texts.add(step.name() + "\u00a0" + wording.number(step.minutes().value(), Unit.MINUTE));
      variance += step.spreadMinutes() * step.spreadMinutes();
    }
    return String.join(", ", texts)
        + String.format(Locale.ROOT, " min; give or take %.0f min in all.", Math.sqrt(variance));
  }

  /** Each lay-down plan once, headed by the repairs it holds for. */
  private void layDowns() {
    Map<LayDownPlan, List<String>> plans = new LinkedHashMap<>();
    for (int i = 0; i < zone.repairs().size(); i++) {
      String id = Wording.repairId(number, i);
      zone.repairs()
          .get(i)
          .layDown()
          .ifPresent(plan -> plans.computeIfAbsent(plan, p -> new ArrayList<>()).add(id));
    }
    plans.forEach(
        (plan, ids) -> {
          page.open("div", "class", "laydown");
          page.leaf("h3", "Laying " + String.join(", ", ids));
          page.open("ol");
          plan.instructions().forEach(line -> page.leaf("li", Wording.typeset(line)));
          page.close();
          figureLine(plan.figures());
          page.close();
        });
  }

  /** Figures run on in one paragraph, each kept whole: name in plain, value in bold. */
  private void figureLine(List<Figure> figures) {
    page.open("p", "class", "figures");
    for (Figure figure : figures) {
      page.open("span", "class", "figure").text(Wording.capital(figure.name()) + "\u00a0");
      page.leaf("b", wording.text(figure)).close().text(" ");
    }
    page.close();
  }

  private void trafficControl() {
    TrafficPlan plan = zone.traffic();
    page.open("div", "class", "keep");
    page.leaf(
        "h3", "Traffic control: " + plan.choice().situation().code() + ", " + plan.situation());
    page.leaf("p", DayTotals.REVIEW, "class", "review");
    whyThis(plan.choice());
    if (!plan.layout().stretches().isEmpty()) {
      int before = 0;
      for (WorkZone phase : zone.phases()) {
        TrafficStrip.draw(page, phase, title(number, before), approaches, context);
        before += phase.repairs().size();
      }
      page.leaf("p", stripCaption(plan), "class", "fine");
    }
    page.open("table", "class", "columns traffic").open("tr");
    for (Approach approach : approaches) {
      page.open("td").leaf("div", Wording.capital(approach.name()), "class", "name");
      page.open("table", "class", "needs").open("tbody");
      for (Approach.Sign sign : approach.signs()) {
        page.open("tr").leaf("td", String.valueOf(sign.number()), "class", "count");
        page.leaf("td", sign.sign().text() + (sign.boards() > 1 ? ", both edges" : ""));
        page.leaf("td", distance(sign), "class", "num").close();
      }
      page.close().close().close();
    }
    page.open("td", "class", "devices").leaf("div", "Devices here", "class", "name");
    page.open("table", "class", "needs").open("tbody");
    for (TrafficPlan.DeviceCount device : plan.devices()) {
      page.open("tr").leaf("td", String.valueOf(device.count()), "class", "count");
      page.leaf("td", device.device()).close();
    }
    if (plan.flaggers() > 0) {
      page.open("tr").leaf("td", String.valueOf(plan.flaggers()), "class", "count");
      page.leaf("td", "flaggers").close();
    }
    page.close().close().close();
    page.close().close();
    page.leaf(
        "p",
        "Signs in the order a driver meets them, each so far ahead of the start of the"
            + " restriction, or past it.",
        "class",
        "fine");
    SideRoadPart.write(page, zone, context);
    figureLine(plan.figures());
    page.close();
  }

  private void whyThis(SituationChoice choice) {
    page.open("p", "class", "fine");
    page.leaf("span", "Why: ", "class", "name");
    page.text(Wording.sentence(choice.reason()) + " " + choice.source() + ".");
    if (!choice.others().isEmpty()) {
      page.text(" ").leaf("span", "May also apply: ", "class", "name");
      List<String> others = new ArrayList<>();
      for (SituationChoice.Other other : choice.others()) {
        others.add(
            other.situation().code() + " " + other.situation().words() + ", " + other.when());
      }
      page.text(String.join("; ", others) + ".");
    }
    page.close();
  }

  private static String stripCaption(TrafficPlan plan) {
    List<String> letters =
        plan.layout().stations().stream()
            .map(s -> TrafficStrip.letter(s.kind()) + " " + s.kind().words())
            .distinct()
            .toList();
    return "To scale along the road, each part between double strokes to its own scale bar; dots are"
        + " channelizing devices, hatched the work, stubs side roads. Signs: number of the list, designation, distance"
        + " ahead of the restriction, milepost."
        + (letters.isEmpty() ? "" : " " + String.join(", ", letters) + ".");
  }

  private String distance(Approach.Sign sign) {
    String distance = wording.text(Math.abs(sign.beforeWorkM()), Unit.METER);
    return sign.past() ? distance + "\u00a0past" : distance;
  }

  /** What the agency's data did not give is said where the foreman can see whether it is so. */
  private void assumed() {
    List<String> assumed =
        stop.zone().repairs().stream()
            .flatMap(r -> r.setting().assumed().stream())
            .distinct()
            .toList();
    if (!assumed.isEmpty()) {
      page.leaf(
          "p",
          "Not on record and assumed from the class of road, look before you set up: "
              + String.join("; ", assumed)
              + ".",
          "class",
          "fine");
    }
  }

  private void cautions(Set<String> saidBefore) {
    Map<String, List<String>> cautions = DayTotals.cautions(stop, number);
    cautions.keySet().removeAll(saidBefore);
    if (cautions.isEmpty()) {
      return;
    }
    page.open("div", "class", "keep").leaf("h3", "Cautions at this stop");
    page.open("ul", "class", "cautions");
    cautions.forEach(
        (text, ids) ->
            page.leaf("li", ids.isEmpty() ? text : String.join(", ", ids) + ": " + text));
    page.close().close();
  }
}
