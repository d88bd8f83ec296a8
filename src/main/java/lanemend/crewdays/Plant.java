package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.LocalTime;

/**
 * A source of mix.
 *
 * @param dailyTonnes most mix it gives the agency in a day
 * @param loadMinutes minutes to load one truck
 * @param mixWindowMinutes longest time from loading until the mix must be laid
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
    BigDecimal pricePerTonne) {}
