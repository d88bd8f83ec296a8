package lanemend.renewal.program;

import java.util.ArrayList;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;

/**
 * Which defects lie on sections that the program overlays soon: they get a hold-together repair to
 * keep the road safe, and come off the crew-day plan.
 */
public final class HoldTogether {
  private HoldTogether() {}

  /**
   * One defect to be held together.
   *
   * @param reason a sentence for the sheet
   */
  public record Held(Defect defect, String sectionId, int year, String reason) {}

  /**
   * Open and planned defects on sections overlaid within {@code seasons} years of the program's
   * first; done, deferred and withdrawn ones are left as they are.
   */
  public static List<Held> of(Program program, List<Defect> defects, int firstYear, int seasons) {
    List<Held> held = new ArrayList<>();
    for (Defect d : defects) {
      if (d.status() != DefectStatus.OPEN && d.status() != DefectStatus.PLANNED) {
        continue;
      }
      for (int s = 0; s < program.candidates().size(); s++) {
        Candidate section = program.candidates().get(s);
        int year = program.chosen().get(s).map(Candidate.Choice::year).orElse(seasons);
        if (year < seasons && on(section, d)) {
          held.add(
              new Held(
                  d,
                  section.sectionId(),
                  firstYear + year,
                  "%s is to be overlaid in %d (%s): hold it together until then, keep it safe to drive"
                      .formatted(
                          section.sectionId(),
                          firstYear + year,
                          program.chosen().get(s).orElseThrow().treatment())));
          break;
        }
      }
    }
    return held;
  }

  private static boolean on(Candidate section, Defect defect) {
    double middle = defect.place().middleAlongM();
    return defect.place().routeId().equals(section.routeId())
        && middle >= section.fromAlongM()
        && middle < section.toAlongM();
  }
}
