package lanemend.patching;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;

/** Turns a defect on its road into a repair that can be ordered, manned and laid. */
public final class PatchDesigner {
  private final TreatmentRules rules;
  private final Map<Treatment, PatchSettings> own = new EnumMap<>(Treatment.class);
  private final PatchSettings settings;
  private final Map<String, ChosenTreatment> chosen;

  /**
   * A designer.
   *
   * @param rules the agency's treatment table, or {@link TreatmentRules#standard()}
   * @param settings the agency's constants, or {@link PatchSettings#standard()}
   */
  public PatchDesigner(TreatmentRules rules, PatchSettings settings) {
    this(rules, settings, Map.of());
  }

  /**
   * As above.
   *
   * @param chosen treatments chosen by hand, by defect; they go before the rules
   */
  public PatchDesigner(
      TreatmentRules rules, PatchSettings settings, Map<String, ChosenTreatment> chosen) {
    this.rules = rules;
    this.settings = settings;
    this.chosen = Map.copyOf(chosen);
    // Once and not for each repair: settings are checked whenever they are made.
    for (Treatment t : Treatment.values()) {
      LearnedFactors learned = settings.learned().only(t);
      own.put(t, learned.equals(settings.learned()) ? settings : settings.withLearned(learned));
    }
  }

  /**
   * Treatment, quantities, minutes, machines, lay-down plan and cautions.
   *
   * @throws IllegalArgumentException when a dimension of the defect or road is negative, missing or
   *     infinite; the message names it
   */
  public PatchDesign design(Defect defect, RoadSetting setting) {
    checkAll(defect, setting);
    ChosenTreatment byHand = chosen.get(defect.id());
    return designAs(
        defect, setting, byHand == null ? rules.choose(defect, setting) : byHand.asChoice());
  }

  /**
   * The same by a treatment already chosen.
   *
   * @throws IllegalArgumentException as {@link #design}
   */
  public PatchDesign designAs(Defect defect, RoadSetting setting, TreatmentChoice choice) {
    checkAll(defect, setting);
    Repair repair = repair(choice.treatment(), defect, setting);
    Set<Equipment> equipment = EnumSet.noneOf(Equipment.class);
    equipment.addAll(repair.equipment());
    if (choice.treatment() != Treatment.DEFER_TO_OVERLAY && setting.severalLanesEachWay()) {
      equipment.add(Equipment.ARROW_BOARD);
    }
    List<String> cautions = new ArrayList<>(repair.notes());
    cautions.addAll(Cautions.of(choice.treatment(), equipment));
    List<Figure> figures = new ArrayList<>(repair.figures());
    figures.addAll(settings.laying().figures(choice.treatment(), repair.figures()));
    return new PatchDesign(
        defect, setting, choice, figures, repair.steps(), equipment, repair.layDown(), cautions);
  }

  private static void checkAll(Defect defect, RoadSetting setting) {
    check(defect, "length", defect.lengthM(), 0);
    check(defect, "width", defect.widthM(), 0);
    check(defect, "depth", defect.depthM(), 0);
    check(defect, "lane width of its road", setting.laneWidthM(), Double.MIN_VALUE);
  }

  private Repair repair(Treatment treatment, Defect defect, RoadSetting setting) {
    PatchSettings own = this.own.get(treatment);
    return switch (treatment) {
      case BLADE_PATCH -> BladePatch.of(defect, setting, own);
      case HAND_PATCH -> HandPatch.of(defect, own);
      case DIG_OUT_AND_REBUILD -> DigOutPatch.of(defect, own);
      case EDGE_REPAIR -> EdgeRepair.of(defect, own);
      case CRACK_TREATMENT -> CrackSeal.of(defect, own);
      case SURFACE_TREATMENT -> SurfaceSeal.of(defect, own);
      case DEFER_TO_OVERLAY ->
          new Repair(List.of(), List.of(), Set.of(), Optional.empty(), List.of());
    };
  }

  private static void check(Defect defect, String what, double value, double least) {
    if (!(value >= least) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "defect "
              + defect.id()
              + ": "
              + what
              + " is "
              + value
              + " m; "
              + (least > 0 ? "more than 0" : "0 or more")
              + " is expected");
    }
  }
}
