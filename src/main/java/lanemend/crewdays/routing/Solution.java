package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * Days under search: which stops in which slot in which order, with what they use of everything
 * shared. Changed slots are remembered, so that taking a change over, or back, copies only those.
 */
final class Solution {
  private static final double EPS = 1e-7;

  final DayProblem p;
  private final StopKinds byStop;
  final int[][] seq;
  final int[] size;
  final int[] kind;
  final double[] load;
  final double[] busy;
  final double[] wait;
  final double[] firstWait;
  final double[] cost;

  /** Minutes each slot's driving and work may grow by at most; NaN until asked for. */
  private final double[] room;

  /** What is kept of each slot where days wait or are uncertain; empty where minutes add up. */
  final TimedDay[] timed;

  /** Slot of each stop, or -1. */
  final int[] slotOf;

  /** Stops in no slot. */
  final int[] absent;

  int absentCount;

  /** Slots in use, in no order that means anything. */
  final int[] active;

  int activeCount;
  private final int[] activeAt;

  final int machines;
  private final int sources;
  private final int[] slotMachine;
  private final int[] dateMachine;

  /** Machines a slot has, and machines of which a date has no more, as bits. */
  private final int[] slotBits;

  private final int[] fullBits;
  private final double[] dateSource;
  private final double[] stockUsed;
  private final int[] datePool;

  final int[] dirty;
  int dirtyCount;
  private final boolean[] isDirty;
  private final DayPrice price;

  /** Cost of the days. */
  double days;

  /** Cost of what is left out. */
  double skipped;

  Solution(DayProblem p) {
    this.p = p;
    byStop = p.byStop();
    int slots = p.slots().length;
    seq = new int[slots][4];
    size = new int[slots];
    kind = new int[slots];
    load = new double[slots];
    busy = new double[slots];
    wait = new double[slots];
    firstWait = new double[slots];
    cost = new double[slots];
    room = new double[slots];
    timed = new TimedDay[p.additive() ? 0 : slots];
    Arrays.setAll(timed, s -> new TimedDay());
    slotOf = new int[p.stops()];
    absent = new int[p.stops()];
    active = new int[slots];
    activeAt = new int[slots];
    machines = p.shared().machineLimit().length == 0 ? 0 : p.shared().machineLimit()[0].length;
    sources = p.shared().sourceLimit().length == 0 ? 0 : p.shared().sourceLimit()[0].length;
    slotMachine = new int[slots * machines];
    dateMachine = new int[p.dates() * machines];
    slotBits = new int[slots];
    fullBits = new int[p.dates()];
    for (int d = 0; d < p.dates(); d++) {
      for (int m = 0; m < machines; m++) {
        fullBits[d] |= p.shared().machineLimit()[d][m] <= 0 ? 1 << m : 0;
      }
    }
    dateSource = new double[p.dates() * sources];
    stockUsed = new double[p.shared().stock().length];
    datePool = new int[p.shared().pool().length];
    dirty = new int[slots];
    isDirty = new boolean[slots];
    price = new DayPrice(p);
    Arrays.fill(slotOf, -1);
    Arrays.fill(activeAt, -1);
    for (int s = 0; s < slots; s++) {
      kind[s] = p.slots()[s].kinds()[0];
    }
    for (int c = 0; c < p.stops(); c++) {
      absent[absentCount++] = c;
      skipped += p.skipCost()[c];
    }
  }

  double total() {
    return days + skipped;
  }

  /** True when the slot, run as {@code asKind}, has room for the stop apart from time. */
  boolean admits(int slot, int asKind, int stop) {
    // First what most slots fail by and what is soon looked up.
    if (!byStop.can(asKind, stop)) {
      return false;
    }
    int date = p.date(slot);
    if (machines > 0 && !machinesFree(slot, date, p.shared().machineBits()[stop])) {
      return false;
    }
    DayKind k = p.kinds()[asKind];
    double demand = p.demand()[stop];
    if (load[slot] + demand > k.capacity() + EPS
        || (size[slot] == 0 && !poolAllows(slot, asKind))) {
      return false;
    }
    return !(demand > 0) || sourceGives(date, k.source(), demand);
  }

  /** True when a source has this much left, on the date and in all. */
  private boolean sourceGives(int date, int source, double demand) {
    if (sources == 0 || source < 0) {
      return true;
    }
    return dateSource[date * sources + source] + demand
            <= p.shared().sourceLimit()[date][source] + EPS
        && (stockUsed.length == 0
            || stockUsed[source] + demand <= p.shared().stock()[source] + EPS);
  }

