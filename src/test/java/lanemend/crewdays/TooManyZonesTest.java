package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/**
 * One table of drives holds 32,767 places: 2 x 32,767 squared is just below what an array takes.
 */
class TooManyZonesTest {

  @Test
  void moreZonesThanTheTableHoldsAreRefusedInASentence() {
    Agency agency = TestCounty.agency();
    PatchDesign repair = TestCounty.repair("D1", 100, Treatment.HAND_PATCH, 0.2);
    CountyLegs legs = CountyLegs.of(TestCounty.CROW, agency, List.of(repair.defect().place()));
    int[] rows = new int[40_000];
    TooManyZonesException refused =
        assertThrows(TooManyZonesException.class, () -> legs.among(TestCounty.CROW, rows));
    assertEquals(
        "40,000 work zones are more than one plan can hold (32,765): plan fewer defects at a time,"
            + " for instance one part of the county after another",
        refused.getMessage());
  }
}
