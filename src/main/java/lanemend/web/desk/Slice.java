package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.List;

/**
 * The rows of a list that one answer shows.
 *
 * @param from number of the first among all
 */
record Slice<T>(int from, List<T> rows) {

  /**
   * What a request asks for with {@code from} and {@code count}: the first hundred unless it says.
   *
   * @param most rows an answer may have
   */
  static <T> Slice<T> of(Context c, List<T> all, int most) {
    int from = Api.whole(c, "from", 0, 0, Integer.MAX_VALUE);
    int count = Api.whole(c, "count", 100, 0, most);
    int end = (int) Math.min(all.size(), (long) from + count);
    return new Slice<>(from, List.copyOf(all.subList(Math.min(from, end), end)));
  }
}
