package lanemend.web.desk;

import java.util.List;
import java.util.Locale;
import lanemend.county.County;
import lanemend.county.PlanWords;
import lanemend.crewdays.PlanChange;
import lanemend.crewdays.PlanComparison;
import lanemend.web.page.Wording;

/**
 * Two plans side by side.
 *
 * @param difference of cost, signed, with the currency
 * @param changes the first {@value #SHOWN}
 * @param more how many changes are not listed
 */
record ComparisonView(
    PlanView.Totals before,
    PlanView.Totals after,
    String difference,
    int crewDaysChanged,
    int zonesMoved,
    int zonesTakenOff,
    int daysReordered,
    List<What> changes,
    int more) {
  private static final int SHOWN = 200;

  /** One change. */
  record What(String kind, List<String> repairs, String what, String why) {}

  static ComparisonView of(PlanComparison c, County county) {
    Wording words = Wording.of(county.agency());
    PlanComparison.Disturbance d = c.disturbance();
    return new ComparisonView(
        PlanView.Totals.of(c.before(), words),
        PlanView.Totals.of(c.after(), words),
        signed(
            c.after().cost().subtract(c.before().cost()).doubleValue(),
            county.agency().plan().currency()),
        d.crewDays(),
        d.zonesMoved(),
        d.zonesTakenOff(),
        d.daysReordered(),
        c.changes().stream().limit(SHOWN).map(ComparisonView::what).toList(),
        Math.max(0, c.changes().size() - SHOWN));
  }

  private static What what(PlanChange c) {
    return new What(DeskWords.code(c.kind()), c.defectIds(), PlanWords.of(c), c.why());
  }

  /** Such as {@code +120 USD}. */
  static String signed(double amount, String currency) {
    return String.format(Locale.US, "%+,.0f %s", amount, currency);
  }
}
