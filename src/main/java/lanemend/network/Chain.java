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

  boolean turnable() {
    return path.stream().noneMatch(t -> t.piece().oneWay());
  }

  boolean allOneWay() {
    return path.stream().allMatch(t -> t.piece().oneWay() || t.piece().filler());
  }

  Chain turned() {
    List<Travelled> turned = new ArrayList<>();
    path.forEach(t -> turned.add(0, t.turned()));
    return new Chain(turned);
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
