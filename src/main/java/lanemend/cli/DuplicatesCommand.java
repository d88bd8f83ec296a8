package lanemend.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import lanemend.county.County;
import lanemend.county.DuplicateDefects;
import lanemend.exchange.ApartJson;
import lanemend.inventory.DuplicatePair;
import lanemend.store.Change;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code duplicates}: defects that look like one seen twice. */
@Command(
    name = "duplicates",
    description = {
      "List defects that look like one recorded twice: same kind, place and lane, near in time;"
          + " the one to keep first, with the belief that they are one and the reasons.",
      "",
      "Nothing is merged by itself: 'duplicates merge' or 'duplicates apart' settles a pair."
    },
    subcommands = {DuplicatesCommand.Merge.class, DuplicatesCommand.Apart.class})
final class DuplicatesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      County county = County.read(store);
      DuplicateDefects duplicates = new DuplicateDefects(county.network(), county.locator());
      List<DuplicatePair> pairs = store.read(duplicates::proposed);
      PrintWriter out = spec.commandLine().getOut();
      pairs.forEach(p -> out.println(duplicates.text(p)));
      out.printf(
          Locale.ROOT,
          "duplicates %,d pairs proposed among %,d defects%s%n",
          pairs.size(),
          county.defects().size(),
          pairs.isEmpty()
              ? ""
              : "; settle with 'duplicates merge KEEP OTHER' or 'duplicates apart'");
      return ExitCode.DONE;
    }
  }

  /** {@code duplicates merge}. */
  @Command(
      name = "merge",
      description = {
        "Make two defects one: the first keeps its id and takes the extents of both, the worst"
            + " severity, photos and notes; the other is withdrawn and points to it.",
        "  duplicates merge D-104 D-377",
        "  duplicates merge --believed 95",
        "Both rows stay in the change log as they were."
      })
  static final class Merge implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(arity = "0..2", paramLabel = "ID", description = "the one to keep, and the other")
    private List<String> ids = List.of();

    @Option(
        names = "--believed",
        paramLabel = "PERCENT",
        description = "merge every proposed pair that is believed at least so much")
    private Double believed;

    @Override
    public Integer call() {
      if ((ids.size() == 2) == (believed != null) || ids.size() == 1) {
        throw new Refusal("name two defects, or give --believed PERCENT");
      }
      Refusal.unless(
          believed == null || (believed > 0 && believed <= 100),
          "--believed",
          believed,
          "a percentage, such as 95");
      try (Store store = work.open()) {
        County county = County.read(store);
        DuplicateDefects duplicates = new DuplicateDefects(county.network(), county.locator());
        Set<String> planned = planned(county);
        List<DuplicatePair> merged = new ArrayList<>();
        Consumer<Change> each =
            change -> {
              for (DuplicatePair p = next(duplicates, change);
                  p != null;
                  p = ids.isEmpty() ? next(duplicates, change) : null) {
                duplicates.merge(change, p);
                merged.add(p);
              }
            };
        String what = ids.isEmpty() ? "believed " + believed + " %" : String.join(" ", ids);
        store.write(work.who(), "merge duplicates " + what, each);
        PrintWriter out = spec.commandLine().getOut();
        for (DuplicatePair p : merged) {
          out.printf("merged     %s into %s%n", p.drop().id(), p.keep().id());
        }
        if (merged.stream()
            .anyMatch(p -> planned.contains(p.drop().id()) || planned.contains(p.keep().id()))) {
          out.println("  note: the plan holds some of these: run 'plan' again");
        }
        return merged.isEmpty() ? ExitCode.NOTHING_DONE : ExitCode.DONE;
      }
    }

    /** The pair named, else the best of those proposed as the store is now. */
    private DuplicatePair next(DuplicateDefects duplicates, Change change) {
      if (!ids.isEmpty()) {
        return duplicates.named(change.soFar(), ids.get(0), ids.get(1));
      }
      return duplicates.proposed(change.soFar()).stream()
          .filter(p -> p.belief() * 100 >= believed)
          .findFirst()
          .orElse(null);
    }

    private static Set<String> planned(County county) {
      Set<String> ids = new HashSet<>();
      county.assignment().days().forEach(d -> d.zones().forEach(z -> ids.addAll(z.defectIds())));
      return ids;
    }
  }

  /** {@code duplicates apart}. */
  @Command(
      name = "apart",
      description = {
        "Say that two defects are two, so that they are not proposed again.",
        "  duplicates apart D-104 D-377"
      })
  static final class Apart implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(arity = "2", paramLabel = "ID", description = "the two defects")
    private List<String> ids = List.of();

    @Override
    public Integer call() {
      try (Store store = work.open()) {
        store.write(
            work.who(),
            "defects " + ids.get(0) + " and " + ids.get(1) + " are two",
            change -> {
              for (String id : ids) {
                if (change.soFar().defects().find(id).isEmpty()) {
                  throw new Refusal("there is no defect '" + id + "'");
                }
              }
              Set<ApartJson.Pair> pairs =
                  new LinkedHashSet<>(DuplicateDefects.apart(change.soFar()));
              pairs.add(ApartJson.Pair.of(ids.get(0), ids.get(1)));
              DuplicateDefects.putApart(change, pairs);
            });
        spec.commandLine()
            .getOut()
            .printf("apart      %s and %s are two defects%n", ids.get(0), ids.get(1));
        return ExitCode.DONE;
      }
    }
  }
}
