package lanemend.web.desk;

import java.net.URI;
import java.nio.file.Path;
import java.util.Optional;

/**
 * How a desk is set up.
 *
 * @param port 0 for any that is free
 * @param folder work folder, for files the desk writes
 * @param who whose changes these are, for the change log
 * @param tiles address of background map tiles with {@code {z}}, {@code {x}} and {@code {y}} in it;
 *     empty for none, which is how the desk comes: it asks no other host for anything
 */
public record DeskSettings(int port, Path folder, String who, Optional<String> tiles) {

  /** Checks the tile address. */
  public DeskSettings {
    tiles.ifPresent(DeskSettings::check);
  }

  private static void check(String address) {
    boolean whole =
        address.contains("{z}")
            && address.contains("{x}")
            && address.contains("{y}")
            && (address.startsWith("https://") || address.startsWith("http://"))
            && address.chars().noneMatch(c -> c <= ' ' || c == ';' || c == ',' || c == '\'');
    if (!whole) {
      throw new IllegalArgumentException(
          "found '"
              + address
              + "', expected a tile address such as https://tiles.example/{z}/{x}/{y}.png");
    }
    tileHost(address);
  }

  /** Scheme and host of the tiles, the one outside address a page may then ask for pictures. */
  static String tileHost(String address) {
    URI uri = URI.create(address.replaceAll("[{][^}]*}", "0"));
    return uri.getScheme() + "://" + uri.getAuthority();
  }
}
