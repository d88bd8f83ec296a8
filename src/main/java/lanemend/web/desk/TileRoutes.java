package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.zip.GZIPOutputStream;
import lanemend.accounts.Recent;

/**
 * What the map draws, by tile. A tile's address has the county's version in it, so a browser may
 * keep it for good; here each is worked out once for a version and kept packed.
 */
final class TileRoutes implements Area {
  private static final int KEPT = 4_000;
  private static final int DEEPEST = 19;

  private final CurrentCounty county;
  private final Filters filters;
  private final Map<String, byte[]> kept = new Recent<>(KEPT);

  TileRoutes(CurrentCounty county, Filters filters) {
    this.county = county;
    this.filters = filters;
  }

  @Override
  public void addTo(Api api) {
    api.get("/api/tiles/{version}/{z}/{x}/{y}", this::tile);
  }

  private void tile(Context c) throws IOException {
    int z = part(c, "z", DEEPEST);
    int x = part(c, "x", (1 << z) - 1);
    int y = part(c, "y", (1 << z) - 1);
    Set<TileLayer> layers = layers(c.queryParam("show"));
    String where = c.queryParam("where") == null ? "" : c.queryParam("where");
    MapIndex index = county.index();
    String version = index.drawing();
    String key = version + " " + z + " " + x + " " + y + " " + layers + " " + where;
    byte[] packed;
    synchronized (kept) {
      packed = kept.get(key);
    }
    if (packed == null) {
      BitSet chosen = filters.chosen(index.county(), where);
      packed = pack(Api.JSON.writeValueAsBytes(new Tile(index, z, x, y, chosen).cut(layers)));
      synchronized (kept) {
        kept.put(key, packed);
      }
    }
    boolean asked = c.pathParam("version").equals(version);
    c.header("Cache-Control", asked ? "private, max-age=86400, immutable" : "no-store");
    c.disableCompression().header("Content-Encoding", "gzip");
    c.contentType("application/json").result(packed);
  }

  private static int part(Context c, String name, int most) {
    double value = Api.number(name, c.pathParam(name));
    if (value != Math.rint(value) || value < 0 || value > most) {
      throw new Problem(
          Problem.Kind.BAD_REQUEST,
          String.format(Locale.ROOT, "%s is %s, expected a whole number to %d", name, value, most));
    }
    return (int) value;
  }

  private static Set<TileLayer> layers(String show) {
    if (show == null) {
      return EnumSet.allOf(TileLayer.class);
    }
    Set<TileLayer> layers = EnumSet.noneOf(TileLayer.class);
    for (String name : show.split(",", -1)) {
      if (!name.isBlank()) {
        layers.add(DeskWords.read(TileLayer.class, "layer", name.strip()));
      }
    }
    return layers;
  }

  private static byte[] pack(byte[] plain) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(plain.length / 3 + 64);
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      gzip.write(plain);
    }
    return out.toByteArray();
  }
}
