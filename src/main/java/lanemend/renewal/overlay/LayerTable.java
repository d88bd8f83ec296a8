package lanemend.renewal.overlay;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Layer coefficients of existing pavement by its condition: data an agency edits.
 *
 * @param rows from best to worst condition within a material
 */
public record LayerTable(List<Row> rows) {

  /** Materials the table knows. */
  public enum Material {
    ASPHALT,
    GRANULAR
  }

  /**
   * A condition and its coefficient per inch. It fits a survey that is worse than none of its
   * limits; each limit is a percent of the area.
   *
   * @param condition in words
   */
  public record Row(Material material, String condition, Limits limits, double low, double high) {
    /** The coefficient taken unless an engineer sets another. */
    public double middle() {
      return (low + high) / 2;
    }
  }

  /**
   * Most that a row allows, percent of area; {@code pumping} allows pumping or fines.
   *
   * @param leastIndex least condition index of the section, where the agency goes by it; 0 for any
   */
  public record Limits(
      double alligatorLow,
      double alligatorMedium,
      double alligatorHigh,
      double transverseMediumHigh,
      double transverseHigh,
      boolean pumping,
      double leastIndex) {

    /** Allows everything. */
    public static final Limits NONE = new Limits(100, 100, 100, 100, 100, true, 0);

    /** A limit on the index holds only where there is one. */
    boolean allow(CrackSurvey s, OptionalDouble index) {
      return allow(s) && (index.isEmpty() || index.getAsDouble() >= leastIndex);
    }

    private boolean allow(CrackSurvey s) {
      return s.alligatorLow() <= alligatorLow
          && s.alligatorMedium() <= alligatorMedium
          && s.alligatorHigh() <= alligatorHigh
          && s.transverseMediumHigh() <= transverseMediumHigh
          && s.transverseHigh() <= transverseHigh
          && (pumping || !s.pumping());
    }
  }

  /**
   * A table that answers every question.
   *
   * @throws IllegalArgumentException when a material has no last row that allows everything
   */
  public LayerTable {
    rows = List.copyOf(rows);
    for (Material m : Material.values()) {
      if (rows.stream().noneMatch(r -> r.material() == m && r.limits().equals(Limits.NONE))) {
        throw new IllegalArgumentException(
            "the last row of " + m.name().toLowerCase(Locale.ROOT) + " must allow everything");
      }
    }
  }

  /**
   * After the AASHTO Guide 1993, part III, table 5.2, from memory: check it against the Guide
   * before a design leans on it.
   */
  public static LayerTable fromMemory() {
    return new LayerTable(
        List.of(
            asphalt(
                "little or no alligator, only low transverse cracking", 0, 0, 0, 0, 0, .35, .40),
            asphalt("under 10 % low alligator, under 5 % transverse", 10, 0, 0, 5, 5, .25, .35),
            asphalt("over 10 % low or under 10 % medium alligator", 100, 10, 0, 10, 10, .20, .30),
            asphalt(
                "over 10 % medium or under 10 % high alligator", 100, 100, 10, 100, 10, .14, .20),
            asphalt("over 10 % high alligator or transverse", 100, 100, 100, 100, 100, .08, .15),
            granular("no pumping, degradation or fines", false, .10, .14),
            granular("some pumping, degradation or fines", true, .00, .10)));
  }

  private static Row asphalt(
      String condition,
      double aLow,
      double aMid,
      double aHigh,
      double tMid,
      double tHigh,
      double low,
      double high) {
    Limits limits = new Limits(aLow, aMid, aHigh, tMid, tHigh, true, 0);
    return new Row(Material.ASPHALT, condition, limits, low, high);
  }

  private static Row granular(String condition, boolean pumping, double low, double high) {
    Limits limits = new Limits(100, 100, 100, 100, 100, pumping, 0);
    return new Row(Material.GRANULAR, condition, limits, low, high);
  }

  /**
   * The first row of the material that allows what the survey found.
   *
   * @param index condition index of the section; limits on it are passed over where there is none
   */
  public Optional<Row> row(Material material, CrackSurvey survey, OptionalDouble index) {
    return rows.stream()
        .filter(r -> r.material() == material && r.limits().allow(survey, index))
        .findFirst();
  }

  /** True where a row of the material asks for a condition index. */
  public boolean asksForIndex(Material material) {
    return rows.stream().anyMatch(r -> r.material() == material && r.limits().leastIndex() > 0);
  }
}
