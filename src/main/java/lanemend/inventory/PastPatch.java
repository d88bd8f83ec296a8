package lanemend.inventory;

import java.math.BigDecimal;
import java.time.LocalDate;
import lanemend.network.Lane;

/**
 * A repair that was done.
 *
 * @param work what was done, in the agency's words: a treatment's name or {@code resurfacing}
 * @param tonnes mix placed, or null when not recorded
 * @param crewHours or null
 * @param cost or null; in the agency's currency
 */
public record PastPatch(
    String id,
    String work,
    Place place,
    Lane lane,
    LocalDate doneOn,
    Double tonnes,
    Double crewHours,
    BigDecimal cost) {}
