package lanemend.patching.traffic;

import java.util.List;
import lanemend.measure.Figure;

/** An invented traffic plan for tests of what comes after it. */
public final class Cones {
  private Cones() {}

  /** One lane closed under flaggers. */
  public static TrafficPlan flagged(
      List<Figure> figures,
      List<TrafficPlan.DeviceCount> devices,
      List<TrafficPlan.SignPlacement> signs,
      double setUp,
      double takeDown,
      double delay,
      List<String> cautions) {
    return new TrafficPlan(
        new SituationChoice(Situation.FLAGGERS, "invented", "invented", List.of()),
        new Layout(60, 30, 150, 30, 20, List.of(), List.of(), false),
        figures,
        devices,
        signs,
        2,
        setUp,
        takeDown,
        delay,
        cautions);
  }
}
