package lanemend.network;

import java.util.List;

/** A route with its mileposts, and what could not be used of the posts. */
public record Calibration(Route route, List<AssemblyNote> notes) {
  public Calibration {
    notes = List.copyOf(notes);
  }
}
