package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import lanemend.crewdays.CrewDay;
import lanemend.measure.Figure;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.web.page.Wording;

/**
 * What to load for a whole day. Zones are set up one after another with the same signs and devices,
 * so of each the largest number at one stop goes on the truck, not the sum.
 *
 * @param tackLiters as sprayed
 * @param residualLiters asphalt left of the tack, 0 when no figure says so
 */
record DayTotals(double tackLiters, double residualLiters, Set<Equipment> equipment) {

  /** Printed over every traffic-control list, so not repeated among its cautions. */
  static final String REVIEW = "Plan for review: the MUTCD, agency and permit conditions rule.";

  static DayTotals of(CrewDay day) {
    double tack = 0;
    double residual = 0;
    Set<Equipment> equipment = new TreeSet<>();
    for (CrewDay.Stop stop : day.stops()) {
      equipment.addAll(stop.zone().equipment());
      for (PatchDesign repair : stop.zone().repairs()) {
        tack += repair.tackLiters();
        residual += residualLiters(repair);
      }
    }
    return new DayTotals(tack, residual, equipment);
  }

  private static double residualLiters(PatchDesign repair) {
    double area = repair.figure("tacked area").map(Figure::value).orElse(0.0);
    return area * repair.figure("tack residual rate").map(Figure::value).orElse(0.0);
  }

  /** Cautions of one stop with the repairs they are for; those for the whole zone name none. */
  static Map<String, List<String>> cautions(CrewDay.Stop stop, int number) {
    Map<String, List<String>> cautions = new LinkedHashMap<>();
    stop.zone().traffic().cautions().stream()
        .filter(c -> !c.equals(REVIEW))
        .forEach(c -> cautions.put(c, new ArrayList<>()));
    List<PatchDesign> repairs = stop.zone().repairs();
    for (int i = 0; i < repairs.size(); i++) {
      for (String caution : repairs.get(i).cautions()) {
        cautions.computeIfAbsent(caution, k -> new ArrayList<>()).add(Wording.repairId(number, i));
      }
    }
    return cautions;
  }

  /** Cautions that hold at every stop of a day: said once, before leaving. */
  static Set<String> allDayCautions(CrewDay day) {
    Set<String> common = new LinkedHashSet<>();
    for (int i = 0; i < day.stops().size(); i++) {
      Set<String> here = cautions(day.stops().get(i), i + 1).keySet();
      if (i == 0) {
        common.addAll(here);
      } else {
        common.retainAll(here);
      }
    }
    return common;
  }
}
