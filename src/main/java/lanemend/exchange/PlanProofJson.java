package lanemend.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Optional;
import lanemend.crewdays.PlanProof;

/** What is proven of the kept plan, as the store keeps it. */
public final class PlanProofJson {
  private PlanProofJson() {}

  /** The text that {@link #parse} reads. */
  public static String json(PlanProof proof) {
    return JsonText.of(
        out -> {
          out.writeStartObject();
          JsonText.number(out, "cost", proof.cost());
          JsonText.number(out, "left_out_price", proof.leftOutPrice());
          JsonText.number(out, "bound", proof.bound());
          out.writeNumberField("rounds", proof.rounds());
          out.writeEndObject();
        });
  }

  /** Reads the text; empty when it is none of ours, since it can be worked out again. */
  public static Optional<PlanProof> parse(String json) {
    try {
      JsonNode node = new ObjectMapper().readTree(json);
      return node.hasNonNull("cost") && node.hasNonNull("bound")
          ? Optional.of(
              new PlanProof(
                  node.get("cost").asDouble(),
                  node.path("left_out_price").asDouble(),
                  node.get("bound").asDouble(),
                  node.path("rounds").asInt()))
          : Optional.empty();
    } catch (JsonProcessingException e) {
      return Optional.empty();
    }
  }
}
