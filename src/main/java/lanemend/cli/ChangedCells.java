package lanemend.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import lanemend.store.LoggedChange;

/** Which cells of a row a change made other. */
final class ChangedCells {
  private static final ObjectMapper JSON = new ObjectMapper();

  private ChangedCells() {}

  /** Such as {@code status: open -> done}; empty for a row that came or went. */
  static List<String> of(LoggedChange change) {
    List<String> cells = new ArrayList<>();
    if (change.before() == null || change.after() == null) {
      return cells;
    }
    try {
      JsonNode before = JSON.readTree(change.before());
      JsonNode after = JSON.readTree(change.after());
      for (Iterator<String> names = after.fieldNames(); names.hasNext(); ) {
        String name = names.next();
        JsonNode was = before.get(name);
        JsonNode is = after.get(name);
        if (!name.equals("version") && !is.equals(was)) {
          cells.add(name + ": " + text(was) + " -> " + text(is));
        }
      }
    } catch (JsonProcessingException e) {
      cells.add("the log entry is no JSON");
    }
    return cells;
  }

  private static String text(JsonNode node) {
    return node == null || node.isNull() ? "nothing" : node.asText();
  }
}
