package lanemend.web.renewal;

import java.util.Objects;
import lanemend.crewdays.Agency;
import lanemend.inventory.RoadAttributes;
import lanemend.network.Network;
import lanemend.renewal.RenewalStudy;

/**
 * What every evidence page of a study is drawn from.
 *
 * @param agency name, units and currency
 * @param network the roads; mileposts come from it
 * @param attributes of the roads; lanes, surface, traffic of the header come from it
 */
public record EvidenceContext(
    Agency agency, Network network, RoadAttributes attributes, RenewalStudy study) {
  public EvidenceContext {
    Objects.requireNonNull(agency);
    Objects.requireNonNull(network);
    Objects.requireNonNull(attributes);
    Objects.requireNonNull(study);
  }
}
