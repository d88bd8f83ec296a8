package lanemend.cli;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.store.Store;
import lanemend.store.StoreState;

/** What an operator should know before a store is worked with, though the work can go on. */
final class StartCheck {
  private static final long LITTLE_ROOM_BYTES = 200_000_000;
  private static final double BYTES_PER_MB = 1e6;

  /** Clocks of two computers that keep time are never so far apart. */
  private static final Duration CLOCKS_APART = Duration.ofMinutes(2);

  private StartCheck() {}

  /** One sentence each; none when all is well. */
  static List<String> notes(Store store, Instant now) {
    StoreState state = StoreState.of(store);
    List<String> notes = new ArrayList<>();
    state
        .lastChangeAt()
        .filter(at -> at.isAfter(now.plus(CLOCKS_APART)))
        .ifPresent(at -> notes.add(clock(now, at)));
    if (state.freeBytes() < LITTLE_ROOM_BYTES) {
      notes.add(
          String.format(
              Locale.ROOT,
              "the disk of %s is nearly full: %.0f MB are left; make room before much is written",
              store.file(),
              state.freeBytes() / BYTES_PER_MB));
    }
    return notes;
  }

  private static String clock(Instant now, Instant last) {
    return "this computer's clock says "
        + now.truncatedTo(ChronoUnit.SECONDS)
        + ", but the last change in the store is of "
        + last.truncatedTo(ChronoUnit.SECONDS)
        + ": set the clock; the order of changes is kept by their numbers, but what is asked 'as of'"
        + " a day may be wrong";
  }
}
