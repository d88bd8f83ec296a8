package lanemend.crewdays;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.FigureName;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.LearnedFactors;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import lanemend.patching.WorkStep;

/**
 * What was learned of one crew beside the agency's crews at large: how much longer or shorter it
 * takes, and what its hour costs. A repair is designed with the agency's factor, so a crew's own is
 * taken relative to that one.
 *
 * @param minutes by treatment, relative to the design
 * @param hourCost of the crew, trucks apart; null where nothing was learned
 */
public record CrewPace(Map<Treatment, Ratio> minutes, LearnedFactor hourCost) {
  /** A crew of which nothing was learned. */
  public static final CrewPace NONE = new CrewPace(Map.of(), null);

  private static final String NAME = "the crew's learned factor beside the agency's";

  /**
   * A crew's minutes over those of the design.
   *
   * @param source where it comes from, for a figure
   */
  public record Ratio(double value, String source) {}

  public CrewPace {
    minutes = Map.copyOf(minutes);
  }

  /** The pace of a crew under the factors in force. */
  public static CrewPace of(String crewId, LearnedFactors learned) {
    Map<Treatment, Ratio> minutes = new EnumMap<>(Treatment.class);
    for (Treatment t : Treatment.values()) {
      learned
          .of(Measure.MINUTES, t, crewId)
          .ifPresent(
              f ->
                  minutes.put(
                      t,
                      new Ratio(f.factor() / learned.inForce(Measure.MINUTES, t, ""), f.source())));
    }
    LearnedFactor cost =
        learned
            .of(Measure.HOUR_COST, null, crewId)
            .or(() -> learned.of(Measure.HOUR_COST, null, ""))
            .orElse(null);
    return minutes.isEmpty() && cost == null ? NONE : new CrewPace(minutes, cost);
  }

  /** What an hour costs, to the cent, of a crew that is reckoned at {@code perHour}. */
  public BigDecimal hourCost(BigDecimal perHour) {
    return hourCost == null
        ? perHour
        : perHour.multiply(BigDecimal.valueOf(hourCost.factor())).setScale(2, RoundingMode.HALF_UP);
  }

  /** A repair at this crew's pace; the same one where nothing was learned of its treatment. */
  public PatchDesign paced(PatchDesign repair) {
    Ratio ratio = minutes.get(repair.choice().treatment());
    if (ratio == null) {
      return repair;
    }
    List<WorkStep> steps = new ArrayList<>();
    for (WorkStep s : repair.steps()) {
      steps.add(
          new WorkStep(
              s.name(),
              times(s.minutes(), ratio.value(), ratio),
              s.spreadMinutes() * ratio.value(),
              s.setUp()));
    }
    List<Figure> figures = new ArrayList<>();
    for (Figure f : repair.figures()) {
      boolean rate = f.name().equals(FigureName.LAYDOWN_RATE);
      figures.add(rate ? times(f, 1 / ratio.value(), ratio) : f);
    }
    return new PatchDesign(
        repair.defect(),
        repair.setting(),
        repair.choice(),
        figures,
        steps,
        repair.equipment(),
        repair.layDown(),
        repair.cautions());
  }

  private static Figure times(Figure designed, double by, Ratio ratio) {
    List<Figure.Input> inputs = new ArrayList<>(designed.inputs());
    inputs.add(new Figure.Input(NAME, ratio.value(), Unit.RATIO));
    boolean more = by == ratio.value();
    return new Figure(
        designed.name(),
        designed.value() * by,
        designed.unit(),
        "(" + designed.formula() + (more ? ") x " : ") / ") + NAME,
        inputs,
        designed.source() + "; " + ratio.source());
  }
}
