package lanemend.crewdays.routing;

import java.util.Arrays;
import java.util.List;

/** Days at hand as a solution to begin with. */
final class GivenDays {
  private final DayProblem p;
  private final List<SearchResult.Day> days;
  private final DayPrice price;

  GivenDays(DayProblem p, List<SearchResult.Day> days) {
    this.p = p;
    this.days = days;
    price = new DayPrice(p);
  }

  /** Fills an empty solution; stops of days that break a limit stay absent. */
  void apply(Solution s) {
    for (SearchResult.Day day : days) {
      int[] stops = day.stops().stream().mapToInt(c -> c).toArray();
      DayProblem.Slot slot = p.slots()[day.slot()];
      if (s.size[day.slot()] == 0
          && Arrays.stream(slot.kinds()).anyMatch(k -> k == day.kind())
          && s.admitsAll(day.slot(), day.kind(), stops, stops.length)
          && price.price(day.kind(), slot.date(), stops, stops.length, -1, -1)
          && Double.isFinite(price.cost)) {
        s.setKind(day.slot(), day.kind());
        for (int i = 0; i < stops.length; i++) {
          s.skipped -= p.skipCost()[stops[i]];
          s.insert(day.slot(), i, stops[i]);
        }
      }
    }
    int kept = 0;
    for (int c = 0; c < p.stops(); c++) {
      if (s.slotOf[c] < 0) {
        s.absent[kept++] = c;
      }
    }
    s.absentCount = kept;
  }
}
