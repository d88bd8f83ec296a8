package lanemend.exchange;

import lanemend.inventory.PavementLayer;

/**
 * A row of a layers file.
 *
 * @param place blank mileposts stand for the ends of the route
 */
public record RawLayer(
    RowOrigin origin,
    String id,
    WrittenPlace place,
    PavementLayer.Course course,
    double thicknessM,
    int year,
    PavementLayer.Source source) {}
