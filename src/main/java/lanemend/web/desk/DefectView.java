package lanemend.web.desk;

import java.time.LocalDate;
import lanemend.county.County;
import lanemend.inventory.Defect;
import lanemend.inventory.Place;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.MilepostMap;
import lanemend.network.Route;
import lanemend.store.Stored;

/**
 * A defect as pages show it and forms send it back.
 *
 * @param version to be given back with a change
 * @param length as the agency reads it: ft or m
 * @param width ft or m
 * @param depth in or mm
 * @param size in words
 */
record DefectView(
    String id,
    long version,
    String route,
    String milepost,
    String milepostTo,
    double alongM,
    double lon,
    double lat,
    String lane,
    String kind,
    String severity,
    String status,
    double length,
    double width,
    double depth,
    String size,
    LocalDate foundOn,
    String foundBy,
    String photo,
    String note) {

  static DefectView of(Stored<Defect> row, County county) {
    Defect d = row.value();
    Place place = d.place();
    UnitSystem units = county.units();
    MilepostMap mileposts =
        county.network().route(place.routeId()).map(Route::mileposts).orElseThrow();
    double[] lonLat = county.crs().unproject(place.x(), place.y());
    return new DefectView(
        d.id(),
        row.version(),
        place.routeId(),
        mileposts.at(place.fromAlongM()).text(),
        mileposts.at(place.toAlongM()).text(),
        DeskNumbers.centimetres(place.middleAlongM()),
        DeskNumbers.degrees(lonLat[0]),
        DeskNumbers.degrees(lonLat[1]),
        d.lane().code(),
        DeskWords.code(d.kind()),
        DeskWords.code(d.severity()),
        DeskWords.code(d.status()),
        rounded(units.show(d.lengthM(), Unit.METER).value()),
        rounded(units.show(d.widthM(), Unit.METER).value()),
        rounded(units.show(d.depthM(), Unit.THICKNESS_METER).value()),
        size(d, units),
        d.foundOn(),
        d.foundBy(),
        d.photo(),
        d.note());
  }

  private static String size(Defect d, UnitSystem units) {
    String flat =
        units.show(d.lengthM(), Unit.METER).text()
            + " x "
            + units.show(d.widthM(), Unit.METER).text();
    return d.depthM() == 0
        ? flat
        : flat + " x " + units.show(d.depthM(), Unit.THICKNESS_METER).text() + " deep";
  }

  /** To a thousandth of a foot or inch, so that 20 ft kept in metres reads 20. */
  private static double rounded(double value) {
    return Math.rint(value * 1_000) / 1_000;
  }
}
