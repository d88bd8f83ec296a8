package lanemend.renewal.exposure;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** Days one cell was surfaced and repaired, before they become ages. */
final class LaneLog {
  private static final double HALF_A_DAY = 0.5 / ExposureSettings.DAYS_PER_YEAR;

  private final TreeSet<Long> surfacedOn = new TreeSet<>();
  private final List<Repair> repairs = new ArrayList<>();

  /** A repair that may belong to this cell. */
  record Repair(String patchId, long day, double tonnes) {}

  void surfaced(LocalDate day) {
    surfacedOn.add(day.toEpochDay());
  }

  void repaired(String patchId, LocalDate day, double tonnes) {
    repairs.add(new Repair(patchId, day.toEpochDay(), tonnes));
  }

  /** A year alone is taken as its middle, unless a dated resurfacing of that year is known. */
  void surfacedInYear(int year) {
    long first = LocalDate.of(year, 1, 1).toEpochDay();
    Long known = surfacedOn.ceiling(first);
    if (known == null || known >= LocalDate.of(year + 1, 1, 1).toEpochDay()) {
      surfaced(LocalDate.of(year, 7, 1));
    }
  }

  List<String> patchIds() {
    return repairs.stream().map(Repair::patchId).toList();
  }

  double ageAt(long day) {
    Long last = surfacedOn.floor(day);
    if (last != null) {
      return (day - last) / ExposureSettings.DAYS_PER_YEAR;
    }
    // Surfaced in the year the records end, in its second half by the rule of the year's middle.
    return surfacedOn.isEmpty() ? Double.NaN : 0;
  }

  /**
   * Writes the cell's spells and repairs to the builder.
   *
   * @return the repairs that fall where the age is not known
   */
  List<Repair> write(CellHistories.Builder to, long recordsFrom, long recordsTo) {
    Long start = surfacedOn.isEmpty() ? null : surfacedOn.first();
    while (start != null) {
      Long next = surfacedOn.higher(start);
      long end = next == null ? recordsTo : Math.min(next, recordsTo);
      long begin = Math.max(start, recordsFrom);
      if (begin < end) {
        to.spell(years(begin - start), years(end - start));
        for (Repair r : repairs) {
          if (r.day() >= begin && r.day() < end) {
            // A whole day has no hour: the middle of the day keeps every age above zero.
            to.repair(years(r.day() - start) + HALF_A_DAY, r.tonnes(), r.day());
          }
        }
      }
      start = next;
    }
    List<Repair> ageless = new ArrayList<>(repairs);
    ageless.removeIf(r -> surfacedOn.floor(r.day()) != null);
    return ageless;
  }

  private static double years(long days) {
    return days / ExposureSettings.DAYS_PER_YEAR;
  }
}
