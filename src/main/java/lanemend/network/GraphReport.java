package lanemend.network;

import java.util.List;

/**
 * How well the roads hang together.
 *
 * @param parts connected parts, one-way traffic left aside
 * @param largestShare share of all length in the largest part, 0 to 1
 * @param unreachableRoutes ids of routes no piece of which is in the largest part
 * @param oneWayTrapKm length within the largest part that can be driven into or out of, not both
 */
public record GraphReport(
    int nodes,
    int links,
    double lengthKm,
    int parts,
    double largestShare,
    List<String> unreachableRoutes,
    double oneWayTrapKm) {
  public GraphReport {
    unreachableRoutes = List.copyOf(unreachableRoutes);
  }
}
