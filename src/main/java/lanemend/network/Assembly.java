package lanemend.network;

import java.util.List;

/**
 * What source lines came to.
 *
 * @param network routes by id in the order of their names, all without posts yet
 * @param runs one for each stretch a source line drew, by route and along
 * @param notes what was decided, mended or left out
 */
public record Assembly(
    Network network,
    List<LineRun> runs,
    List<ConnectorRun> connectorRuns,
    List<AssemblyNote> notes) {
  public Assembly {
    runs = List.copyOf(runs);
    connectorRuns = List.copyOf(connectorRuns);
    notes = List.copyOf(notes);
  }
}
