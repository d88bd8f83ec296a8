package lanemend.inventory;

import java.util.List;

/**
 * Two or more different values of one event table over one stretch, where only one can hold.
 *
 * @param values all that are found on the stretch, in the order in which they begin
 */
public record EventConflict(
    String routeId, double fromAlongM, double toAlongM, String table, List<String> values) {

  public EventConflict {
    values = List.copyOf(values);
  }
}
