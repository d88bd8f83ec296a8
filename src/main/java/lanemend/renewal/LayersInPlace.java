package lanemend.renewal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.PavementLayer.Course;
import lanemend.inventory.PavementLayer.Source;
import lanemend.measure.Conversion;

/**
 * Thicknesses over one stretch: cores where there are any, else what is on record as built, else
 * nothing. Each one used is told of in a sentence.
 */
final class LayersInPlace {
  private final List<PavementLayer> here;
  private final double[] middles;
  private final OptionalInt surfaced;
  private final List<String> measured;

  /**
   * Looks at one stretch.
   *
   * @param middles of its cells, along
   * @param surfaced year of the newest surface on it, where known
   * @param measured sentences are added here
   */
  LayersInPlace(
      List<PavementLayer> layers,
      String routeId,
      double fromAlongM,
      double toAlongM,
      double[] middles,
      OptionalInt surfaced,
      List<String> measured) {
    this.here =
        layers.stream()
            .filter(l -> l.routeId().equals(routeId))
            .filter(l -> l.fromAlongM() < toAlongM && l.toAlongM() > fromAlongM)
            .sorted(Comparator.comparingInt(PavementLayer::year).reversed())
            .toList();
    this.middles = middles;
    this.surfaced = surfaced;
    this.measured = measured;
  }

  /** Thickness of a course in metres; empty where nothing is known. */
  OptionalDouble thickness(Course course) {
    List<PavementLayer> known = here.stream().filter(l -> l.course() == course).toList();
    List<PavementLayer> cores = known.stream().filter(l -> l.source() == Source.CORE).toList();
    List<PavementLayer> built = known.stream().filter(l -> l.source() == Source.AS_BUILT).toList();
    OptionalDouble mean = cores.isEmpty() ? built(course, built) : cored(course, cores);
    List<PavementLayer> used = cores.isEmpty() ? built : cores;
    if (mean.isPresent()
        && course == Course.ASPHALT
        && surfaced.isPresent()
        && used.stream().anyMatch(l -> l.year() < surfaced.getAsInt())) {
      measured.add(
          "some of the asphalt was measured before the surface of "
              + surfaced.getAsInt()
              + " was laid: core it again");
    }
    return mean;
  }

  private OptionalDouble cored(Course course, List<PavementLayer> cores) {
    double thinnest = cores.stream().mapToDouble(PavementLayer::thicknessM).min().orElseThrow();
    double thickest = cores.stream().mapToDouble(PavementLayer::thicknessM).max().orElseThrow();
    double mean = cores.stream().mapToDouble(PavementLayer::thicknessM).average().orElseThrow();
    measured.add(
        inches(mean)
            + " of "
            + name(course)
            + (cores.size() == 1
                ? ": one core"
                : ": mean of "
                    + cores.size()
                    + " cores, "
                    + inches(thinnest)
                    + " to "
                    + inches(thickest))
            + ", "
            + years(cores));
    return OptionalDouble.of(mean);
  }

  /** The newest record of each cell, cells alike. */
  private OptionalDouble built(Course course, List<PavementLayer> built) {
    double sum = 0;
    List<PavementLayer> used = new ArrayList<>();
    int cells = 0;
    for (double middle : middles) {
      Optional<PavementLayer> newest =
          built.stream().filter(l -> l.fromAlongM() <= middle && l.toAlongM() > middle).findFirst();
      if (newest.isPresent()) {
        cells++;
        sum += newest.get().thicknessM();
        used.add(newest.get());
      }
    }
    if (cells == 0) {
      return OptionalDouble.empty();
    }
    measured.add(
        inches(sum / cells)
            + " of "
            + name(course)
            + " as built, "
            + years(used)
            + (cells == middles.length
                ? ""
                : ", known for %.0f %% of the section and taken for all of it"
                    .formatted(100.0 * cells / middles.length)));
    return OptionalDouble.of(sum / cells);
  }

  private static String years(List<PavementLayer> layers) {
    int first = layers.stream().mapToInt(PavementLayer::year).min().orElseThrow();
    int last = layers.stream().mapToInt(PavementLayer::year).max().orElseThrow();
    return first == last ? String.valueOf(first) : first + " to " + last;
  }

  static String name(Course course) {
    return course.name().toLowerCase(Locale.ROOT);
  }

  static String inches(double metres) {
    return String.format(
        Locale.ROOT, "%.1f in (%.0f mm)", metres / Conversion.M_PER_IN, 1000 * metres);
  }
}