  /** True when the date's pool has room for the slot run as this kind. */
  private boolean poolAllows(int slot, int asKind) {
    if (datePool.length == 0) {
      return true;
    }
    int date = p.date(slot);
    int[] units = p.shared().units();
    int own = size[slot] == 0 ? 0 : units[kind[slot]];
    return datePool[date] - own + units[asKind] <= p.shared().pool()[date];
  }

  /** False when no kind of day with the stop can be opened in an empty slot, whatever its time. */
  boolean mayOpen(int slot, int stop, int leastUnits) {
    int date = p.date(slot);
    return (datePool.length == 0 || datePool[date] + leastUnits <= p.shared().pool()[date])
        && (machines == 0 || machinesFree(slot, date, p.shared().machineBits()[stop]));
  }

  private boolean machinesFree(int slot, int date, int bits) {
    return (bits & ~slotBits[slot] & fullBits[date]) == 0;
  }

  /** Puts a stop into a slot before position {@code at} and prices the slot anew. */
  void insert(int slot, int at, int stop) {
    touch(slot);
    if (size[slot] == seq[slot].length) {
      seq[slot] = Arrays.copyOf(seq[slot], 2 * size[slot]);
    }
    int[] s = seq[slot];
    System.arraycopy(s, at, s, at + 1, size[slot] - at);
    s[at] = stop;
    size[slot]++;
    if (size[slot] == 1) {
      activate(slot);
    }
    slotOf[stop] = slot;
    use(slot, stop, 1);
    refresh(slot);
  }

  /**
   * True when an empty slot, run as {@code asKind}, has room for all these stops apart from time.
   */
  boolean admitsAll(int slot, int asKind, int[] stops, int count) {
    DayKind k = p.kinds()[asKind];
    int date = p.date(slot);
    double demand = 0;
    int bits = 0;
    for (int i = 0; i < count; i++) {
      if (!byStop.can(asKind, stops[i])) {
        return false;
      }
      demand += p.demand()[stops[i]];
      bits |= p.shared().machineBits()[stops[i]];
    }
    return sourceGives(date, k.source(), demand)
        && demand <= k.capacity() + EPS
        && poolAllows(slot, asKind)
        && machinesFree(slot, date, bits);
  }

  /** Takes a stop out of its day and counts it as left out. */
  void leaveOut(int slot, int at) {
    int stop = seq[slot][at];
    absent[absentCount++] = stop;
    skipped += p.skipCost()[stop];
    removeAt(slot, at);
  }

  /** Takes a stop out; {@link #refresh} must follow before the slot's cost is read. */
  void removeAt(int slot, int at) {
    touch(slot);
    int[] s = seq[slot];
    int stop = s[at];
    size[slot]--;
    System.arraycopy(s, at + 1, s, at, size[slot] - at);
    slotOf[stop] = -1;
    use(slot, stop, -1);
    if (size[slot] == 0) {
      deactivate(slot);
      load[slot] = 0;
    }
  }

  private void use(int slot, int stop, int sign) {
    double demand = p.demand()[stop];
    load[slot] += sign * demand;
    int date = p.date(slot);
    int source = p.kinds()[kind[slot]].source();
    draw(date, source, sign * demand);
    int bits = machines == 0 ? 0 : p.shared().machineBits()[stop];
    for (int m = 0; m < machines; m++) {
      if ((bits >> m & 1) != 0) {
        int i = slot * machines + m;
        int before = slotMachine[i];
        slotMachine[i] += sign;
        if (before == 0) {
          takeMachine(slot, date, m, 1);
        } else if (slotMachine[i] == 0) {
          takeMachine(slot, date, m, -1);
        }
      }
    }
  }

  private void takeMachine(int slot, int date, int m, int sign) {
    int used = dateMachine[date * machines + m] += sign;
    int bit = 1 << m;
    slotBits[slot] = sign > 0 ? slotBits[slot] | bit : slotBits[slot] & ~bit;
    boolean full = used >= p.shared().machineLimit()[date][m];
    fullBits[date] = full ? fullBits[date] | bit : fullBits[date] & ~bit;
  }

  private void draw(int date, int source, double demand) {
    if (sources > 0 && source >= 0) {
      dateSource[date * sources + source] += demand;
      if (stockUsed.length > 0) {
        stockUsed[source] += demand;
      }
    }
  }

  /** Runs the slot as another kind; the caller has made sure that it can. */
  void setKind(int slot, int to) {
    touch(slot);
    if (size[slot] > 0) {
      int date = p.date(slot);
      draw(date, p.kinds()[kind[slot]].source(), -load[slot]);
      draw(date, p.kinds()[to].source(), load[slot]);
      if (datePool.length > 0) {
        datePool[date] += p.shared().units()[to] - p.shared().units()[kind[slot]];
      }
    }
    kind[slot] = to;
  }

