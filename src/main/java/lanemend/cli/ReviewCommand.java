package lanemend.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lanemend.county.WrittenMilepost;
import lanemend.inventory.Entered;
import lanemend.network.Candidate;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.SnapHint;
import lanemend.store.ReviewEntry;
import lanemend.store.Reviewing;
import lanemend.store.Store;
import lanemend.store.Stored;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code review}: what must be looked at after edits of roads. */
@Command(
    name = "review",
    description = {
      "List what must be looked at after edits of roads, and settle it.",
      "",
      "Each entry has a number; settle it by accept, place or withdraw."
    },
    subcommands = {
      ReviewCommand.Accept.class,
      ReviewCommand.PlaceIt.class,
      ReviewCommand.Withdraw.class
    })
final class ReviewCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(names = "--all", description = "settled entries too")
  private boolean all;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Store store = work.open()) {
      List<Stored<ReviewEntry>> entries = store.read(s -> s.review().stored());
      List<Stored<ReviewEntry>> shown =
          entries.stream().filter(e -> all || e.value().open()).toList();
      for (Stored<ReviewEntry> e : shown) {
        out.println(line(e));
      }
      out.printf(
          Locale.ROOT,
          "review     %,d to look at%n",
          entries.stream().filter(e -> e.value().open()).count());
    }
    return ExitCode.DONE;
  }

  private static String line(Stored<ReviewEntry> e) {
    ReviewEntry r = e.value();
    return String.format(
        Locale.ROOT,
        "%6d  %s  %s %s: %s%s",
        e.row(),
        r.raisedOn(),
        r.table().replace('_', ' '),
        r.key(),
        r.reason(),
        r.open()
            ? ""
            : " ("
                + r.settled()
                + " by "
                + r.settledBy()
                + " on "
                + r.settledOn()
                + (r.note().isEmpty() ? "" : ": " + r.note())
                + ")");
  }

  /** What every way to settle an entry has in common. */
  abstract static class Settle implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(paramLabel = "NUMBER", description = "the entry's number")
    private long number;

    @Option(names = "--note", paramLabel = "TEXT", defaultValue = "", description = "why")
    private String note;

    abstract ReviewEntry settle(Reviewing reviewing, Network network, long number, String note);

    abstract String done();

    @Override
    public Integer call() {
      LocalDate today = LocalDate.now(ZoneId.systemDefault());
      List<ReviewEntry> settled = new ArrayList<>();
      try (Store store = work.open()) {
        store.write(
            work.who(),
            "review " + number + " " + done(),
            change ->
                settled.add(
                    settle(
                        new Reviewing(change, work.who(), today),
                        change.soFar().network(),
                        number,
                        note)));
      }
      ReviewEntry e = settled.get(0);
      spec.commandLine()
          .getOut()
          .printf(
              Locale.ROOT,
              "review     %d %s: %s %s%n",
              number,
              done(),
              e.table().replace('_', ' '),
              e.key());
      return ExitCode.DONE;
    }
  }

  @Command(name = "accept", description = "It is right as it is.")
  static final class Accept extends Settle {
    @Override
    ReviewEntry settle(Reviewing reviewing, Network network, long number, String note) {
      return reviewing.accept(number, note);
    }

    @Override
    String done() {
      return "accepted";
    }
  }

  @Command(
      name = "withdraw",
      description = "It no longer stands: a defect is withdrawn, a fact ends.")
  static final class Withdraw extends Settle {
    @Override
    ReviewEntry settle(Reviewing reviewing, Network network, long number, String note) {
      return reviewing.withdraw(number, note);
    }

    @Override
    String done() {
      return "withdrawn";
    }
  }

  @Command(name = "place", description = "It lies here, on a road of today.")
  static final class PlaceIt extends Settle {
    @Option(names = "--route", paramLabel = "NAME", description = "the road it lies on")
    private String route;

    @Option(names = "--milepost", paramLabel = "MILES", description = "where, or where it begins")
    private String milepost;

    @Option(names = "--to", paramLabel = "MILES", description = "where it ends")
    private String to;

    @Mixin private AtOption at;

    @Override
    String done() {
      return "placed";
    }

    @Override
    ReviewEntry settle(Reviewing reviewing, Network network, long number, String note) {
      return reviewing.place(number, at.given() ? point(network) : milepost(network), note);
    }

    private Reviewing.Spot milepost(Network network) {
      if (route == null || milepost == null) {
        throw new Refusal("give --route and --milepost, or --at LON,LAT");
      }
      Route on = NamedRoute.of(network, route);
      double from = WrittenMilepost.along(on, milepost);
      double end = to == null ? from : WrittenMilepost.along(on, to);
      drawn(network, on, (from + end) / 2);
      return new Reviewing.Spot(
          on.id(),
          Math.min(from, end),
          Math.max(from, end),
          Entered.byMilepost(on.id(), milepost, to));
    }

    private static void drawn(Network network, Route on, double alongM) {
      if (new Locator(network).pointAt(on.id(), alongM, 0).isEmpty()) {
        throw new Refusal("there is no road there: it lies in a gap of " + on.id());
      }
    }

    private Reviewing.Spot point(Network network) {
      double[] xy = at.in(ProjectedCrs.fromWkt(network.crsWkt()));
      String only = route == null ? null : NamedRoute.of(network, route).id();
      List<Candidate> near =
          new Locator(network)
              .candidates(xy[0], xy[1], AtOption.REACH_M, SnapHint.NONE).stream()
                  .filter(c -> only == null || c.place().routeId().equals(only))
                  .toList();
      if (near.isEmpty()) {
        throw new Refusal(
            String.format(
                Locale.ROOT, "no such road lies within %.0f m of %s", AtOption.REACH_M, at));
      }
      if (near.size() > 1) {
        throw new Refusal(
            "the point lies near several places: "
                + String.join(
                    ", ",
                    near.stream()
                        .map(c -> c.place().routeId() + " " + c.place().milepost().text())
                        .toList())
                + "; give --route, or --route and --milepost");
      }
      double along = near.get(0).place().alongM();
      return new Reviewing.Spot(
          near.get(0).place().routeId(),
          along,
          along,
          Entered.byPoint(route, at.longitude(), at.latitude()));
    }
  }
}
