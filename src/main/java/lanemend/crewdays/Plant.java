package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.LocalTime;
import java.util.Set;
import lanemend.patching.Treatment;

/**
 * A source of mix: a hot mix plant, or a stockpile of cold mix at a yard.
 *
 * @param dailyTonnes most mix it gives the agency in a day
 * @param loadMinutes minutes to load one truck
 * @param mixWindowMinutes longest time from loading until the mix must be laid
 * @param stockTonnes what lies in the stockpile for the whole plan; infinite for a plant
 * @param serves treatments its mix is fit for
 */
public record Plant(
    String id,
    String name,
    double x,
    double y,
    LocalTime opens,
    LocalTime closes,
    double dailyTonnes,
    double loadMinutes,
    double mixWindowMinutes,
    BigDecimal pricePerTonne,
    double stockTonnes,
    Set<Treatment> serves) {

  /** Cold mix keeps in a truck for longer than any shift. */
  private static final double KEEPS_MINUTES = 100_000;

  public Plant {
    serves = Set.copyOf(serves);
  }

  /** A plant whose mix is fit for every treatment. */
  public Plant(
      String id,
      String name,
      double x,
      double y,
      LocalTime opens,
      LocalTime closes,
      double dailyTonnes,
      double loadMinutes,
      double mixWindowMinutes,
      BigDecimal pricePerTonne) {
    this(
        id,
        name,
        x,
        y,
        opens,
        closes,
        dailyTonnes,
        loadMinutes,
        mixWindowMinutes,
        pricePerTonne,
        Double.POSITIVE_INFINITY,
        Set.of(Treatment.values()));
  }

  /** A stockpile: no hours, no season, mix that keeps, and only so much of it. */
  public static Plant stockpile(
      String id,
      String name,
      double x,
      double y,
      double tonnes,
      double loadMinutes,
      BigDecimal pricePerTonne,
      Set<Treatment> serves) {
    return new Plant(
        id,
        name,
        x,
        y,
        LocalTime.MIDNIGHT,
        LocalTime.MAX,
        tonnes,
        loadMinutes,
        KEEPS_MINUTES,
        pricePerTonne,
        tonnes,
        serves);
  }

  /** True for a stockpile. */
  public boolean isStockpile() {
    return Double.isFinite(stockTonnes);
  }
}