  /** True when the date's source and pool still have room if the slot changes to this kind. */
  boolean sourceAllows(int slot, int to) {
    int source = p.kinds()[to].source();
    return poolAllows(slot, to)
        && (source == p.kinds()[kind[slot]].source()
            || sourceGives(p.date(slot), source, load[slot]));
  }

  /**
   * Prices a slot anew and keeps the total in step.
   *
   * @return false when the day breaks its limits
   */
  boolean refresh(int slot) {
    days -= cost[slot];
    boolean fits = price.price(kind[slot], p.date(slot), seq[slot], size[slot], -1, -1);
    busy[slot] = price.busy;
    wait[slot] = price.wait;
    firstWait[slot] = price.firstWait;
    cost[slot] = size[slot] == 0 ? 0 : price.cost;
    days += cost[slot];
    room[slot] = Double.NaN;
    if (timed.length > 0) {
      timed[slot].keep(p, byStop, kind[slot], p.date(slot), seq[slot], size[slot], price);
    }
    return fits;
  }

  /** As {@link DayProblem#mostBusy}, less what the day is busy now. */
  double room(int slot) {
    if (Double.isNaN(room[slot])) {
      room[slot] = p.mostBusy(kind[slot], timed[slot].separate) - busy[slot];
    }
    return room[slot];
  }

  /** Adds every cost up anew, against rounding drift. */
  void retotal() {
    double sum = 0;
    for (int i = 0; i < cost.length; i++) {
      sum += cost[i];
    }
    days = sum;
  }

  private void touch(int slot) {
    if (!isDirty[slot]) {
      isDirty[slot] = true;
      dirty[dirtyCount++] = slot;
    }
  }

  private void activate(int slot) {
    activeAt[slot] = activeCount;
    active[activeCount++] = slot;
    if (datePool.length > 0) {
      datePool[p.date(slot)] += p.shared().units()[kind[slot]];
    }
  }

  private void deactivate(int slot) {
    int at = activeAt[slot];
    int last = active[--activeCount];
    active[at] = last;
    activeAt[last] = at;
    activeAt[slot] = -1;
    if (datePool.length > 0) {
      datePool[p.date(slot)] -= p.shared().units()[kind[slot]];
    }
  }

  /** Forgets which slots changed. */
  void clean() {
    for (int i = 0; i < dirtyCount; i++) {
      isDirty[dirty[i]] = false;
    }
    dirtyCount = 0;
  }

  /** Makes this equal to {@code other} in the slots listed, and in what is left out. */
  void take(Solution other, int[] slots, int count) {
    for (int i = 0; i < count; i++) {
      takeSlot(other, slots[i]);
    }
    System.arraycopy(other.absent, 0, absent, 0, other.absentCount);
    absentCount = other.absentCount;
    for (int i = 0; i < absentCount; i++) {
      slotOf[absent[i]] = -1;
    }
    System.arraycopy(other.dateMachine, 0, dateMachine, 0, dateMachine.length);
    System.arraycopy(other.fullBits, 0, fullBits, 0, fullBits.length);
    System.arraycopy(other.dateSource, 0, dateSource, 0, dateSource.length);
    System.arraycopy(other.stockUsed, 0, stockUsed, 0, stockUsed.length);
    System.arraycopy(other.datePool, 0, datePool, 0, datePool.length);
    days = other.days;
    skipped = other.skipped;
  }

  /** Makes this equal to {@code other}. */
  void takeAll(Solution other) {
    for (int s = 0; s < size.length; s++) {
      takeSlot(other, s);
    }
    take(other, dirty, 0);
  }

  private void takeSlot(Solution other, int slot) {
    int n = other.size[slot];
    if (seq[slot].length < n) {
      seq[slot] = new int[other.seq[slot].length];
    }
    System.arraycopy(other.seq[slot], 0, seq[slot], 0, n);
    if (size[slot] == 0 && n > 0) {
      activate(slot);
    } else if (size[slot] > 0 && n == 0) {
      deactivate(slot);
    }
    size[slot] = n;
    kind[slot] = other.kind[slot];
    load[slot] = other.load[slot];
    busy[slot] = other.busy[slot];
    wait[slot] = other.wait[slot];
    firstWait[slot] = other.firstWait[slot];
    cost[slot] = other.cost[slot];
    room[slot] = other.room[slot];
    slotBits[slot] = other.slotBits[slot];
    if (timed.length > 0) {
      timed[slot].take(other.timed[slot], n);
    }
    for (int i = 0; i < n; i++) {
      slotOf[seq[slot][i]] = slot;
    }
    System.arraycopy(other.slotMachine, slot * machines, slotMachine, slot * machines, machines);
  }
}
