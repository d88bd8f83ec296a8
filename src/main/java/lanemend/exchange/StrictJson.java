package lanemend.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.json.JsonReadFeature;

/** How every JSON file is parsed, and what is said of one that is not JSON. */
final class StrictJson {
  private StrictJson() {}

  /**
   * A parser factory with bounds on depth and length. NaN is let through as a number so that the
   * row it stands in can be refused instead of the file.
   */
  static JsonFactory factory() {
    return JsonFactory.builder()
        .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
        .streamReadConstraints(
            StreamReadConstraints.builder()
                .maxNestingDepth(64)
                .maxStringLength(BoundedLines.MAX_CHARS)
                .maxNumberLength(10_000)
                .maxNameLength(10_000)
                .build())
        .build();
  }

  /** The file's problem, by the exception's place or, when it has none, the parser's. */
  static ExchangeException malformed(String file, JsonProcessingException e, JsonParser parser) {
    JsonLocation at = e.getLocation() == null ? parser.currentLocation() : e.getLocation();
    return new ExchangeException(
        new RowProblem(
            file,
            at.getLineNr(),
            "",
            "column " + at.getColumnNr() + ": " + firstLine(e.getOriginalMessage()),
            "well-formed JSON to the end of the file"));
  }

  private static String firstLine(String message) {
    int end = message.indexOf('\n');
    return end < 0 ? message : message.substring(0, end);
  }
}
