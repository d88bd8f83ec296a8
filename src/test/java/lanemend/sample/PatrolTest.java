package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.inventory.DefectKind;
import lanemend.network.EquationSide;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.sample.Patrol.DefectRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the invented patrols wrote, against the roads they drove. */
class PatrolTest {
  private static final County COUNTY = Counties.STANDARD;

  private static String where(DefectRow d) {
    return d.road().id() + " at " + d.alongM() + " m, " + d.lane().code() + ", " + d.distress();
  }

  @ParameterizedTest
  @ValueSource(ints = {50, 2_000})
  void aCountyHasExactlyTheDefectsAskedFor(int count) {
    assertEquals(count, County.invent(SampleSize.withDefects(count), 9).defects().size());
  }

  @Test
  void moreDefectsDoNotBendTheRoads() {
    County more = County.invent(new SampleSize(600, 900, 60, 8), SampleCounty.STANDARD_SEED);
    assertEquals(COUNTY.lines(), more.lines());
    assertEquals(COUNTY.history().size(), more.history().size());
  }

  @Test
  void everyDefectLiesOnItsRoadAndInsideItsLane() {
    assertEquals(400, COUNTY.defects().size());
    assertEquals(60, COUNTY.findings().size());
    for (DefectRow d : COUNTY.defects()) {
      assertTrue(d.fromM() >= 0 && d.toM() <= d.road().lengthM(), () -> where(d));
      assertTrue(d.road().lanes(d.alongM()).contains(d.lane()), () -> where(d));
      assertTrue(d.distress().widthFt() <= d.road().facts(d.alongM()).laneWidthFt());
      assertTrue(d.distress().lengthFt() > 0 && d.distress().widthFt() > 0);
      boolean needsDepth =
          List.of(DefectKind.POTHOLE, DefectKind.RUTTING, DefectKind.DEPRESSION)
              .contains(d.distress().kind());
      assertTrue(!needsDepth || d.distress().depthIn() > 0, () -> where(d));
      assertTrue(!d.foundOn().isBefore(Patrol.FIRST_DAY) && !d.foundOn().isAfter(Patrol.LAST_DAY));
    }
  }

  @Test
  void aWrittenMilepostLeadsBackToTheDefect() {
    int checked = 0;
    for (DefectRow d : COUNTY.defects()) {
      if (!d.milepost().isEmpty() && d.milepostTo().isEmpty()) {
        MilepostLookup found = d.road().mileposts().find(parse(d.milepost()));
        assertEquals(d.alongM(), ((MilepostLookup.Found) found).alongM(), 1e-6, d.road().id());
        checked++;
      }
    }
    assertTrue(checked > 300, checked + " by milepost");
  }

  private static Milepost parse(String text) {
    String[] words = text.split(" ", 2);
    EquationSide side =
        words.length == 1
            ? EquationSide.ONLY
            : words[1].equals("back") ? EquationSide.BACK : EquationSide.AHEAD;
    return new Milepost(Double.parseDouble(words[0]), side);
  }

  @Test
  void phonesAreOffByMetresNotMore() {
    List<DefectRow> byPoint = COUNTY.defects().stream().filter(d -> d.point() != null).toList();
    assertTrue(byPoint.size() > 30, byPoint.size() + " by point");
    for (DefectRow d : byPoint) {
      Pt lane = d.road().pointAt(d.alongM(), d.road().rightOf(d.lane(), d.alongM()));
      assertTrue(d.point().pt().to(lane) < 13, () -> where(d));
    }
  }

  @Test
  void defectsCrowdOnWeakSections() {
    double weakM = COUNTY.wear().weak().stream().mapToDouble(w -> w.toM() - w.fromM()).sum();
    double allM = COUNTY.roads().stream().mapToDouble(Roadway::lengthM).sum();
    long onWeak =
        COUNTY.defects().stream()
            .filter(d -> COUNTY.wear().weak().stream().anyMatch(w -> w.holds(d.road(), d.alongM())))
            .count();
    double crowding = (onWeak / 400.0) / (weakM / allM);
    assertTrue(crowding > 3, "times as many on weak sections: " + crowding);
  }

  @Test
  void noTwoDefectsOfALaneOverlap() {
    List<DefectRow> all = COUNTY.defects();
    for (int i = 0; i < all.size(); i++) {
      for (int k = i + 1; k < all.size(); k++) {
        DefectRow a = all.get(i);
        DefectRow b = all.get(k);
        boolean same = a.road().id().equals(b.road().id()) && a.lane().equals(b.lane());
        assertTrue(!same || a.toM() <= b.fromM() || b.toM() <= a.fromM(), () -> where(a));
      }
    }
  }
}
