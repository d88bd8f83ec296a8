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
   * A section that will be overlaid.
   *
   * @param year calendar year
   * @param why in words, for instance the treatment or whose decision it is
   */
  public record Overlaid(
      String sectionId, String routeId, double fromAlongM, double toAlongM, int year, String why) {

    private boolean has(Defect defect) {
      double middle = defect.place().middleAlongM();
      return defect.place().routeId().equals(routeId) && middle >= fromAlongM && middle < toAlongM;
    }
  }

  /**
   * Open and planned defects on sections overlaid within {@code seasons} years of the program's
   * first; done, deferred and withdrawn ones are left as they are.
   */
  public static List<Held> of(Program program, List<Defect> defects, int firstYear, int seasons) {
    List<Overlaid> overlaid = new ArrayList<>();
    for (int s = 0; s < program.candidates().size(); s++) {
      Candidate c = program.candidates().get(s);
      program
          .chosen()
          .get(s)
          .ifPresent(
              o ->
                  overlaid.add(
                      new Overlaid(
                          c.sectionId(),
                          c.routeId(),
                          c.fromAlongM(),
                          c.toAlongM(),
                          firstYear + o.year(),
                          o.treatment())));
    }
    return of(overlaid, defects, firstYear, seasons);
  }

  /** The same for overlays of the years {@code firstYear} to {@code firstYear + seasons - 1}. */
  public static List<Held> of(
      List<Overlaid> sections, List<Defect> defects, int firstYear, int seasons) {
    List<Held> held = new ArrayList<>();
    for (Defect d : defects) {
      if (d.status() == DefectStatus.OPEN || d.status() == DefectStatus.PLANNED) {
        sections.stream()
            .filter(s -> s.year() >= firstYear && s.year() < firstYear + seasons && s.has(d))
            .findFirst()
            .ifPresent(s -> held.add(held(d, s)));
      }
    }
    return held;
  }

  private static Held held(Defect defect, Overlaid section) {
    return new Held(
        defect,
        section.sectionId(),
        section.year(),
        "%s is to be overlaid in %d (%s): hold it together until then, keep it safe to drive"
            .formatted(section.sectionId(), section.year(), section.why()));
  }
}
