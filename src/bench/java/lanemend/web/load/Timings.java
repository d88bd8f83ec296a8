package lanemend.web.load;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** How long answers took and what they were, by kind of request; safe for several threads. */
final class Timings {
  private static final int ERRORS_SHOWN = 10;

  private final Map<String, Kind> kinds = new TreeMap<>();
  private final List<String> errors = new ArrayList<>();

  private static final class Kind {
    private final List<Double> millis = new ArrayList<>();
    private int refused;
    private int errors;
  }

  /** An answer as it should be: done, or refused for a reason the user can act on. */
  synchronized void answered(String kind, double millis, boolean refused) {
    Kind k = kinds.computeIfAbsent(kind, x -> new Kind());
    k.millis.add(millis);
    k.refused += refused ? 1 : 0;
  }

  synchronized void failed(String kind, String what) {
    kinds.computeIfAbsent(kind, x -> new Kind()).errors++;
    errors.add(kind + ": " + what);
  }

  synchronized int errors() {
    return errors.size();
  }

  synchronized void print(PrintStream out) {
    out.println("request,answers,refused,errors,p50_ms,p95_ms,p99_ms,worst_ms");
    for (String half : new String[] {"read", "write"}) {
      Kind all = new Kind();
      kinds.forEach(
          (name, k) -> {
            if (name.startsWith(half)) {
              row(out, name, k);
              all.millis.addAll(k.millis);
              all.refused += k.refused;
              all.errors += k.errors;
            }
          });
      row(out, "all " + half + "s", all);
    }
    errors.stream().limit(ERRORS_SHOWN).forEach(e -> out.println("error: " + e));
  }

  private static void row(PrintStream out, String name, Kind k) {
    double[] sorted = k.millis.stream().mapToDouble(d -> d).sorted().toArray();
    out.printf(
        Locale.ROOT,
        "%s,%d,%d,%d,%.1f,%.1f,%.1f,%.1f%n",
        name,
        sorted.length,
        k.refused,
        k.errors,
        at(sorted, 0.5),
        at(sorted, 0.95),
        at(sorted, 0.99),
        Arrays.stream(sorted).max().orElse(Double.NaN));
  }

  /** Nearest rank. */
  private static double at(double[] sorted, double share) {
    return sorted.length == 0
        ? Double.NaN
        : sorted[Math.max(0, (int) Math.ceil(share * sorted.length) - 1)];
  }
}
