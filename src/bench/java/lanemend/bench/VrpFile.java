package lanemend.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.StringTokenizer;

/**
 * A vehicle routing instance in the VRPLIB text format.
 *
 * @param x by node, depot first
 * @param limit longest route, service included; infinite when none is given
 * @param service minutes at each stop
 */
record VrpFile(
    String name, double[] x, double[] y, double[] demand, double capacity, double limit, double service) {

  /** Reads a file; a file that is not such an instance is refused with one sentence. */
  static VrpFile read(Path file) throws IOException {
    Map<String, String> head = new HashMap<>();
    Map<Integer, double[]> at = new HashMap<>();
    Map<Integer, Double> demand = new HashMap<>();
    int depot = 0;
    String section = "";
    for (String line : Files.readAllLines(file)) {
      String text = line.strip();
      int colon = text.indexOf(':');
      if (text.isEmpty() || text.equals("EOF")) {
        continue;
      }
      if (colon > 0) {
        head.put(text.substring(0, colon).strip().toUpperCase(Locale.ROOT), text.substring(colon + 1).strip());
      } else if (Character.isLetter(text.charAt(0))) {
        section = text.toUpperCase(Locale.ROOT);
      } else {
        double[] row = numbers(text);
        if (section.startsWith("NODE_COORD")) {
          at.put((int) row[0], new double[] {row[1], row[2]});
        } else if (section.startsWith("DEMAND")) {
          demand.put((int) row[0], row[1]);
        } else if (section.startsWith("DEPOT") && row[0] > 0) {
          depot = (int) row[0];
        }
      }
    }
    return build(file, head, at, demand, depot);
  }

  private static VrpFile build(
      Path file,
      Map<String, String> head,
      Map<Integer, double[]> at,
      Map<Integer, Double> demand,
      int depot) {
    if (!at.containsKey(depot) || !head.containsKey("CAPACITY") || !at.keySet().equals(demand.keySet())) {
      throw new IllegalArgumentException(
          file + ": expected CAPACITY, a depot, and coordinates and demand for every node");
    }
    List<Integer> nodes = new ArrayList<>(at.keySet());
    nodes.sort(null);
    nodes.remove((Integer) depot);
    nodes.add(0, depot);
    double[] x = nodes.stream().mapToDouble(n -> at.get(n)[0]).toArray();
    double[] y = nodes.stream().mapToDouble(n -> at.get(n)[1]).toArray();
    double[] d = nodes.stream().mapToDouble(demand::get).toArray();
    return new VrpFile(
        head.getOrDefault("NAME", file.getFileName().toString()),
        x,
        y,
        d,
        Double.parseDouble(head.get("CAPACITY")),
        Double.parseDouble(head.getOrDefault("DISTANCE", "Infinity")),
        Double.parseDouble(head.getOrDefault("SERVICE_TIME", "0")));
  }

  private static double[] numbers(String text) {
    StringTokenizer words = new StringTokenizer(text);
    double[] row = new double[words.countTokens()];
    for (int i = 0; i < row.length; i++) {
      row[i] = Double.parseDouble(words.nextToken());
    }
    return row;
  }
}
