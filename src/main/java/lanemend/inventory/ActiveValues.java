package lanemend.inventory;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** What one event table says where a sweep stands. */
interface ActiveValues {

  void add(LinearEvent started);

  /** Takes out an event that ends at {@code at}; the sweep has come so far. */
  void remove(LinearEvent ended, double at);

  /** What holds, or null. */
  String value();

  /** A copy of what a spot's value would be laid over: what holds, as a set. */
  Set<String> values();

  /** What holds at a spot of value {@code last}, where all of {@code said} is said. */
  String withSpot(Set<String> said, String last);

  boolean oneOnly();

  boolean inConflict();

  /** Of a table with one value at a place: the event that started last holds. */
  final class Last implements ActiveValues {
    /** Started last on top. An event that ended under another stays until it comes up. */
    private final Deque<LinearEvent> started = new ArrayDeque<>();

    /** Events under way, by value; only while there are two or more, which is seldom. */
    private Map<String, Integer> counts;

    private int underWay;

    /** The value of the one event under way, while there is one. */
    private String only;

    @Override
    public void add(LinearEvent event) {
      started.push(event);
      underWay++;
      if (underWay == 1) {
        only = event.value();
        return;
      }
      if (counts == null) {
        counts = new HashMap<>();
        counts.put(only, 1);
      }
      counts.merge(event.value(), 1, Integer::sum);
    }

    @Override
    public void remove(LinearEvent event, double at) {
      underWay--;
      if (counts != null) {
        counts.merge(event.value(), -1, (a, b) -> a + b == 0 ? null : a + b);
        if (underWay == 1) {
          only = counts.keySet().iterator().next();
          counts = null;
        }
      }
      while (!started.isEmpty() && started.peek().toAlongM() <= at) {
        started.pop();
      }
    }

    @Override
    public String value() {
      return started.isEmpty() ? null : started.peek().value();
    }

    @Override
    public Set<String> values() {
      Set<String> one = new LinkedHashSet<>();
      if (!started.isEmpty()) {
        one.add(value());
      }
      return one;
    }

    @Override
    public String withSpot(Set<String> said, String last) {
      return last;
    }

    @Override
    public boolean oneOnly() {
      return true;
    }

    @Override
    public boolean inConflict() {
      return counts != null && counts.size() > 1;
    }
  }

  /** Of a table whose events may lie over each other: all hold. */
  final class All implements ActiveValues {
    private static final String BETWEEN = ";";

    private final TreeMap<String, Integer> counts = new TreeMap<>();

    @Override
    public void add(LinearEvent event) {
      counts.merge(event.value(), 1, Integer::sum);
    }

    @Override
    public void remove(LinearEvent event, double at) {
      counts.merge(event.value(), -1, (a, b) -> a + b == 0 ? null : a + b);
    }

    @Override
    public String value() {
      return counts.isEmpty() ? null : String.join(BETWEEN, counts.keySet());
    }

    @Override
    public Set<String> values() {
      return new TreeSet<>(counts.keySet());
    }

    @Override
    public String withSpot(Set<String> said, String last) {
      return String.join(BETWEEN, said);
    }

    @Override
    public boolean oneOnly() {
      return false;
    }

    @Override
    public boolean inConflict() {
      return false;
    }
  }
}
