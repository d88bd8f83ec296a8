package lanemend.exchange;

import java.nio.file.Path;

/**
 * A road file and how to read it.
 *
 * @param file {@code .geojson}/{@code .json}, {@code .gpkg}, or CSV with a {@code wkt} column
 * @param layer GeoPackage layer, or empty for the only one
 * @param crs coordinate system such as {@code EPSG:26915}, or empty for what the file says
 * @param speedUnit of bare numbers in the speed column
 */
public record RoadSource(
    Path file, String layer, String crs, SpeedUnit speedUnit, FieldMap fields, ClassMap classes) {

  /** A file in longitude and latitude with Lanemend's own column names and speeds in mph. */
  public static RoadSource of(Path file) {
    return new RoadSource(file, "", "", SpeedUnit.MPH, FieldMap.NONE, ClassMap.NONE);
  }
}
