package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.inventory.Severity;
import lanemend.network.Lane;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import org.junit.jupiter.api.Test;

/** Parts of a long rut. */
class PartDesignerTest {
  private static final RoadSetting ROAD =
      new RoadSetting(RoadClass.COLLECTOR, 80, 2, 3.3, 1, false, false, 1500, 0.1);

  private final PatchDesigner designer =
      new PatchDesigner(TreatmentRules.standard(), PatchSettings.standard());
  private final PartDesigner parts =
      new PartDesigner(
          designer,
          PatchSettings.standard(),
          (route, along) -> Optional.of(new double[] {along, 7}));

  private PatchDesign rut(double lengthM) {
    Defect d =
        new Defect(
            "D-9",
            DefectKind.RUTTING,
            Severity.HIGH,
            new Place("R1", 100, 100 + lengthM, 100, 7, Entered.byMilepost("R1", "1", null)),
            new Lane(Side.RIGHT, 1),
            lengthM,
            3,
            0.04,
            LocalDate.of(2026, 4, 1),
            "patrol",
            "",
            DefectStatus.OPEN,
            "");
    return designer.design(d, ROAD);
  }

  @Test
  void partsFollowOnEachOtherByTheSameTreatment() {
    PatchDesign whole = rut(400);
    List<PatchDesign> three = parts.cut(whole, 3);
    assertEquals(3, three.size());
    double at = 100;
    for (PatchDesign part : three) {
      assertEquals(at, part.defect().place().fromAlongM(), 1e-9);
      at = part.defect().place().toAlongM();
      assertEquals(whole.choice(), part.choice());
      assertEquals(400.0 / 3, part.defect().lengthM(), 1e-9);
      assertEquals(part.defect().place().middleAlongM(), part.defect().place().x(), 1e-9);
    }
    assertEquals(500, at, 1e-9);
  }

  /**
   * Each part more is one mat more with its two end tapers. The joint, by hand: a cut over 3 m at
   * 0.8 min/m and 2 ft x 3 m at 3 min/m2 are 2.4 + 5.4864 min.
   */
  @Test
  void eachJointCostsItsRampsAndItsCutBack() {
    PatchDesign whole = rut(400);
    List<PatchDesign> two = parts.cut(whole, 2);
    double tapers =
        two.get(0).figure("end tapers").orElseThrow().value()
            + two.get(1).figure("end tapers").orElseThrow().value()
            - whole.figure("end tapers").orElseThrow().value();
    double mix = two.get(0).tonnes() + two.get(1).tonnes() - whole.tonnes();
    assertTrue(tapers > 0 && mix > 0, tapers + " m3, " + mix + " t");
    List<WorkStep> second = two.get(1).steps();
    assertEquals("cut back the joint", second.get(0).name());
    assertEquals(7.8864, second.get(0).minutes().value(), 1e-4);
    assertTrue(two.get(0).steps().stream().noneMatch(s -> s.name().equals("cut back the joint")));
    assertTrue(two.get(1).cautions().stream().anyMatch(c -> c.startsWith("This is part 2 of 2")));
  }

  @Test
  void shortRepairsAreNotCut() {
    assertEquals(List.of(), parts.cut(rut(8), 2));
    assertEquals(Optional.empty(), RepairPart.parse("D-9"));
    assertEquals(Optional.empty(), RepairPart.parse("D-9#3/2"));
    assertEquals(new RepairPart("D-9", 2, 3), RepairPart.parse("D-9#2/3").orElseThrow());
  }
}
