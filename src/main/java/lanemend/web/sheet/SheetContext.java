package lanemend.web.sheet;

import java.util.Objects;
import lanemend.crewdays.Agency;
import lanemend.network.Network;

/**
 * What every sheet of an agency is drawn from, besides the crew day itself.
 *
 * @param agency name, units, yards, plants and rates
 * @param network the roads, in the coordinate system of every x and y of the day
 * @param shapes draws work zones
 * @param paths draws the day's drive; {@link DrivePaths#UNKNOWN} leaves it out
 */
public record SheetContext(Agency agency, Network network, RoadShapes shapes, DrivePaths paths) {
  public SheetContext {
    Objects.requireNonNull(agency);
    Objects.requireNonNull(network);
    Objects.requireNonNull(shapes);
    Objects.requireNonNull(paths);
  }
}
