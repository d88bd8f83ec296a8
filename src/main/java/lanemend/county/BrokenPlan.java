package lanemend.county;

import java.util.List;

/** A plan that breaks limits, so that it is not kept. */
public final class BrokenPlan extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<String> broken;

  /**
   * @param broken each limit, a sentence each
   */
  public BrokenPlan(List<String> broken) {
    super(
        "the plan was not kept, as it breaks a limit: "
            + String.join("; ", broken.subList(0, Math.min(3, broken.size()))));
    this.broken = List.copyOf(broken);
  }

  public List<String> broken() {
    return broken;
  }
}
