package lanemend.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.Plan;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.UnitSystem;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.WorkStep;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code explain}: how each number of one repair was reached. */
@Command(
    name = "explain",
    description = "Show how each number of a defect's repair was reached: rule, inputs, source.")
final class ExplainCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(paramLabel = "DEFECT", description = "the defect's id")
  private String id;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      County county = County.read(store);
      Defect defect =
          county.defects().stream()
              .filter(d -> d.id().equals(id))
              .findFirst()
              .orElseThrow(() -> new Refusal("there is no defect '" + id + "'"));
      PrintWriter out = spec.commandLine().getOut();
      explain(county.design(defect), county.units(), out);
      if (!county.assignment().days().isEmpty()) {
        Plan plan = county.plan();
        planned(plan, defect, county.units(), out);
        KeptProof.of(store).ifPresent(p -> out.println("the plan: " + p.words(plan.currency())));
      }
    }
    return ExitCode.DONE;
  }

  private static void explain(PatchDesign design, UnitSystem units, PrintWriter out) {
    Defect d = design.defect();
    out.println(
        d.id()
            + ": "
            + d.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ')
            + " on "
            + d.place().routeId());
    out.println("treatment: " + words(design) + ", because " + design.choice().reason());
    design.setting().assumed().forEach(a -> out.println("assumed: " + a));
    design.figures().forEach(f -> figure(f, units, out));
    design.steps().stream().map(WorkStep::minutes).forEach(f -> figure(f, units, out));
    design.layDown().ifPresent(l -> l.figures().forEach(f -> figure(f, units, out)));
    design.cautions().forEach(c -> out.println("caution: " + c));
  }

  /** The crew day the defect is on, with how its times, chance and cost were reached. */
  private static void planned(Plan plan, Defect defect, UnitSystem units, PrintWriter out) {
    for (CrewDay day : plan.days()) {
      for (CrewDay.Stop stop : day.stops()) {
        if (stop.zone().repairs().stream()
            .anyMatch(r -> RepairPart.defectOf(r.defect().id()).equals(defect.id()))) {
          out.println();
          out.println(
              "planned: " + day.crew().name() + " on " + day.date() + ", at " + stop.arrive());
          stop.figures().forEach(f -> figure(f, units, out));
          day.figures().forEach(f -> figure(f, units, out));
        }
      }
    }
    plan.leftOut().stream()
        .filter(l -> RepairPart.defectOf(l.defectId()).equals(defect.id()))
        .forEach(l -> out.println("not planned: " + l.reason()));
  }

  private static String words(PatchDesign design) {
    return design.choice().treatment().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }

  private static void figure(Figure f, UnitSystem units, PrintWriter out) {
    out.println();
    out.println(f.name() + " = " + units.show(f.value(), f.unit()).text());
    out.println("  rule: " + f.formula());
    out.println(
        "  from: "
            + f.inputs().stream()
                .map(i -> i.name() + " " + units.show(i.value(), i.unit()).text())
                .collect(Collectors.joining(", ")));
    out.println("  source: " + f.source());
  }
}
