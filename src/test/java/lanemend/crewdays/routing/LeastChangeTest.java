package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The least change against every change there is, on cases small enough for that. */
class LeastChangeTest {

  /** What a change comes to, compared in this order. */
  private record Measure(int frozen, int off, int days, int moved) implements Comparable<Measure> {
    @Override
    public int compareTo(Measure o) {
      int[] a = {frozen, off, days, moved};
      int[] b = {o.frozen, o.off, o.days, o.moved};
      return Arrays.compare(a, b);
    }
  }

  /** Gives every stop every slot (or none) and keeps the least measure that breaks no limit. */
  private static final class EveryChange {
    private final DayProblem p;
    private final int[] before;
    private final int fresh;
    private final boolean[] frozen;
    private Measure least;

    EveryChange(DayProblem p, int[] before, int fresh, boolean[] frozen) {
      this.p = p;
      this.before = before;
      this.fresh = fresh;
      this.frozen = frozen;
    }

    Measure least() {
      assign(0, new int[p.stops()]);
      return least;
    }

    private void assign(int stop, int[] slot) {
      if (stop < p.stops()) {
        int from = stop == fresh ? 0 : -1;
        // What was left out before stays out: it is nobody's business here.
        int to = before[stop] < 0 && stop != fresh ? 0 : p.slots().length;
        for (int s = from; s < to; s++) {
          slot[stop] = s;
          assign(stop + 1, slot);
        }
        return;
      }
      Measure measure = measure(slot);
      if ((least == null || measure.compareTo(least) < 0) && holds(slot)) {
        least = measure;
      }
    }

    private Measure measure(int[] slot) {
      boolean[] changed = new boolean[p.slots().length];
      int moved = 0;
      int off = 0;
      for (int c = 0; c < p.stops(); c++) {
        if (c != fresh && slot[c] != before[c]) {
          changed[before[c]] = true;
          off += slot[c] < 0 ? 1 : 0;
          if (slot[c] >= 0) {
            changed[slot[c]] = true;
            moved++;
          }
        }
      }
      changed[slot[fresh]] = true;
      int days = -1;
      int ice = 0;
      for (int s = 0; s < changed.length; s++) {
        days += changed[s] ? 1 : 0;
        ice += changed[s] && frozen[s] ? 1 : 0;
      }
      return new Measure(ice, off, days, moved);
    }

    /** True when some kinds and orders of the days keep every limit. */
    private boolean holds(int[] slot) {
      List<List<Integer>> days = new ArrayList<>();
      for (int s = 0; s < p.slots().length; s++) {
        days.add(new ArrayList<>());
      }
      for (int c = 0; c < p.stops(); c++) {
        if (slot[c] >= 0) {
          days.get(slot[c]).add(c);
        }
      }
      return new DaySearchTest.EveryWay(p).runs(days);
    }
  }

  private static KeptDays planned(DayProblem p, int fresh) {
    // The plan without the new stop: leaving it out is free, everything else is dear.
    double[] skip = p.skipCost().clone();
    skip[fresh] = 0;
    DayProblem without =
        new DayProblem(
            p.stops(),
            p.depots(),
            p.legs(),
            p.kinds(),
            p.slots(),
            p.service(),
            p.stopCost(),
            p.demand(),
            p.late(),
            p.shared(),
            skip,
            p.supply(),
            p.chance());
    SearchResult found =
        DaySearch.solve(without, SearchBudget.iterations(3_000, 1), SearchProgress.NONE);
    int[][] seq = new int[p.slots().length][0];
    int[] kind = new int[p.slots().length];
    for (int s = 0; s < kind.length; s++) {
      kind[s] = p.slots()[s].kinds()[0];
    }
    for (SearchResult.Day day : found.days()) {
      seq[day.slot()] = day.stops().stream().mapToInt(c -> c).filter(c -> c != fresh).toArray();
      kind[day.slot()] = day.kind();
    }
    return new KeptDays(p, seq, kind);
  }

  @Test
  void nothingLessThanWhatItFindsWouldDo() {
    int found = 0;
    int moves = 0;
    for (int seed = 0; seed < 60; seed++) {
      Random random = new Random(seed);
      DayProblem p = DaySearchTest.county(random, 4 + seed % 3);
      int fresh = p.stops() - 1;
      KeptDays days = planned(p, fresh);
      boolean[] frozen = new boolean[p.slots().length];
      frozen[0] = seed % 4 == 0;
      int[] before = new int[p.stops()];
      Arrays.fill(before, -1);
      for (int s = 0; s < frozen.length; s++) {
        for (int c : days.stops(s)) {
          before[c] = s;
        }
      }
      boolean[] mayLeave = new boolean[p.stops()];
      Arrays.fill(mayLeave, true);
      LeastChange.Found change =
          new LeastChange(days, frozen, mayLeave, 60)
              .find(List.of(new LeastChange.Entry(fresh, -1)));
      Measure least = new EveryChange(p, before, fresh, frozen).least();
      if (change == null) {
        assertEquals(null, least, "seed " + seed);
        continue;
      }
      found++;
      moves += change.moved().size();
      Measure own =
          new Measure(
              change.frozen(), change.off().size(), change.changed().size(), change.moved().size());
      assertEquals(least, own, "seed " + seed + " proven " + change.proven());
      for (int s = 0; s < frozen.length; s++) {
        assertTrue(Double.isFinite(change.days().cost(s)), "seed " + seed);
      }
    }
    assertTrue(found > 30 && moves > 5, found + " found, " + moves + " moves");
  }

  @Test
  void aDayWithRoomTakesTheNewStopAndNothingElseChanges() {
    DayProblem p = DaySearchTest.county(new Random(3), 3);
    int[][] seq = {{}, {}, {}};
    KeptDays days = new KeptDays(p, seq, new int[] {0, 0, 3});
    LeastChange.Found change =
        new LeastChange(days, new boolean[3], new boolean[3], 10)
            .find(List.of(new LeastChange.Entry(0, -1)));
    assertNotNull(change);
    assertEquals(List.of(), change.changed());
    assertEquals(List.of(), change.moved());
    assertTrue(change.proven());
    assertEquals(0, days.cost(), 0);
  }
}
