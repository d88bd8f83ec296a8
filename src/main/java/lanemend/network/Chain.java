package lanemend.network;

import java.util.ArrayList;
import java.util.List;

/** Pieces passed one after the other without a break, none against its traffic. */
record Chain(List<Travelled> path) {
  Chain {
    path = List.copyOf(path);
  }

  double lengthM() {
    return path.stream().mapToDouble(t -> t.piece().lengthM()).sum();
  }

  int from() {
    return path.get(0).from();
  }

  int to() {
    return path.get(path.size() - 1).to();
  }

  /** True where at least half the length is one-way. */
  boolean mostlyOneWay() {
    double oneWay =
        path.stream().filter(t -> t.piece().oneWay()).mapToDouble(t -> t.piece().lengthM()).sum();
    return 2 * oneWay >= lengthM();
  }

  /** Leaves out what runs against its traffic; what remains falls into chains. */
  static List<Chain> withTraffic(List<Travelled> path) {
    List<Chain> chains = new ArrayList<>();
    List<Travelled> run = new ArrayList<>();
    for (Travelled t : path) {
      if (t.against()) {
        addIfAny(run, chains);
      } else {
        run.add(t);
      }
    }
    addIfAny(run, chains);
    return chains;
  }

  private static void addIfAny(List<Travelled> run, List<Chain> chains) {
    while (!run.isEmpty() && run.get(0).piece().filler()) {
      run.remove(0);
    }
    while (!run.isEmpty() && run.get(run.size() - 1).piece().filler()) {
      run.remove(run.size() - 1);
    }
    if (!run.isEmpty()) {
      chains.add(new Chain(run));
    }
    run.clear();
  }
}
