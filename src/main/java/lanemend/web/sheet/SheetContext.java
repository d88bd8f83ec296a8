package lanemend.web.sheet;

import java.util.Objects;
import lanemend.crewdays.Agency;
import lanemend.network.HaulGraph;
import lanemend.network.Locator;
import lanemend.network.Network;

/**
 * What every sheet of an agency is drawn from, besides the crew day itself. Safe for several
 * threads, so sheets can be printed side by side.
 *
 * @param agency name, units, yards, plants and rates
 * @param network the roads, in the coordinate system of every x and y of the day
 * @param locator of that network; draws work zones
 * @param haul of that network; draws the crew's drive and the trucks' haul
 */
public record SheetContext(Agency agency, Network network, Locator locator, HaulGraph haul) {
  public SheetContext {
    Objects.requireNonNull(agency);
    Objects.requireNonNull(network);
    Objects.requireNonNull(locator);
    Objects.requireNonNull(haul);
  }
}
