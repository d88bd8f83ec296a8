package lanemend.network.edit;

/**
 * Where a stretch of road of before, or a piece of it, lies after an edit.
 *
 * @param fromM along; {@code fromM <= toM}
 * @param beforeM length of the piece before the edit
 * @param turned along grows the other way here, so that left and right change places
 */
public record Image(
    String routeId, double fromM, double toM, double beforeM, Ground ground, boolean turned) {

  public double lengthM() {
    return toM - fromM;
  }
}
