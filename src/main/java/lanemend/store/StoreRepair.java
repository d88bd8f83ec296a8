package lanemend.store;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Puts right what {@link StoreCheck} finds and a program may put right: what follows from other
 * things in the file (R-trees, extents, the standard's tables, triggers, lengths, lines drawn along
 * a road). What a person entered is never changed. All of it lands together, in the change log like
 * any other edit.
 */
public final class StoreRepair {
  /** Enough for what only shows once something else is right. */
  private static final int ROUNDS = 6;

  private StoreRepair() {}

  /**
   * What came of a repair.
   *
   * @param done what was put right, a sentence each
   * @param left what a person must look at, a sentence each
   */
  public record Repaired(List<String> done, List<String> left) {
    public Repaired {
      done = List.copyOf(done);
      left = List.copyOf(left);
    }
  }

  /** True when a repair would change anything. */
  public static boolean isNeeded(Store store) {
    return !StoreCheck.troubles(store).fixes().isEmpty();
  }

  /**
   * Repairs a store.
   *
   * @param who whose change it is
   */
  public static Repaired repair(Store store, String who) {
    Troubles before = StoreCheck.troubles(store);
    if (before.fixes().isEmpty()) {
      return new Repaired(List.of(), before.sentences());
    }
    List<String> done = new ArrayList<>();
    List<String> left = new ArrayList<>();
    store.write(
        who,
        "check --repair",
        change -> {
          Set<String> tried = new HashSet<>();
          // Our own write uses table editing, so what is wrong there does not show from inside.
          Map<String, Troubles.Fix> unseen = new LinkedHashMap<>(before.fixes());
          for (int round = 0; round < ROUNDS; round++) {
            Troubles found = StoreCheck.troubles(change.session(), change.soFar());
            left.clear();
            left.addAll(found.sentences());
            unseen.keySet().removeAll(found.fixes().keySet());
            unseen.putAll(found.fixes());
            boolean more = false;
            for (Map.Entry<String, Troubles.Fix> fix : unseen.entrySet()) {
              if (tried.add(fix.getKey())) {
                change
                    .session()
                    .run(
                        () -> {
                          fix.getValue().in(change.session());
                          return null;
                        });
                done.add(fix.getKey());
                more = true;
              }
            }
            if (!more) {
              break;
            }
            unseen.clear();
          }
        });
    return new Repaired(done, left);
  }
}
