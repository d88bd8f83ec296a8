package lanemend.patching;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;

/**
 * Everything a crew needs to know to repair one defect.
 *
 * @param choice treatment and the rule that chose it
 * @param figures quantities in the order they are worked out, each traced; found by {@link
 *     #figure(String)}
 * @param steps minutes by step, without work-zone set-up and take-down, which belong to the zone
 * @param layDown present for blade patches
 */
public record PatchDesign(
    Defect defect,
    RoadSetting setting,
    TreatmentChoice choice,
    List<Figure> figures,
    List<WorkStep> steps,
    Set<Equipment> equipment,
    Optional<LayDownPlan> layDown,
    List<String> cautions) {

  public PatchDesign {
    figures = List.copyOf(figures);
    steps = List.copyOf(steps);
    equipment = Set.copyOf(equipment);
    cautions = List.copyOf(cautions);
  }

  /** The figure of this name. */
  public Optional<Figure> figure(String name) {
    return figures.stream().filter(f -> f.name().equals(name)).findFirst();
  }

  /** Mix to order, tonnes; 0 when the treatment takes none. */
  public double tonnes() {
    return figure(FigureName.MIX).map(Figure::value).orElse(0.0);
  }

  /** Tack as sprayed, litres. */
  public double tackLiters() {
    return figure(FigureName.TACK).map(Figure::value).orElse(0.0);
  }

  /** Mean minutes of work at the spot, with trucks never waited for. */
  public double minutes() {
    return steps.stream().mapToDouble(s -> s.minutes().value()).sum();
  }
}
