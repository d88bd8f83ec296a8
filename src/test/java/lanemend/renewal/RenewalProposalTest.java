package lanemend.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.CancellationException;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.inventory.Severity;
import lanemend.network.CalibrationPost;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Lane;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.Side;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayRules;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** From a study to something to decide on, on one invented road with one bad stretch. */
class RenewalProposalTest {
  private static final double CELL = 160.9344;
  private static final int CELLS = 200;
  private static final double LENGTH = CELLS * CELL;

  /** The bad stretch: miles 8.0 to 9.0. */
  private static final double BAD_FROM = 80 * CELL;

  private static final double BAD_TO = 90 * CELL;
  private static final Route ROAD = road();
  private static final Network NETWORK = new Network("", Map.of("SR 7", ROAD), List.of());
  private static final RoadAttributes ATTRIBUTES =
      new RoadAttributes(
          List.of(fact("last_surfacing", "2004"), fact("lanes", "2"), fact("aadt", "3000")));
  private static final List<PastPatch> PATCHES = patches();
  private static RenewalStudy study;

  private static Route road() {
    CenterlinePart part =
        new CenterlinePart(new double[] {0, LENGTH}, new double[] {0, 0}, new double[] {0, LENGTH});
    return new Route(
        "SR 7",
        "SR 7",
        "",
        RoadClass.COLLECTOR,
        List.of(part),
        PiecewiseMileposts.of(
            List.of(new CalibrationPost(0, 0, 0), new CalibrationPost(LENGTH, 20, 20)), LENGTH),
        new Edition(1, LocalDate.EPOCH, null));
  }

  private static RoadAttribute fact(String name, String value) {
    return new RoadAttribute("SR 7", 0, LENGTH, name, value, LocalDate.EPOCH, null);
  }

  /** One repair for 12 cells a year from 2015 on, eight times as many on the bad stretch. */
  private static List<PastPatch> patches() {
    SplittableRandom random = new SplittableRandom(41);
    List<PastPatch> out = new ArrayList<>();
    for (int c = 0; c < CELLS; c++) {
      double along = (c + 0.5) * CELL;
      boolean bad = along > BAD_FROM && along < BAD_TO;
      for (int month = 0; month < 130; month++) {
        // the last month is October 2025: nobody patches in winter
        if (random.nextDouble() < (bad ? 8 : 1) / 144.0) {
          out.add(
              new PastPatch(
                  "P" + out.size(),
                  "hand_patch",
                  new Place("SR 7", along, along, 0, 0, Entered.byMilepost("SR 7", "0", null)),
                  new Lane(random.nextBoolean() ? Side.RIGHT : Side.LEFT, 1),
                  LocalDate.of(2015, 1, 15).plusMonths(month),
                  1 + random.nextDouble(),
                  null,
                  BigDecimal.valueOf(400)));
        }
      }
    }
    return out;
  }

  @BeforeAll
  static void studyTheRoad() {
    RenewalSettings s = RenewalRules.standard().settings(PATCHES);
    study =
        RenewalStudy.of(
            List.of(ROAD),
            ATTRIBUTES,
            PATCHES,
            new RenewalSettings(
                s.exposure(),
                s.families(),
                s.covariates(),
                s.fit(),
                s.scan(),
                s.sectioning(),
                s.repairCost(),
                s.draws(),
                List.of()));
  }

  private static OverlayCases cases(OverlayRules rules, List<Defect> defects) {
    return new OverlayCases(
        study, NETWORK, ATTRIBUTES, defects, lanemend.renewal.overlay.PavementRecords.NONE, rules);
  }

  private static RenewalProposal proposal(List<DecidedSection> decisions) {
    return RenewalProposal.of(
        study,
        NETWORK,
        cases(OverlayRules.standard(), List.of()),
        RenewalRules.standard(),
        decisions,
        study.settings().exposure().recordsTo().getYear());
  }

  @Test
  void theProgramStartsInTheSeasonPlannedForNotWhereTheRecordsEnd() {
    int recordsEnd = study.settings().exposure().recordsTo().getYear();
    RenewalProposal later =
        RenewalProposal.of(
            study,
            NETWORK,
            cases(OverlayRules.standard(), List.of()),
            RenewalRules.standard(),
            List.of(),
            recordsEnd + 1);
    assertEquals(recordsEnd + 1, later.firstYear());
  }

