package lanemend.renewal.exposure;

import java.util.List;

/**
 * Histories of all cells and everything an engineer should know about how they were made.
 *
 * @param histories cells of all routes, ordered by route, cell number, lane; cells to ask about are
 *     there too, without spells
 * @param inferred stretches whose surfacing year was taken from their neighbours
 * @param toAsk stretches whose surfacing year nobody knows: their repairs are not fitted
 * @param unused past repairs that count in no cell, each with its reason
 * @param remarks assumptions made row by row that still count
 */
public record Exposure(
    CellHistories histories,
    ExposureSettings settings,
    List<Inferred> inferred,
    List<ToAsk> toAsk,
    List<Unused> unused,
    List<Remark> remarks) {

  /** A stretch that took the year both its neighbours have. */
  public record Inferred(
      String routeId, double fromAlongM, double toAlongM, int year, String rule) {}

  /** A question for someone who knows the road. */
  public record ToAsk(
      String routeId, double fromAlongM, double toAlongM, int repairs, String question) {}

  /** A row of the records that is not counted, and why. */
  public record Unused(String patchId, String why) {}

  /** A row or stretch counted under an assumption. */
  public record Remark(String subject, String text) {}

  public Exposure {
    inferred = List.copyOf(inferred);
    toAsk = List.copyOf(toAsk);
    unused = List.copyOf(unused);
    remarks = List.copyOf(remarks);
  }
}
