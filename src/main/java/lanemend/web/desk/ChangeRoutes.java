package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Instant;
import java.util.List;
import lanemend.accounts.Role;
import lanemend.store.NoRoomException;
import lanemend.store.StoreException;
import lanemend.store.WriteDone;

/** What was written lately, by whom, and taking it back. */
final class ChangeRoutes implements Area {
  private static final int SHOWN = 40;

  private final CurrentCounty county;

  ChangeRoutes(CurrentCounty county) {
    this.county = county;
  }

  /**
   * One write.
   *
   * @param undoneBy the write that took it back, or 0
   * @param undoes the write it took back, or 0
   */
  record Write(
      long edit, Instant at, String who, String why, int rows, long undoneBy, long undoes) {}

  /** A write taken back. */
  record Undone(long edit, int rows) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/changes", c -> c.json(lately()));
    api.post("/api/changes/{edit}/undo", this::undo);
  }

  private List<Write> lately() {
    List<WriteDone> last = county.read(s -> s.writes(SHOWN));
    return last.stream()
        .map(
            w ->
                new Write(
                    w.edit(),
                    w.at(),
                    w.who(),
                    w.why(),
                    w.rows().values().stream().mapToInt(n -> n).sum(),
                    w.undoneBy(),
                    w.undoes()))
        .toList();
  }

  private void undo(Context c) {
    double edit = Api.number("edit", c.pathParam("edit"));
    refuseOthers(Caller.of(c), (long) edit);
    try {
      c.json(new Undone((long) edit, county.store().undo((long) edit, Caller.name(c))));
    } catch (NoRoomException e) {
      throw e;
    } catch (StoreException e) {
      throw new Problem(Problem.Kind.NO_LONGER, e.getMessage());
    }
  }

  /** A planner may take back anything, everybody else his own work. */
  private void refuseOthers(Caller caller, long edit) {
    if (caller.is(Role.PLANNER)) {
      return;
    }
    boolean others =
        county.read(s -> s.writes()).stream()
            .anyMatch(w -> w.edit() == edit && !w.who().equals(caller.name()));
    if (others) {
      throw new Problem(
          Problem.Kind.FORBIDDEN, "what somebody else changed is taken back by a planner");
    }
  }
}
