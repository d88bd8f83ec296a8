package lanemend.county;

import java.util.function.Supplier;

/**
 * A value worked out when it is first asked for and then kept; safe for several threads, of which
 * the later wait for the first. What cannot be worked out is tried again when asked for again.
 */
final class Once<T> implements Supplier<T> {
  private final Supplier<T> source;
  private T value;

  Once(Supplier<T> source) {
    this.source = source;
  }

  @Override
  public synchronized T get() {
    if (value == null) {
      value = source.get();
    }
    return value;
  }
}
