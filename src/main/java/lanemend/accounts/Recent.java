package lanemend.accounts;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What is kept in mind by name: so many, of which the least recently asked for is forgotten first.
 * Not for several threads at a time.
 */
public final class Recent<V> extends LinkedHashMap<String, V> {
  private static final long serialVersionUID = 1L;

  private final int most;

  public Recent(int most) {
    super(16, 0.75f, true);
    this.most = most;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<String, V> eldest) {
    return size() > most;
  }
}