  private static DecidedSection decided(
      double from, double to, EngineerDecision.Kind kind, int year) {
    return new DecidedSection(
        "SR 7",
        new EngineerDecision(
            "SR 7 on file", kind, from, to, 0, "cores", "Ann Vale", LocalDate.of(2026, 2, 1)),
        year);
  }

  @Test
  void theBadStretchIsPutForwardByRouteAndMilepost() {
    // Given one stretch at eight times the rate, miles 8 to 9
    assertEquals(1, proposal(List.of()).sections().size());
    ProposedSection s = proposal(List.of()).sections().get(0);
    assertTrue(s.fromAlongM() < BAD_FROM + 2 * CELL && s.toAlongM() > BAD_TO - 2 * CELL, s.id());
    assertEquals(
        RenewalProposal.idOf(ROAD, s.cluster().fromAlongM(), s.cluster().toAlongM()), s.id());
    assertTrue(s.id().startsWith("SR 7 "), s.id());
    assertEquals(10, s.forecast().horizons().size());
    // and it is never shorter than the shortest project
    assertTrue(s.toAlongM() - s.fromAlongM() >= RenewalRules.standard().minProjectM() - 1e-6);
  }

  @Test
  void aDecisionOnFileGivesTheSectionItsNameAndLimits() {
    DecidedSection d =
        decided(BAD_FROM - 3 * CELL, BAD_TO + 3 * CELL, EngineerDecision.Kind.LIMITS_CHANGED, 0);
    RenewalProposal p = proposal(List.of(d));
    ProposedSection s = p.sections().get(0);
    assertEquals("SR 7 on file", s.id());
    assertEquals(BAD_FROM - 3 * CELL, s.fromAlongM());
    assertEquals(BAD_TO + 3 * CELL, s.toAlongM());
    assertEquals(Optional.of(d), s.decision());
    assertEquals(List.of(), p.byHand());
  }

  @Test
  void aDecisionWhereNothingIsFlaggedIsKeptInSight() {
    DecidedSection d = decided(0, 10 * CELL, EngineerDecision.Kind.REJECTED, 0);
    RenewalProposal p = proposal(List.of(d));
    assertEquals(List.of(d), p.byHand().stream().map(s -> s.decision().orElseThrow()).toList());
    assertEquals(Optional.empty(), p.sections().get(0).decision());
  }

  @Test
  void theOverlaySaysEverythingItAssumed() {
    OverlayCase c = cases(OverlayRules.standard(), List.of()).of("SR 7", BAD_FROM, BAD_TO);
    String all = String.join("; ", c.assumptions());
    for (String said :
        List.of("truck share 0.08", "lane width", "subgrade 5000 psi", "4.0 in", "no cracking")) {
      assertTrue(all.contains(said), said + " is not in: " + all);
    }
    // and not what the road's own data told: 3,000 vehicles a day, two lanes
    assertTrue(!all.contains("vehicles/day") && !all.contains("2 lanes"), all);
  }

  /** The standard with a surface that may rise by four inches: no curbs on this road. */
  private static OverlayRules withoutCurbs() {
    OverlayRules s = OverlayRules.standard();
    OverlayDesign.Limits l = s.limits();
    return new OverlayRules(
        s.price(),
        s.lifeYears(),
        s.kept(),
        s.discountRate(),
        s.analysisYears(),
        s.traffic(),
        s.soil(),
        s.structures(),
        new OverlayDesign.Limits(
            l.overlayCoefficient(), l.thinnestM(), l.leastMillM(), 4 * 0.0254, l.leastLeftM()),
        s.layers());
  }

  @Test
  void theOverlaysCostIsOfEveryLane() {
    OverlayCase c = cases(withoutCurbs(), List.of()).of("SR 7", BAD_FROM, BAD_TO);
    assertTrue(c.costing().isPresent(), c.lacking().toString());
    // area of a mile of two 11 ft lanes (usual for a collector): 1,609.344 x 2 x 3.3528 m2
    double area =
        c.costing().get().overlayCost().inputs().stream()
            .filter(i -> i.name().equals("area"))
            .findFirst()
            .orElseThrow()
            .value();
    assertEquals(1609.344 * 2 * 3.3528, area, 0.01);
  }

