package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.Defect;
import lanemend.inventory.Place;
import lanemend.measure.Conversion;
import lanemend.measure.Unit;

/**
 * Designs the parts of a repair too long for one day. Each part is a repair of its own stretch by
 * the same treatment, so it carries its own end tapers: at the joint they are the ramp on which
 * traffic runs overnight. Every part but the first begins by cutting the ramp before it back to
 * full thickness.
 */
public final class PartDesigner implements RepairParts {
  /** No part is shorter: a crew does not come back for less (common practice, no source). */
  private static final double SHORTEST_M = 15 * Conversion.M_PER_FT;

  /** Length of ramp cut back to full thickness (common practice, no source). */
  private static final double CUT_BACK_M = 2 * Conversion.M_PER_FT;

  /** Finds the projected point of a place on a route. */
  @FunctionalInterface
  public interface Points {
    /** x and y, or empty where the route has no line. */
    Optional<double[]> at(String routeId, double alongM);
  }

  private final PatchDesigner designer;
  private final PatchSettings settings;
  private final Points points;

  public PartDesigner(PatchDesigner designer, PatchSettings settings, Points points) {
    this.designer = designer;
    this.settings = settings;
    this.points = points;
  }

  @Override
  public List<PatchDesign> cut(PatchDesign whole, int parts) {
    Place place = whole.defect().place();
    double length = place.toAlongM() - place.fromAlongM();
    if (parts < 2 || length / parts < SHORTEST_M || whole.steps().isEmpty()) {
      return List.of();
    }
    List<PatchDesign> all = new ArrayList<>();
    for (int i = 1; i <= parts; i++) {
      double from = place.fromAlongM() + length * (i - 1) / parts;
      double to = i == parts ? place.toAlongM() : place.fromAlongM() + length * i / parts;
      Optional<double[]> at = points.at(place.routeId(), (from + to) / 2);
      if (at.isEmpty()) {
        return List.of();
      }
      Place own = new Place(place.routeId(), from, to, at.get()[0], at.get()[1], place.entered());
      RepairPart part = new RepairPart(whole.defect().id(), i, parts);
      all.add(part(whole, part, own));
    }
    return all;
  }

  private PatchDesign part(PatchDesign whole, RepairPart part, Place place) {
    Defect d = whole.defect();
    Defect own = d.withId(part.id()).withPlace(place).withLengthM(d.lengthM() / part.of());
    PatchDesign alone = designer.designAs(own, whole.setting(), whole.choice());
    List<WorkStep> steps = new ArrayList<>();
    if (part.number() > 1 && alone.tonnes() > 0) {
      steps.addAll(joint(own, whole.choice().treatment()).list());
    }
    steps.addAll(alone.steps());
    List<String> cautions = new ArrayList<>(alone.cautions());
    cautions.add(note(part, alone.tonnes() > 0));
    return new PatchDesign(
        own,
        alone.setting(),
        alone.choice(),
        alone.figures(),
        steps,
        alone.equipment(),
        alone.layDown(),
        cautions);
  }

  private Steps joint(Defect part, Treatment treatment) {
    double cut = part.widthM();
    double area = CUT_BACK_M * part.widthM();
    PatchSettings.HandWork hand = settings.hand();
    return new Steps(settings.withLearned(settings.learned().only(treatment)))
        .hand(
            "cut back the joint",
            cut * hand.sawMinutesPerM() + area * hand.clearMinutesPerM2(),
            "cut x minutes for each m + ramp cut back x minutes for each m2",
            in("cut", cut, Unit.METER),
            in("sawing 1 m", hand.sawMinutesPerM(), Unit.MINUTE),
            in("ramp cut back", area, Unit.SQUARE_METER),
            in("clearing 1 m2", hand.clearMinutesPerM2(), Unit.MINUTE));
  }

  private static String note(RepairPart part, boolean mix) {
    String text = "This is " + part.words() + " of one long repair, done on different days.";
    return mix
        ? text
            + " Leave each open end as a ramp that traffic can run on, signed as the agency asks;"
            + " the next part cuts it back to full thickness and tacks the face."
        : text;
  }
}
