package lanemend.inventory;

import java.time.LocalDate;
import lanemend.network.Side;

/** Something a patrol saw that is not asphalt. */
public record Finding(
    String id,
    FindingKind kind,
    Place place,
    Side side,
    LocalDate foundOn,
    String foundBy,
    String note) {}
