package lanemend.web.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/** The description of the JSON interface, OpenAPI 3: one file for each area, put together. */
final class OpenApi {
  private final ObjectNode whole;

  /**
   * @param areas names of files in {@code openapi/} beside {@code desk}, which has the head and
   *     what they share
   */
  OpenApi(String... areas) {
    whole = read("desk");
    ObjectNode paths = whole.withObject("/paths");
    ObjectNode schemas = whole.withObject("/components/schemas");
    for (String area : areas) {
      ObjectNode part = read(area);
      paths.setAll(part.withObject("/paths"));
      schemas.setAll(part.withObject("/components/schemas"));
    }
  }

  private static ObjectNode read(String area) {
    String file = Pages.ROOT + "/openapi/" + area + ".json";
    try (InputStream in = OpenApi.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("the program was built without " + file);
      }
      return (ObjectNode) Api.JSON.readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(file, e);
    }
  }

  ObjectNode whole() {
    return whole;
  }
}
