package lanemend.web.renewal;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import lanemend.renewal.exposure.Exposure;

/** What an engineer must have in mind before leaning on the evidence. */
final class Cautions {
  private Cautions() {}

  static List<String> of(FlaggedSection section, EvidenceContext context) {
    Set<String> cautions = new LinkedHashSet<>();
    cautions.add(
        "The evidence is past repairs, not the pavement itself: walk it, core it, look at drainage"
            + " and the ground first.");
    cautions.add(
        "Repairs follow budgets and crews as well as wear: a year without money looks like a good"
            + " road.");
    cautions.add(
        "The section's own level is estimated from the same repairs that flagged it, so it leans"
            + " high.");
    Exposure exposure = context.study().exposure();
    String route = section.cluster().routeId();
    exposure.toAsk().stream()
        .filter(a -> overlaps(section, route, a.routeId(), a.fromAlongM(), a.toAlongM()))
        .forEach(a -> cautions.add("Not answered yet: " + a.question()));
    exposure.inferred().stream()
        .filter(a -> overlaps(section, route, a.routeId(), a.fromAlongM(), a.toAlongM()))
        .forEach(a -> cautions.add("Surfacing year " + a.year() + " is inferred: " + a.rule()));
    section.overlay().design().ifPresent(d -> cautions.addAll(d.cautions()));
    return List.copyOf(cautions);
  }

  private static boolean overlaps(
      FlaggedSection section, String route, String otherRoute, double from, double to) {
    return route.equals(otherRoute) && from < section.toAlongM() && to > section.fromAlongM();
  }
}
