package lanemend.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import lanemend.network.Assembly;
import lanemend.network.Calibrator;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.RouteAssembler;

/**
 * An invented county to read events on: SR 12 runs east for about 16 km with mileposts that repeat
 * (5.2 back = 5.0 ahead) and skip (8.0 back = 8.5 ahead); US 9 is divided; SR 30 runs with SR 12
 * for its first 2 km; Mill Road crosses SR 12 on the ground.
 */
final class SmallCounty {
  static final double LAT = 44.0;
  static final ProjectedCrs CRS = ProjectedCrs.utmFor(-93.0, LAT);

  static final String ROADS =
      """
      {"type": "FeatureCollection",
       "crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}},
       "features": [
      {"type": "Feature", "properties": {"route": "SR 12;SR 30", "class": "arterial", "speed": 55},
       "geometry": {"type": "LineString", "coordinates": [[-93.1, 44.0], [-93.075, 44.0]]}},
      {"type": "Feature", "properties": {"route": "SR 12", "class": "arterial", "speed": 55},
       "geometry": {"type": "LineString", "coordinates": [[-93.075, 44.0], [-93.0, 44.0], [-92.9, 44.0]]}},
      {"type": "Feature", "properties": {"route": "SR 30", "class": "collector", "lanes": 2},
       "geometry": {"type": "LineString", "coordinates": [[-93.075, 44.0], [-93.07, 44.03]]}},
      {"type": "Feature", "properties": {"route": "US 9", "direction": "NB", "class": "freeway", "one_way": "yes"},
       "geometry": {"type": "LineString", "coordinates": [[-92.95, 44.02], [-92.95, 44.1]]}},
      {"type": "Feature", "properties": {"route": "US 9", "direction": "SB", "class": "freeway", "one_way": "yes"},
       "geometry": {"type": "LineString", "coordinates": [[-92.951, 44.1], [-92.951, 44.02]]}},
      {"type": "Feature", "properties": {"route": "Mill Road", "class": "local"},
       "geometry": {"type": "LineString", "coordinates": [[-93.02, 43.97], [-93.02, 44.0], [-93.02, 44.01]]}}
      ]}
      """;

  static final String POSTS =
      """
      route,direction,milepost,ahead,longitude,latitude,distance_ft,distance_m
      SR 12,,0,,,,,0
      SR 12,,5.2,5,,,,8368.6
      SR 12,,8,8.5,,,,13196.6
      """;

  final Network network;
  final Locator locator;
  final EventLocator events;

  SmallCounty(Path folder) {
    Read<lanemend.network.SourceLine> lines =
        RoadReader.read(RoadSource.of(write(folder, "roads.geojson", ROADS)));
    Assembly assembly = RouteAssembler.assemble(lines.rows(), CRS);
    EventLocator bare =
        new EventLocator(assembly.network(), new Locator(assembly.network()), LaneCounts.UNKNOWN);
    EventLocator.PlacedPosts posts =
        bare.posts(PostReader.read(write(folder, "posts.csv", POSTS), FieldMap.NONE));
    network = Calibrator.calibrate(assembly.network(), posts.byRoute()).network();
    locator = new Locator(network);
    events = new EventLocator(network, locator, LaneCounts.UNKNOWN);
  }

  static Path write(Path folder, String name, String text) {
    return write(folder, name, text.getBytes(StandardCharsets.UTF_8));
  }

  static Path write(Path folder, String name, byte[] bytes) {
    try {
      return Files.write(folder.resolve(name), bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Problems as a person reads them, one to a line. */
  static String texts(List<RowProblem> problems) {
    return problems.stream().map(RowProblem::text).collect(Collectors.joining("\n"));
  }
}
