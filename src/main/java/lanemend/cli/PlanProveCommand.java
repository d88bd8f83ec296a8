package lanemend.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.crewdays.PlanProof;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code plan prove}: how far the kept plan is at most from the cheapest. */
@Command(
    name = "prove",
    description = {
      "Prove how far the kept plan is at most from the cheapest plan of its work zones.",
      "",
      "Ctrl-C ends it with what is proven so far."
    })
final class PlanProveCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--seconds",
      paramLabel = "S",
      defaultValue = "60",
      description = "at most (default: ${DEFAULT-VALUE})")
  private double seconds;

  @Override
  public Integer call() {
    Refusal.unless(seconds > 0, "--seconds", seconds, "more than 0");
    try (Store store = work.open();
        KeptOnInterrupt kept = new KeptOnInterrupt()) {
      PlanDesk desk = new PlanDesk(store, work.who(), spec.commandLine().getOut());
      County county = desk.planned();
      Optional<PlanProof> proof =
          county
              .plans()
              .prove(
                  county.agency(),
                  county.repairs(),
                  county.plans().waiting(county.assignment()),
                  seconds,
                  kept.hearing((stage, share, cost) -> true));
      proof.ifPresent(
          p -> store.write(work.who(), "plan prove", change -> KeptProof.put(change, p)));
      String currency = county.agency().plan().currency();
      spec.commandLine().getOut().println("proof      " + Planning.words(proof, currency));
    }
    return ExitCode.DONE;
  }
}
