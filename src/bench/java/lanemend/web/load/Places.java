package lanemend.web.load;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Defects the users know of and where they lie, on roads; safe for several threads. */
final class Places {
  private static final Map<String, double[]> BY_ID = new HashMap<>();
  private static final List<String> IDS = new ArrayList<>();

  private Places() {}

  static synchronized void seen(String id, double lon, double lat) {
    if (BY_ID.put(id, new double[] {lon, lat}) == null) {
      IDS.add(id);
    }
  }

  static synchronized String id(Random random) {
    return IDS.get(random.nextInt(IDS.size()));
  }

  /** One of the first so many. */
  static synchronized String hot(Random random, int many) {
    return IDS.get(random.nextInt(Math.min(many, IDS.size())));
  }

  static synchronized double[] any(Random random) {
    return BY_ID.get(id(random));
  }
}
