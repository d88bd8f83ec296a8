package lanemend.exchange;

import java.time.LocalDate;
import java.util.OptionalDouble;
import lanemend.inventory.DistressKind;
import lanemend.inventory.Severity;

/**
 * A row of a condition survey file.
 *
 * @param areaM2 of the sample unit; empty: to be worked out from its length and width
 * @param widthM of the sample unit; empty when the area is given
 * @param quantity in square metres, metres or pieces
 */
public record RawDistress(
    RowOrigin origin,
    String id,
    String sample,
    WrittenPlace place,
    OptionalDouble areaM2,
    OptionalDouble widthM,
    boolean additional,
    LocalDate surveyedOn,
    String surveyedBy,
    DistressKind kind,
    Severity severity,
    double quantity) {}
