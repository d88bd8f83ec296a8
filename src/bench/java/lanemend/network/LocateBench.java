package lanemend.network;

import java.io.File;
import java.net.URL;
import java.net.URLClassLoader;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.linearref.LengthLocationMap;
import org.locationtech.jts.linearref.LinearLocation;
import org.locationtech.jts.linearref.LocationIndexedLine;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;

/**
 * Along to point and point to along on a known route, beside JTS's linear referencing on the same
 * line. Ours also finds the route by its id and works the milepost out.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
public class LocateBench {
  private static final int ITERATIONS = 5;
  private static final int QUERIES = 1024;
  private static final double OFF_ROAD_M = 25;

  /** Vertices of the line. */
  @Param({"10", "100", "1000", "10000"})
  public int vertices;

  private Locator locator;
  private LengthIndexedLine byLength;
  private LocationIndexedLine byLocation;
  private LengthLocationMap lengths;
  private final double[] along = new double[QUERIES];
  private final double[] projected = new double[QUERIES];
  private final Coordinate[] places = new Coordinate[QUERIES];
  private int next;

  /** The line is one of a hundred routes. */
  @Setup
  public void roads() {
    Winding winding = new Winding(11);
    Map<String, Route> routes = new LinkedHashMap<>();
    for (int i = 0; i < 100; i++) {
      CenterlinePart other = winding.line(400_000 + 1000 * i, 4_500_000, 20, 50);
      routes.put("CR " + i, winding.route("CR " + i, other));
    }
    CenterlinePart line = winding.line(500_000, 4_600_000, vertices, 50);
    routes.put("SR 7", winding.route("SR 7", line));
    locator = new Locator(new Network("", routes, List.of()));
    Coordinate[] coordinates = new Coordinate[vertices];
    for (int i = 0; i < vertices; i++) {
      coordinates[i] = new Coordinate(line.x(i), line.y(i));
    }
    LineString jts = new GeometryFactory().createLineString(coordinates);
    byLength = new LengthIndexedLine(jts);
    byLocation = new LocationIndexedLine(jts);
    lengths = new LengthLocationMap(jts);
    Random random = new Random(12);
    double scale = jts.getLength() / line.toAlong();
    for (int i = 0; i < QUERIES; i++) {
      along[i] = random.nextDouble() * line.toAlong();
      projected[i] = along[i] * scale;
      Coordinate on = byLength.extractPoint(random.nextDouble() * jts.getLength());
      places[i] =
          new Coordinate(
              on.x + (random.nextDouble() - 0.5) * 2 * OFF_ROAD_M,
              on.y + (random.nextDouble() - 0.5) * 2 * OFF_ROAD_M);
    }
  }

  private int next() {
    next = (next + 1) & (QUERIES - 1);
    return next;
  }

  /** Ours. */
  @Benchmark
  public Optional<RoadPoint> pointOurs() {
    return locator.pointAt("SR 7", along[next()], 0);
  }

  /** Peer. */
  @Benchmark
  public Coordinate pointLengthIndexedLine() {
    return byLength.extractPoint(projected[next()]);
  }

  /** Peer. */
  @Benchmark
  public Coordinate pointLocationIndexedLine() {
    LinearLocation at = lengths.getLocation(projected[next()]);
    return byLocation.extractPoint(at);
  }

  /** Ours. */
  @Benchmark
  public Optional<RoadPoint> alongOurs() {
    Coordinate at = places[next()];
    return locator.nearestOn("SR 7", at.x, at.y);
  }

  /** Peer. */
  @Benchmark
  public double alongLengthIndexedLine() {
    return byLength.project(places[next()]);
  }

  /** Peer. */
  @Benchmark
  public LinearLocation alongLocationIndexedLine() {
    return byLocation.project(places[next()]);
  }

  /**
   * Runs all of them, each in a process of its own, and prints JMH's table.
   *
   * @param seconds measured for each benchmark and line, after as much again to warm up
   */
  public static void run(double seconds) {
    // JMH starts its processes with this; inside Maven it names Maven's own classes only.
    if (LocateBench.class.getClassLoader() instanceof URLClassLoader loader) {
      System.setProperty(
          "java.class.path",
          Stream.of(loader.getURLs())
              .map(URL::getPath)
              .collect(Collectors.joining(File.pathSeparator)));
    }
    TimeValue iteration = TimeValue.milliseconds(Math.round(seconds * 1000 / ITERATIONS));
    try {
      new Runner(
              new OptionsBuilder()
                  .include(LocateBench.class.getName())
                  .forks(1)
                  .warmupIterations(ITERATIONS)
                  .warmupTime(iteration)
                  .measurementIterations(ITERATIONS)
                  .measurementTime(iteration)
                  .build())
          .run();
    } catch (RunnerException e) {
      throw new IllegalStateException("the benchmark could not be run", e);
    }
  }
}
