package lanemend.exchange;

import java.math.BigDecimal;
import java.time.LocalDate;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.network.Lane;

/**
 * A row of a patches file.
 *
 * @param lane or null for the whole width
 * @param tonnes or null
 * @param crewHours or null
 * @param cost or null; in the agency's currency
 * @param planned what had been planned of it and by whom it was done; null where the row says
 *     nothing
 */
public record RawPatch(
    RowOrigin origin,
    String id,
    String work,
    WrittenPlace place,
    Lane lane,
    LocalDate doneOn,
    Double tonnes,
    Double crewHours,
    BigDecimal cost,
    PlannedWork planned) {}
