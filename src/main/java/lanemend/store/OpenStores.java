package lanemend.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** Which files this process has open as stores. */
final class OpenStores {
  private static final Map<Path, Integer> OPEN = new ConcurrentHashMap<>();

  private OpenStores() {}

  /** Returns what to give to {@link #remove}: the file may have another name by then. */
  static Path add(Path file) {
    Path real = real(file);
    OPEN.merge(real, 1, Integer::sum);
    return real;
  }

  static void remove(Path added) {
    OPEN.computeIfPresent(added, (file, times) -> times == 1 ? null : times - 1);
  }

  static boolean has(Path file) {
    return OPEN.containsKey(real(file));
  }

  private static Path real(Path file) {
    try {
      return file.toRealPath();
    } catch (IOException e) {
      return file.toAbsolutePath().normalize();
    }
  }
}