  @Test
  void crackedAsphaltNeedsAThickerOverlay() {
    // Given alligator cracking of medium severity over a fifth of the section
    Defect cracked =
        new Defect(
            "D",
            DefectKind.ALLIGATOR_CRACKING,
            Severity.MEDIUM,
            new Place(
                "SR 7", BAD_FROM + 10, BAD_TO - 10, 0, 0, Entered.byMilepost("SR 7", "8", null)),
            new Lane(Side.RIGHT, 1),
            1500,
            1.5,
            0,
            LocalDate.of(2025, 9, 1),
            "patrol",
            "",
            DefectStatus.OPEN,
            "");
    double sound =
        cases(OverlayRules.standard(), List.of())
            .of("SR 7", BAD_FROM, BAD_TO)
            .design()
            .orElseThrow()
            .options()
            .get(0)
            .thickness()
            .value();
    double weak =
        cases(OverlayRules.standard(), List.of(cracked))
            .of("SR 7", BAD_FROM, BAD_TO)
            .design()
            .orElseThrow()
            .options()
            .get(0)
            .thickness()
            .value();
    assertTrue(weak > sound, weak + " m against " + sound);
  }

  @Test
  void aSubgradeBeyondTheEquationLeavesOneSectionOpenAndNotTheStudy() {
    // Given ground of 10 psi, as where a figure in ksi was entered as psi
    OverlayRules s = OverlayRules.standard();
    OverlayRules soft =
        new OverlayRules(
            s.price(),
            s.lifeYears(),
            s.kept(),
            s.discountRate(),
            s.analysisYears(),
            s.traffic(),
            new OverlayRules.Soil(
                10 * 6.894757, s.soil().psiLoss(), s.soil().overallSd(), s.soil().reliability()),
            s.structures(),
            s.limits(),
            s.layers());
    OverlayCase c = cases(soft, List.of()).of("SR 7", BAD_FROM, BAD_TO);
    assertEquals(Optional.empty(), c.costing());
    assertTrue(String.join("; ", c.lacking()).contains("SN 20"), c.lacking().toString());
  }

  @Test
  void aRoadThatIsNoLongerThereSaysSo() {
    OverlayCase c = cases(OverlayRules.standard(), List.of()).of("SR 9", 0, 1000);
    assertEquals(List.of("route SR 9 is no current road"), c.lacking());
  }

  @Test
  void otherBudgetsGiveTheProgramThatANewProposalWouldHave() {
    List<Double> budgets = List.of(50_000.0, 700_000.0, 700_000.0);
    RenewalProposal anew =
        RenewalProposal.of(
            study,
            NETWORK,
            cases(OverlayRules.standard(), List.of()),
            RenewalRules.standard().withBudgets(budgets),
            List.of(),
            study.settings().exposure().recordsTo().getYear());
    RenewalProposal changed = proposal(List.of()).under(budgets);
    assertEquals(anew.program().chosen(), changed.program().chosen());
    assertEquals(anew.program().benefit(), changed.program().benefit());
    assertEquals(
        anew.programmed(anew.all().get(0).id()), changed.programmed(changed.all().get(0).id()));
    assertTrue(changed.budgeted());
    // and money enough again is what it was
    assertEquals(
        proposal(List.of()).program().chosen(), changed.under(List.of()).program().chosen());
  }

  @Test
  void aStudyTellsItsStagesAndEndsWhenItIsTold() {
    List<String> stages = new ArrayList<>();
    assertThrows(
        CancellationException.class,
        () ->
            RenewalStudy.of(
                List.of(ROAD),
                ATTRIBUTES,
                PATCHES,
                RenewalRules.standard().settings(PATCHES),
                (stage, share) -> {
                  stages.add(stage);
                  return stages.size() < 2;
                }));
    assertEquals(
        List.of("counting repairs by cell", "fitting the repair model and looking for clusters"),
        stages);
  }
}
