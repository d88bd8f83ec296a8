package lanemend.crewdays;

import java.util.List;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;

/** The side of the road a work zone takes, or both, one after the other. */
public enum ZoneSide {
  LEFT("left"),
  RIGHT("right"),
  /** The right side first; then the closure is turned over and the left side is done. */
  BOTH("both sides");

  private final String words;

  ZoneSide(String words) {
    this.words = words;
  }

  /** Where these repairs lie. */
  static ZoneSide of(List<PatchDesign> repairs) {
    Side first = repairs.get(0).defect().lane().side();
    return repairs.stream().anyMatch(r -> r.defect().lane().side() != first) ? BOTH : of(first);
  }

  static ZoneSide of(Side side) {
    return side == Side.LEFT ? LEFT : RIGHT;
  }

  /** The side whose lane is closed first. */
  public Side first() {
    return this == LEFT ? Side.LEFT : Side.RIGHT;
  }

  public String words() {
    return words;
  }
}
