package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.EnumSet;
import java.util.List;
import lanemend.measure.UnitSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Constants an agency may write itself, and what is looked at before a machine starts. */
class PatchSettingsTest {
  private final ObjectMapper json = new ObjectMapper();

  @Test
  void areDataAnAgencyCanWrite() throws Exception {
    PatchSettings standard = PatchSettings.standard();
    String text = json.writeValueAsString(standard);

    assertEquals(standard, json.readValue(text, PatchSettings.class));
    assertEquals(
        UnitSystem.METRIC, standard.inWords(UnitSystem.METRIC).wordsIn(), "words in metric");
    assertEquals(9.5, standard.withPayload(9.5).truck().payloadTonnes());
  }

  /** A constant that would break the working far away is named where it was written. */
  @ParameterizedTest
  @CsvSource({
    "blade, spreadKmh, 0, more than 0",
    "blade, efficiency, 1.2, more than 0 and at most 1",
    "material, mixWaste, -0.05, 0 or more",
    "roller, passes, 0, more than 0",
    "truck, payloadTonnes, 0, more than 0"
  })
  void nameTheConstantThatCannotBe(String part, String name, double value, String expected)
      throws Exception {
    ObjectNode tree = json.valueToTree(PatchSettings.standard());
    ObjectNode node = (ObjectNode) tree.get(part);
    if (name.equals("passes")) {
      node.put(name, (int) value);
    } else {
      node.put(name, value);
    }
    JsonMappingException e =
        assertThrows(JsonMappingException.class, () -> json.treeToValue(tree, PatchSettings.class));

    assertTrue(
        e.getMessage().contains("patch setting " + part + "." + name + " is "), e.getMessage());
    assertTrue(e.getMessage().contains("; " + expected + " is expected"), e.getMessage());
  }

  @Test
  void nameAPartThatIsMissing() {
    ObjectNode tree = json.valueToTree(PatchSettings.standard());
    tree.remove("roller");
    JsonMappingException e =
        assertThrows(JsonMappingException.class, () -> json.treeToValue(tree, PatchSettings.class));

    assertTrue(e.getMessage().contains("patch setting roller is missing"), e.getMessage());
  }

  @ParameterizedTest
  @EnumSource(Equipment.class)
  void everyMachineHasItsPreStartList(Equipment equipment) {
    assertTrue(PreStart.checks(equipment).size() >= 3, equipment.name());
    assertTrue(PreStart.checks(equipment).stream().noneMatch(String::isBlank));
  }

  @ParameterizedTest
  @EnumSource(Treatment.class)
  void everyTreatmentHasItsCautions(Treatment treatment) {
    List<String> cautions = Cautions.of(treatment, EnumSet.allOf(Equipment.class));

    assertFalse(cautions.isEmpty());
    if (treatment != Treatment.DEFER_TO_OVERLAY) {
      assertTrue(cautions.get(cautions.size() - 1).startsWith("Local codes"));
    }
  }
}
