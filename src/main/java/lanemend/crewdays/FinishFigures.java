package lanemend.crewdays;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** The traced figures of a day's chance of ending inside its shift. */
final class FinishFigures {
  private static final String SPREADS =
      "steps: the agency's spreads or the standard ones; day, drives, set-up, waits: "
          + Figure.COMMON_PRACTICE;
  private static final String MATCHED =
      "lognormal with the day's mean and spread; checked against drawn days in a test";

  private final FinishRule rule;
  private final FinishChance chance;

  FinishFigures(FinishRule rule) {
    this.rule = rule;
    chance = new FinishChance(rule);
  }

  /** Spread of the day and its chance of ending inside {@code shiftMinutes}. */
  List<Figure> of(FinishChance.Minutes day, double shiftMinutes) {
    Figure.Input mean = new Figure.Input("mean of driving and work", day.mean(), Unit.MINUTE);
    Figure spread =
        new Figure(
            DayFigureName.SPREAD,
            chance.spread(day),
            Unit.MINUTE,
            "square root of ((1 + c2) x sum of squares + c2 x mean2), c the spread all minutes"
                + " share, sum of squares over the spreads of steps, drives and waits for trucks",
            List.of(
                mean,
                new Figure.Input(
                    "root of the sum of squares", Math.sqrt(day.separate()), Unit.MINUTE),
                new Figure.Input("c", rule.daySpread(), Unit.RATIO)),
            SPREADS);
    Figure finish =
        new Figure(
            DayFigureName.FINISH,
            100 * chance.within(day, shiftMinutes),
            Unit.PERCENT,
            "normal probability of (ln((shift - certain waits) / mean) + v / 2) / root of v,"
                + " v = ln(1 + (spread / mean)2)",
            List.of(
                new Figure.Input("shift", shiftMinutes, Unit.MINUTE),
                new Figure.Input("certain waits", day.certain(), Unit.MINUTE),
                mean,
                spread.asInput(),
                new Figure.Input("asked", 100 * rule.probability(), Unit.PERCENT)),
            MATCHED);
    return List.of(spread, finish);
  }
}
