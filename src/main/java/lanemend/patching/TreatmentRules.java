package lanemend.patching;

import static lanemend.inventory.DefectKind.ALLIGATOR_CRACKING;
import static lanemend.inventory.DefectKind.BLOCK_CRACKING;
import static lanemend.inventory.DefectKind.DEPRESSION;
import static lanemend.inventory.DefectKind.EDGE_BREAK;
import static lanemend.inventory.DefectKind.LONGITUDINAL_CRACKING;
import static lanemend.inventory.DefectKind.POTHOLE;
import static lanemend.inventory.DefectKind.RAVELLING;
import static lanemend.inventory.DefectKind.RUTTING;
import static lanemend.inventory.DefectKind.SHOVING;
import static lanemend.inventory.DefectKind.TRANSVERSE_CRACKING;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;

/**
 * The treatment table: rows in order, the first that fits wins, the last fits everything. Data, so
 * that an agency can write its own.
 */
public record TreatmentRules(List<TreatmentRule> rules) {
  private static final String PRACTICE = " (" + Figure.COMMON_PRACTICE + ")";
  private static final double M2_PER_FT2 = Conversion.M_PER_FT * Conversion.M_PER_FT;

  /**
   * Checks the table.
   *
   * @throws IllegalArgumentException when it is empty, an id stands twice, or the last row does not
   *     fit everything (a defect could then go without a treatment)
   */
  public TreatmentRules {
    rules = List.copyOf(rules);
    if (rules.isEmpty()) {
      throw new IllegalArgumentException("the treatment table has no rules");
    }
    Set<String> seen = new HashSet<>();
    for (TreatmentRule rule : rules) {
      if (!seen.add(rule.id())) {
        throw new IllegalArgumentException("treatment rule " + rule.id() + " stands twice");
      }
    }
    TreatmentRule last = rules.get(rules.size() - 1);
    if (!last.fitsAll()) {
      throw new IllegalArgumentException(
          "the last treatment rule, "
              + last.id()
              + ", has conditions; a last rule without any is expected, so that every defect gets"
              + " a treatment");
    }
  }

  /** The treatment of {@code defect} by the first rule that fits. */
  public TreatmentChoice choose(Defect defect, RoadSetting setting) {
    for (TreatmentRule rule : rules) {
      if (rule.fits(defect, setting)) {
        return new TreatmentChoice(rule.treatment(), rule.id(), rule.reason());
      }
    }
    throw new IllegalStateException("a table whose last rule fits everything was passed through");
  }

  /** The table used where an agency has none of its own; every limit is common practice. */
  public static TreatmentRules standard() {
    return new TreatmentRules(
        Stream.of(structural(), surface(), localised()).flatMap(List::stream).toList());
  }

  private static List<TreatmentRule> structural() {
    return List.of(
        rule(
                "overlay-long-alligator",
                Set.of(ALLIGATOR_CRACKING),
                Treatment.DEFER_TO_OVERLAY,
                "More than a quarter mile of high-severity alligator cracking over the full lane:"
                    + " the structure is spent and patching it buys too little")
            .withSeverity(Severity.HIGH, Severity.HIGH)
            .withStretch(Range.from(Conversion.M_PER_MILE / 4), Range.from(0.8)),
        rule(
                "dig-out-deep-hole",
                Set.of(POTHOLE, DEPRESSION, RUTTING),
                Treatment.DIG_OUT_AND_REBUILD,
                "4 in deep or more over 10 ft2 or more: the base has failed and a patch on top will"
                    + " sink with it")
            .withArea(Range.from(10 * M2_PER_FT2))
            .withDepth(Range.from(4 * Conversion.M_PER_IN)),
        rule(
                "dig-out-settled-alligator",
                Set.of(ALLIGATOR_CRACKING),
                Treatment.DIG_OUT_AND_REBUILD,
                "High-severity alligator cracking that has settled 2 in or more: the base is wet or"
                    + " weak and has to come out")
            .withSeverity(Severity.HIGH, Severity.HIGH)
            .withDepth(Range.from(2 * Conversion.M_PER_IN)),
        rule(
            "edge-repair",
            Set.of(EDGE_BREAK),
            Treatment.EDGE_REPAIR,
            "A broken edge is cut back to sound mat, rebuilt and backed with shoulder stone"));
  }

  private static List<TreatmentRule> surface() {
    return List.of(
        rule(
                "hand-patch-spalled-crack",
                Set.of(LONGITUDINAL_CRACKING, TRANSVERSE_CRACKING),
                Treatment.HAND_PATCH,
                "A high-severity crack that has lost 1 in of surface or more no longer holds"
                    + " sealant")
            .withSeverity(Severity.HIGH, Severity.HIGH)
            .withDepth(Range.from(Conversion.M_PER_IN)),
        rule(
            "seal-cracks",
            Set.of(LONGITUDINAL_CRACKING, TRANSVERSE_CRACKING),
            Treatment.CRACK_TREATMENT,
            "Single cracks are cleaned and sealed to keep water out of the base"),
        rule(
                "blade-patch-lost-surface",
                Set.of(RAVELLING, BLOCK_CRACKING),
                Treatment.BLADE_PATCH,
                "1/2 in of surface or more is gone: a seal would follow the hollows, a thin bladed"
                    + " mat fills them")
            .withSeverity(Severity.HIGH, Severity.HIGH)
            .withDepth(Range.from(Conversion.M_PER_IN / 2)),
        rule(
            "seal-surface",
            Set.of(RAVELLING, BLOCK_CRACKING),
            Treatment.SURFACE_TREATMENT,
            "The mat is sound and its surface dry or cracked in blocks: a seal binds it"),
        rule(
                "seal-light-alligator",
                Set.of(ALLIGATOR_CRACKING),
                Treatment.SURFACE_TREATMENT,
                "Low-severity alligator cracking without settlement: a seal keeps water out until it"
                    + " is time to patch")
            .withSeverity(Severity.LOW, Severity.LOW)
            .withDepth(Range.under(Conversion.M_PER_IN / 4)));
  }

  private static List<TreatmentRule> localised() {
    return List.of(
        rule(
                "hand-patch-small-hole",
                Set.of(POTHOLE, DEPRESSION),
                Treatment.HAND_PATCH,
                "A hole under 10 ft2 is filled by hand faster than a grader can be brought")
            .withArea(Range.under(10 * M2_PER_FT2)),
        rule(
            "blade-patch-large-hole",
            Set.of(POTHOLE, DEPRESSION),
            Treatment.BLADE_PATCH,
            "The hole is too large for hand patching"),
        rule(
            "blade-patch-ruts",
            Set.of(RUTTING, SHOVING),
            Treatment.BLADE_PATCH,
            "Ruts and shoved mat need a new level surface, which a grader lays"),
        rule(
                "hand-patch-small-alligator",
                Set.of(ALLIGATOR_CRACKING),
                Treatment.HAND_PATCH,
                "Alligator cracking under 20 ft2 is cut out and filled by hand")
            .withArea(Range.under(20 * M2_PER_FT2)),
        rule(
            "blade-patch-alligator",
            Set.of(ALLIGATOR_CRACKING),
            Treatment.BLADE_PATCH,
            "A large alligator-cracked area is covered with a bladed mat"),
        rule(
            "otherwise-hand-patch",
            Set.of(),
            Treatment.HAND_PATCH,
            "No other rule fits: a hand patch keeps the road safe until someone has looked"));
  }

  private static TreatmentRule rule(
      String id, Set<DefectKind> kinds, Treatment treatment, String reason) {
    return TreatmentRule.of(id, kinds, treatment, reason + PRACTICE);
  }
}
