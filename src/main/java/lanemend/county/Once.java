package lanemend.county;

import java.lang.ref.SoftReference;
import java.util.function.Supplier;

/**
 * A value worked out when it is first asked for and then kept as long as there is memory for it:
 * the repairs of 50,000 defects fill a gigabyte. Safe for several threads, of which the later wait
 * for the first. What cannot be worked out is tried again when asked for again.
 */
final class Once<T> implements Supplier<T> {
  private final Supplier<T> source;
  private SoftReference<T> kept = new SoftReference<>(null);

  Once(Supplier<T> source) {
    this.source = source;
  }

  @Override
  public synchronized T get() {
    T value = kept.get();
    if (value == null) {
      value = source.get();
      kept = new SoftReference<>(value);
    }
    return value;
  }
}
