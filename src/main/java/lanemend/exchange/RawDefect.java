package lanemend.exchange;

import java.time.LocalDate;
import java.util.OptionalDouble;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Severity;
import lanemend.network.Lane;

/**
 * A row of a defects file, in metres.
 *
 * @param id as written, or made from the row's content
 * @param lane null for the lane the patrol drove in
 * @param lengthM empty when the two mileposts tell it
 */
public record RawDefect(
    RowOrigin origin,
    String id,
    WrittenPlace place,
    Lane lane,
    DefectKind kind,
    Severity severity,
    OptionalDouble lengthM,
    double widthM,
    double depthM,
    LocalDate foundOn,
    String foundBy,
    String photo,
    DefectStatus status,
    String note) {}
