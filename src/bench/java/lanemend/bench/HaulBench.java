package lanemend.bench;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import lanemend.inventory.RoadAttributes;
import lanemend.network.HaulGraph;
import lanemend.network.HaulMatrix;
import lanemend.network.HaulPlace;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.store.Store;

/** Driving between random places of a store's roads. */
final class HaulBench {
  private static final int ROUNDS = 5;

  private HaulBench() {}

  static void run(Path storeFile, int count, PrintStream out) {
    Network network;
    RoadAttributes attributes;
    try (Store store = Store.open(storeFile)) {
      network = store.read(s -> s.network());
      attributes = new RoadAttributes(store.read(s -> s.attributes().all()));
    }
    HaulGraph roads = HaulGraph.build(network, attributes);
    List<Route> routes = new ArrayList<>(network.routes().values());
    Random random = new Random(1);
    List<HaulPlace> places = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Route route = routes.get(random.nextInt(routes.size()));
      places.add(HaulPlace.on("p" + i, route.id(), random.nextDouble() * route.lengthM()));
    }
    out.println("links,places,round,seconds,minutes,km");
    for (int round = 1; round <= ROUNDS; round++) {
      long start = System.nanoTime();
      HaulMatrix matrix = roads.between(places);
      double took = (System.nanoTime() - start) / 1e9;
      out.printf(
          Locale.ROOT,
          "%d,%d,%d,%.3f,%.9f,%.9f%n",
          roads.report().links(),
          count,
          round,
          took,
          sum(matrix.minutes()),
          sum(matrix.km()));
    }
  }

  /** So that a reader sees whether two versions find the same ways. */
  private static double sum(double[][] table) {
    double sum = 0;
    for (double[] row : table) {
      for (double value : row) {
        sum += Double.isFinite(value) ? value : 0;
      }
    }
    return sum;
  }
}
