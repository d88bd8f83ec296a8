package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** The usual cautions of each treatment and machine (common practice). */
final class Cautions {
  private static final String DEFER =
      "Local codes, the agency's safety manual, makers' manuals and licensed practice come before"
          + " anything on this sheet.";
  private static final String BURNS =
      "Hot mix and tack burn through clothes: gloves, long sleeves, boots; cool a burn with water"
          + " and leave the asphalt on it to a doctor.";
  private static final String BACKING =
      "Trucks back only with a spotter in the mirror; nobody walks between truck and grader.";
  private static final String OVERHEAD =
      "Look up before a bed is raised: keep clear of overhead lines by the distance the utility"
          + " requires, on level ground, and lower it before driving on.";
  private static final String FUMES =
      "Stand upwind of tack and hot mix; no spray on curbs, cars, people or into drains; no flame"
          + " near it.";
  private static final String DUST = "Wet the cut and wear a dust mask: sawing raises silica dust.";
  private static final String BURIED =
      "Have buried lines located and marked before digging or sawing deeper than the mat.";

  private Cautions() {}

  static List<String> of(Treatment treatment, Set<Equipment> equipment) {
    if (treatment == Treatment.DEFER_TO_OVERLAY) {
      return List.of(
          "Deferring does not make the road safe: sign it, and patch any hole that can throw a"
              + " wheel meanwhile.");
    }
    List<String> cautions = new ArrayList<>(own(treatment));
    machines(cautions, equipment);
    cautions.add(DEFER);
    return cautions;
  }

  private static List<String> own(Treatment treatment) {
    return switch (treatment) {
      case BLADE_PATCH -> List.of(BURNS, BACKING, OVERHEAD, FUMES);
      case HAND_PATCH -> List.of(BURNS, FUMES, DUST);
      case DIG_OUT_AND_REBUILD ->
          List.of(
              BURIED,
              BURNS,
              BACKING,
              OVERHEAD,
              FUMES,
              DUST,
              "An open hole is never left beside traffic without a closed lane; a cut a person"
                  + " stands in is judged by a competent person before anyone steps in.");
      case EDGE_REPAIR -> List.of(BURNS, BACKING, OVERHEAD, FUMES, DUST);
      case CRACK_TREATMENT ->
          List.of(
              "Sealant is hotter than hot mix: face shield, gloves, long sleeves; never a wet block"
                  + " into the kettle.",
              FUMES,
              "Keep the wand pointed down and the hose out of the traffic lane.");
      case SURFACE_TREATMENT ->
          List.of(
              BURNS,
              BACKING,
              OVERHEAD,
              FUMES,
              "Loose chips fly: slow traffic until they are swept.");
      case DEFER_TO_OVERLAY -> List.of();
    };
  }

  private static void machines(List<String> cautions, Set<Equipment> equipment) {
    if (equipment.contains(Equipment.MOTOR_GRADER)) {
      cautions.add(
          "The grader's operator cannot see beside the tandem wheels or in the joint when it is"
              + " bent: make eye contact before coming near, and stay out of its turning room.");
    }
    if (equipment.contains(Equipment.ROLLER)) {
      cautions.add(
          "Keep the roller off the soft edge of the fill and shoulder, where it can turn over:"
              + " belt on, roll-over bar up.");
    }
    if (equipment.contains(Equipment.LOADER)) {
      cautions.add("Nobody under or beside a raised bucket.");
    }
  }
}
