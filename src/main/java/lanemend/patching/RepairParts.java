package lanemend.patching;

import java.util.List;

/** Cuts a repair into parts that can be done on different days. */
@FunctionalInterface
public interface RepairParts {
  /** Cuts nothing. */
  RepairParts NONE = (whole, parts) -> List.of();

  /**
   * The parts in order along the road, equally long, their ids by {@link RepairPart#id()}; the same
   * each time.
   *
   * @return empty when the repair cannot be cut into so many
   */
  List<PatchDesign> cut(PatchDesign whole, int parts);
}
