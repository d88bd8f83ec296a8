package lanemend.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.List;

/** Changes the yearly budgets of an agency file's text and nothing else of it. */
public final class AgencyBudgets {
  /** Numbers stay as they were written, to the last nought. */
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .build();

  private AgencyBudgets() {}

  /**
   * The text with these budgets in place of those it had.
   *
   * @param agencyText as {@link AgencyReader} reads it
   * @param yearlyBudgets in the agency's currency, from the program's first year; empty for none
   */
  public static String replaced(String agencyText, List<Double> yearlyBudgets) {
    try {
      ObjectNode agency = (ObjectNode) JSON.readTree(agencyText);
      ObjectNode renewal =
          agency.path("renewal").isObject()
              ? (ObjectNode) agency.get("renewal")
              : agency.putObject("renewal");
      renewal.remove("yearly_budgets");
      if (!yearlyBudgets.isEmpty()) {
        ArrayNode budgets = renewal.putArray("yearly_budgets");
        yearlyBudgets.forEach(b -> budgets.add(new BigDecimal(Numbers.plain(b))));
      }
      return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(agency) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("the agency's text is no longer JSON", e);
    }
  }
}
