package lanemend.exchange;

import java.time.LocalDate;
import java.util.Optional;
import lanemend.inventory.FindingKind;
import lanemend.network.Side;

/**
 * A row of a findings file.
 *
 * @param side empty when the coordinates are to tell it
 * @param sideAsDriven the side is that of the patrol's way, not of growing mileposts
 */
public record RawFinding(
    RowOrigin origin,
    String id,
    FindingKind kind,
    WrittenPlace place,
    Optional<Side> side,
    boolean sideAsDriven,
    LocalDate foundOn,
    String foundBy,
    String note) {}
