package lanemend.renewal.exposure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import lanemend.inventory.AttributeName;
import lanemend.inventory.RoadAttributes;
import lanemend.renewal.exposure.Exposure.Inferred;
import lanemend.renewal.exposure.Exposure.Remark;

/**
 * The year of the last surfacing for each cell of a route, as recorded or inferred by one rule: a
 * short stretch without a year between two neighbours of the same year was paved with them. All
 * else stays unknown and is asked for.
 */
final class SurfacingYears {
  static final int UNKNOWN = Integer.MIN_VALUE;

  private final int[] years;
  private final List<Inferred> inferred = new ArrayList<>();
  private final List<Remark> remarks = new ArrayList<>();

  private SurfacingYears(int[] years) {
    this.years = years;
  }

  /** {@code edges} holds along at the cells' ends: one more than there are cells. */
  static SurfacingYears read(
      String routeId, double[] edges, RoadAttributes attributes, ExposureSettings settings) {
    int n = edges.length - 1;
    SurfacingYears out = new SurfacingYears(new int[n]);
    int latest = settings.recordsTo().minusDays(1).getYear();
    String lastOdd = "";
    for (int c = 0; c < n; c++) {
      double middle = (edges[c] + edges[c + 1]) / 2;
      Optional<String> text = attributes.text(routeId, middle, AttributeName.LAST_SURFACING);
      OptionalInt year = text.map(t -> parse(t, latest)).orElse(OptionalInt.empty());
      out.years[c] = year.orElse(UNKNOWN);
      if (text.isPresent() && year.isEmpty() && !text.get().equals(lastOdd)) {
        lastOdd = text.get();
        out.remarks.add(
            new Remark(
                routeId,
                "last surfacing '%s' from %.0f m is not a year between 1900 and %d: taken as unknown"
                    .formatted(lastOdd, edges[c], latest)));
      }
    }
    out.infer(routeId, edges, settings.inferAcrossM());
    return out;
  }

  private static OptionalInt parse(String text, int latest) {
    try {
      int year = (int) Double.parseDouble(text.strip());
      return year >= 1900 && year <= latest ? OptionalInt.of(year) : OptionalInt.empty();
    } catch (NumberFormatException notANumber) {
      return OptionalInt.empty();
    }
  }

  private void infer(String routeId, double[] edges, double acrossM) {
    for (int c = 0; c < years.length; c++) {
      if (years[c] != UNKNOWN) {
        continue;
      }
      int end = c;
      while (end < years.length && years[end] == UNKNOWN) {
        end++;
      }
      boolean agreed = c > 0 && end < years.length && years[c - 1] == years[end];
      if (agreed && edges[end] - edges[c] <= acrossM + 1e-6) {
        inferred.add(
            new Inferred(
                routeId,
                edges[c],
                edges[end],
                years[end],
                "the stretches before and after were both surfaced in %d and the gap is no longer than %.0f m"
                    .formatted(years[end], acrossM)));
        java.util.Arrays.fill(years, c, end, years[end]);
      }
      c = end;
    }
  }

  int year(int cell) {
    return years[cell];
  }

  List<Inferred> inferred() {
    return inferred;
  }

  List<Remark> remarks() {
    return remarks;
  }
}
